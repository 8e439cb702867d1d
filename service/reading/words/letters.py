"""A quick look for letters, before a pattern of many words is tried on a whole text."""

from __future__ import annotations

import re

_FIGURE = re.compile("[0-9]")


def has_any(folded: str, letters: tuple[str, ...]) -> bool:
    """Whether any of *letters* stands in *folded*: a loop, for a pattern of many words takes several times as long."""
    for some in letters:  # noqa: SIM110 - without the price of a generator
        if some in folded:
            return True
    return False


def has_digit(value: str) -> bool:
    """Whether any sign of *value* is a figure."""
    return _FIGURE.search(value) is not None or (not value.isascii() and any(map(str.isdigit, value)))
