"""
Smoke and smells that a word points back to what was lit or cooked before: “we do sahumerio every friday, that's the smoke”,
“hice carne asada, el humo es de ahí”.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.source_words import COOKED, COOKING, MACHINES, SOURCES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_SMELT = frozenset(["smoke", "burning_smell"])
_LIT = (SOURCES | COOKED | COOKING | listed("sahumerio sahumerios muneco copalito palo")) - listed(
    "neighbor nextdoor vecino"
)
_REACH = 12
_POINTS = (("thats", "the"), ("thats", "your"), ("era", "el"), ("es", "el"), ("ahi", "el"), ("thats", "what", "the"))
_ESE = listed("ese eso de that")
_POINTED_AT = (
    ("es", "de", "ahi"),
    ("era", "de", "ahi"),
    ("viene", "de", "ahi"),
    ("sale", "de", "ahi"),
    ("is", "from", "that"),
)
_DOUBTS = listed("not isnt wasnt no maybe think creo quiza quizas if si or o still sigue todavia")


def points_back(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is told to be of what was lit or cooked before it, no machine named between."""
    if hit.payload.code not in _SMELT or words[hit.start].asks or not _points(hit, words):
        return False
    for at in range(hit.start - 1, max(-1, hit.start - _REACH - 1), -1):
        if words[at].form in MACHINES or words[at].form in _DOUBTS:
            return False
        if words[at].form in _LIT:
            return True
    return False


def _points(hit: Hit, words: Sequence[Word]) -> bool:
    before = [word.form for word in words[max(0, hit.start - 3) : hit.start]]
    for pair in _POINTS:
        if tuple(before[-len(pair) :]) == pair:
            return pair[0] == "thats" or before[0] in _ESE
    return tuple(word.form for word in words[hit.end : hit.end + 3]) in _POINTED_AT
