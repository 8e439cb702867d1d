"""Where a function is named once and once more said to be so: “el agua sí la saca”, “enfriar enfría”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word


def insists(words: Sequence[Word], hit: Hit, negators: Sequence[tuple[int, int]]) -> bool:
    """“el agua sí la saca”, “congelar sí congela”, “enfriar enfría”: a function said to work, whatever stands before."""
    if hit.negated or any(end == hit.start for _, end in negators):
        return False
    inside = any(words[at].form == "si" for at in range(hit.start + 1, hit.end))
    return inside or _said_twice(words, hit.start, -1) or _said_twice(words, hit.end - 1, 1)


_SURELY = frozenset(["si", "se"])
"""What may stand between: “llenar sí se llena”."""


def _said_twice(words: Sequence[Word], at: int, step: int) -> bool:
    """Whether the verb at *at* stands twice, first to name it and then to say that it is so."""
    other = at + step
    while 0 <= other < len(words) and words[other].form in _SURELY:
        other += step
    if not 0 <= other < len(words):
        return False
    first, last = min(at, other), max(at, other)
    named, said = words[first], words[last]
    if any(word.brk for word in words[first + 1 : last + 1]):
        return False
    return named.form.endswith("r") and bool(named.es) and named.es == said.es and named.form != said.form
