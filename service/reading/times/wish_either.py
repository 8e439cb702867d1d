"""Several stretches of the day of which any will do: “before 11 or after 3”, “mornings or after 4”, “8-10 or 3-5”."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import time
from typing import NamedTuple

from service.reading.model import Part
from service.reading.times.clock import AFTER, BEFORE, exact_time, hours_between
from service.reading.times.day_words import form_at
from service.reading.times.wish_draft import Draft
from service.reading.times.wish_gathering import gathered
from service.reading.words.normalising import Word

_OR = frozenset(("or", "o"))
_AND = frozenset(("and", "y"))
_BOUNDS = BEFORE | AFTER
_OF_PART: dict[Part, tuple[time | None, time | None]] = {
    "morning": (None, time(12)),
    "afternoon": (time(12), time(17)),
    "evening": (time(17), None),
}


class Stretch(NamedTuple):
    """From and to, or a part of the day; first, last: the signs of the text where it is told."""

    start: time | None
    end: time | None
    part: Part | None
    first: int
    last: int

    @property
    def hours(self) -> tuple[time | None, time | None]:
        """From and to, of a part as well."""
        return (self.start, self.end) if self.part is None else _OF_PART[self.part]


def either_stretch(draft: Draft, words: Sequence[Word], folded: str, *, framed: bool) -> None:
    """
    Have each stretch of the day that an "or" joins be of the wish, not the last alone.

    framed: a time is sought, so that “8-10 or 3-5” are hours.
    """
    if not (framed and any(word.form in _OR | _AND for word in words)):
        return
    told = [found for piece in _pieces(words) if (found := _stretch(draft.text, piece, folded)) is not None]
    told = list({found.hours: found for found in told}.values())
    open_ends = {(found.hours[0] is None, found.hours[1] is None) for found in told}
    if len(told) <= 1 or open_ends in ({(True, False)}, {(False, True)}):
        return  # of “after 3 or after 4” the last word counts
    draft.start, draft.end, draft.part = told[0].start, told[0].end, told[0].part
    draft.from_then = True
    draft.also = [found.hours for found in told[1:]]
    for found in told:
        draft.saw_signs(found.first, found.last)


def _pieces(words: Sequence[Word]) -> Iterator[Sequence[Word]]:
    """The words between one "or" and the next, or an "and" with a bound behind it; none over the end of a sentence."""
    first = 0
    for at in range(len(words) + 1):
        joins = form_at(words, at) in _OR or (form_at(words, at) in _AND and form_at(words, at + 1) in _BOUNDS)
        if at == len(words) or joins or words[at].brk == 2:
            if at > first:
                yield words[first:at]
            first = at + 1 if joins else at


def _stretch(text: str, piece: Sequence[Word], folded: str) -> Stretch | None:
    """The stretch of the day that *piece* tells; None for one point of time, or for none."""
    begins, ends = piece[0].start, piece[-1].end
    said = folded[begins:ends]
    if (span := hours_between(said)) is not None:
        sound = span.start < span.end
        return Stretch(span.start, span.end, None, begins + span.first, begins + span.last) if sound else None
    draft = gathered(text, piece, ())
    first, last = (begins if draft.first is None else draft.first), max(draft.last, begins)
    if (clock := exact_time(said)) is not None:
        after = bool(AFTER & set(re.findall(r"[a-z]+", said[: clock.first])[-3:]))
        start, end = (None, clock.at) if clock.until else (clock.at, None)
        return Stretch(start, end, None, first, begins + clock.last) if clock.until or after else None
    if draft.start is not None and not draft.from_then:
        return None
    if draft.start is None and draft.end is None:
        return Stretch(None, None, draft.part, first, last) if draft.part is not None else None
    return Stretch(draft.start, draft.end, None, first, last)
