"""Whether a flame is said to be blue, as it should be."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_NO_BLUE = frozenset(["no", "not", "any", "without", "a", "is", "una", "see"])
_BLUE = frozenset(["blue", "azul", "azules", "azulita", "azulitas"])


def is_blue(hit: Hit, words: Sequence[Word]) -> bool:
    """“blue flame”, “flama azul”: as a gas flame should be; not “no blue flame”."""
    first = hit.start - 1
    if first >= 0 and words[first].form in _BLUE and not words[hit.start].brk:
        return first == 0 or words[first - 1].form not in _NO_BLUE
    return (
        hit.end < len(words) and words[hit.end].form in _BLUE and not words[hit.end].brk and words[first].form != "no"
    )
