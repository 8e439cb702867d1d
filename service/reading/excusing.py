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
from service.reading.leaning import NOTHING, WORDS_FOR_DANGER
from service.reading.model import HazardFound
from service.reading.normalising import Normal, Word
from service.reading.second_opinion import SecondOpinion

TELLS_OF_NOTHING = -0.7
"""
The margin of a danger over nothing below which it is dropped where an excuse stands beside it; of texts from which nothing had
been learned, nineteen in twenty true dangers stand above it whatever stands beside them, and one false alarm in four.
"""


def unalarmed(
    screened: Screened, taught: SecondOpinion, normal: Normal, codes: tuple[str, ...], marks: Marks
) -> Screened:
    """*screened* without the dangers of which the text tells by its phrases alone, and gives an excuse in its sentence or behind."""
    excuses = marks.at("excusing")
    if not excuses or len(normal.words) < WORDS_FOR_DANGER:
        return screened
    last = max(start for start, _ in excuses)
    excused = [f for f in screened.raised if _sentence_start(f, normal.words) <= last]
    opinion = taught.of(normal.words.keys().forms, codes) if excused else None
    if opinion is None:
        return screened
    nothing = opinion.margins.get(NOTHING, 0.0)
    dropped = [f for f in excused if opinion.margins.get(f.code, 0.0) - nothing < TELLS_OF_NOTHING]
    if not dropped:
        return screened
    notes = tuple(f"“{f.words}” raises no {f.code}: excused, and such words mostly tell of nothing." for f in dropped)
    kept = tuple(f for f in screened.raised if f not in dropped)
    return replace(screened, raised=kept, notes=(*screened.notes, *notes))


def _sentence_start(found: HazardFound, words: Sequence[Word]) -> int:
    at = next((at for at, word in enumerate(words) if word.end > found.start), 0)
    while at > 0 and words[at].brk != 2:
        at -= 1
    return at
