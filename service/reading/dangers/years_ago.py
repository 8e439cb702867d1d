"""
Dangers of years ago: “in 1994 a stove of ours threw sparks, that one is scrap”, “se prendió un trapo pero eso fue hace como
tres años”. Told of again, still or anew, they are of today.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.settling import is_year_gone
from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 20
_BEHIND = 6
"""How far behind a danger it may be told that this was years ago, and behind that the years."""
_THAT_WAS = frozenset((
    ("that", "was"), ("this", "was"), ("it", "was"), ("eso", "fue"), ("fue", "hace"), ("de", "eso"), ("happened", "years"),
))  # fmt: skip
_YEARS = listed("years yrs anos decades")
_AGO = listed("ago back hace")
_STAYS = listed("again still sigue siguen otra volvio vuelve todavia keeps")
_OPENS = 3
"""A year that tells when stands among the first words of its sentence."""


def was_years_ago(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told of a year long gone, or of years ago, and of nothing that goes on."""
    if any(word.form in _STAYS for word in words[hit.end :]):
        return False
    first, _ = sentence_of(hit, words, _REACH)
    if any(is_year_gone(words, at) for at in range(first, min(first + _OPENS, hit.start))):
        return True
    return any(_so_long_ago(at, words) for at in range(hit.end, min(hit.end + _BEHIND, len(words) - 1)))


def _so_long_ago(at: int, words: Sequence[Word]) -> bool:
    """“that was like ten years ago”, “eso fue hace como tres años”."""
    if (words[at].form, words[at + 1].form) not in _THAT_WAS:
        return False
    near = words[at : at + 2 + _BEHIND]
    forms = {word.form for word in near}
    return bool(forms & _YEARS and forms & _AGO) and not any(b.brk == 2 for _, b in pairwise(near[:4]))
