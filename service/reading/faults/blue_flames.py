"""Whether a flame is said to be blue, as it should be."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_NO_BLUE = frozenset(["no", "not", "any", "without", "a", "is", "una", "see"])
_BLUE = frozenset(["blue", "azul", "azules", "azulita", "azulitas"])
_LOOKS = frozenset((
    "is", "are", "burns", "burning", "comes", "out", "looks", "still", "all", "nice", "and", "steady", "pretty", "good", "real",
    "on", "of", "the", "my", "de", "la", "el", "stove", "range", "cooktop", "burner", "burners", "estufa", "quemador",
    "sale", "salen", "esta", "estan", "se", "ve", "ven", "bien", "toda", "todas", "muy",
))  # fmt: skip
"""What may stand between a flame and its blue: “the fire comes out blue”, “la flama se ve azulita”."""
_LOOKS_FOR = 7


def is_blue(hit: Hit, words: Sequence[Word]) -> bool:
    """“blue flame”, “flama azul”: as a gas flame should be; not “no blue flame”."""
    first = hit.start - 1
    if first >= 0 and words[first].form in _BLUE and not words[hit.start].brk:
        return first == 0 or words[first - 1].form not in _NO_BLUE
    if words[first].form == "no":
        return False
    for word in words[hit.end : hit.end + _LOOKS_FOR]:
        if word.brk or word.form not in _LOOKS:
            return word.form in _BLUE and not word.brk
    return False
