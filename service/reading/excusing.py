"""
Dangers that a phrase tells and the text as a whole does not: where it gives an excuse besides, and its words are those in which
customers tell of nothing.

Neither is enough alone: an excuse stands beside many a true danger, and few words may tell one that was never told before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from service.reading.clauses import Marks
from service.reading.hazards import Screened
from service.reading.leaning import WORDS_FOR_DANGER
from service.reading.model import HazardFound
from service.reading.normalising import CONTRASTS, Normal, Word
from service.reading.second_opinion import NOTHING, Opinion, SecondOpinion

TELLS_OF_NOTHING = -0.7
"""
The margin of a danger over nothing below which it is dropped where an excuse stands beside it; of texts from which nothing had
been learned, nineteen in twenty true dangers stand above it whatever stands beside them, and one false alarm in four.
"""

SURELY_TELLS_OF_NOTHING = -1.2
"""The margin for a faint excuse: a laugh or a dinner."""

_FAINTLY = frozenset(["smoke", "burning_smell", "hot_wiring", "refrigerant_leak"])
"""Dangers that a laugh or a dinner may excuse; fire, gas and shocks never."""

_TURNS = CONTRASTS | {"then", "luego", "except", "only"}
_DOUBTING = frozenset((
    "thought", "think", "figured", "assumed", "maybe", "probably", "creo", "pense", "pensaba", "pensamos", "creia", "creiamos",
    "not", "isnt", "wasnt", "no",
))  # fmt: skip
_NOW = frozenset((
    "again", "still", "keeps", "now", "tonight", "today", "right", "started", "starting", "volvio", "sigue", "ahora", "ahorita",
    "hoy", "otra", "empezo", "todavia",
))  # fmt: skip
_NEAR = 3


def unalarmed(
    screened: Screened, taught: SecondOpinion, normal: Normal, codes: tuple[str, ...], marks: Marks
) -> Screened:
    """*screened* without the dangers of which the text tells by its phrases alone, and gives an excuse beside or behind."""
    words = normal.words
    sure, faint = (_last(marks, name, words) for name in ("excusing", "excusing_faintly"))
    if max(sure, faint) < 0 or len(words) < WORDS_FOR_DANGER:
        return screened
    doubtful = [f for f in screened.raised if not _is_now(f, words)]
    opinion = taught.of(words.keys().forms, codes) if doubtful else None
    if opinion is None:
        return screened
    dropped = [f for f in doubtful if _over_nothing(opinion, f) < _enough(f, sure, faint, words)]
    if not dropped:
        return screened
    notes = tuple(f"“{f.words}” raises no {f.code}: excused, and such words mostly tell of nothing." for f in dropped)
    kept = tuple(f for f in screened.raised if f not in dropped)
    return replace(screened, raised=kept, notes=(*screened.notes, *notes))


def _last(marks: Marks, name: str, words: Sequence[Word]) -> int:
    """Where the last excuse of list *name* stands that nobody doubts: “I thought it was the toast” is none."""
    stand = (
        start
        for start, _ in marks.at(name)
        if not any(word.form in _DOUBTING for word in words[max(0, start - _NEAR) : start])
    )
    return max(stand, default=-1)


def _over_nothing(opinion: Opinion, found: HazardFound) -> float:
    return opinion.margins.get(found.code, 0.0) - opinion.margins.get(NOTHING, 0.0)


def _enough(found: HazardFound, sure: int, faint: int, words: Sequence[Word]) -> float:
    """The margin below which *found* is dropped, for the excuses that stand in its part of the text or behind."""
    begins = _part_start(found, words)
    if sure >= begins:
        return TELLS_OF_NOTHING
    if faint >= begins and found.code in _FAINTLY:
        return SURELY_TELLS_OF_NOTHING
    return float("-inf")


def _place(found: HazardFound, words: Sequence[Word]) -> int:
    return next((at for at, word in enumerate(words) if word.end > found.start), 0)


def _part_start(found: HazardFound, words: Sequence[Word]) -> int:
    """Where the part of the text begins in which *found* stands: behind a stop or a “but”."""
    at = _place(found, words)
    while at > 0 and words[at].brk != 2 and words[at].form not in _TURNS:
        at -= 1
    return at


def _is_now(found: HazardFound, words: Sequence[Word]) -> bool:
    """Whether *found* is told as of now, or as come again."""
    at = _place(found, words)
    last = next((n for n in range(at, len(words)) if words[n].start >= found.end), len(words))
    return any(word.form in _NOW for word in words[max(0, at - _NEAR) : min(len(words), last + _NEAR - 1)])
