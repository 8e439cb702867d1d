"""Stored states of earlier shapes into the shape of today, one pure step at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from service.conversation.state import SHAPE, State

Document = dict[str, object]

UPGRADES: dict[int, Callable[[Document], Document]] = {}
"""Shape number to the function that makes a document of that shape one of the next. A golden file stands for each shape."""


class ShapeUnknown(ValueError):
    """A state of a shape that this code does not know: written by newer code, or not a state."""


def read_state(document: Mapping[str, object] | None) -> State:
    """
    The state in *document*, upgraded where it is of an earlier shape; a fresh one for None or an empty document.

    Raises ShapeUnknown, and pydantic's ValidationError for a document that is not what its shape says.
    """
    if not document:
        return State()
    held = dict(document)
    shape = held.get("shape", SHAPE)
    while shape != SHAPE:
        upgrade = UPGRADES.get(shape) if isinstance(shape, int) else None
        if upgrade is None:
            raise ShapeUnknown(f"a state of shape {shape!r} cannot be read; this code knows shapes up to {SHAPE}.")
        held = upgrade(held)
        shape = held.get("shape")
    return State.model_validate(held)
