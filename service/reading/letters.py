"""A quick look for letters, before a pattern of many words is tried on a whole text."""

from __future__ import annotations


def has_any(folded: str, letters: tuple[str, ...]) -> bool:
    """Whether any of *letters* stands in *folded*: a loop, for a pattern of many words takes several times as long."""
    for some in letters:  # noqa: SIM110 - without the price of a generator
        if some in folded:
            return True
    return False
