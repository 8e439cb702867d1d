"""A wish while it is being read: what was seen of it so far, and where in the text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import time

from service.reading.model import Day, Part, Week
from service.reading.times.requested import is_requested
from service.reading.words.normalising import Word

EXCEPTING = ("but", "except", "excepto", "menos", "salvo")
"""“any day but friday” wants all others."""


@dataclass(slots=True)
class Draft:
    """
    Days, hours and places of the text, as they are seen. away: days of the visit that stands; told: days on which something
    else is on; seen: at which words a time was seen, and whether it is asked for there;
    turned: an hour named as the latest is the earliest. also: further stretches of the day that will do.
    """

    days_in: list[Day] = field(default_factory=list)
    days_out: list[Day] = field(default_factory=list)
    dates: list[tuple[int, int]] = field(default_factory=list)
    relative: list[int] = field(default_factory=list)
    relative_out: list[int] = field(default_factory=list)
    week: Week | None = None
    start: time | None = None
    end: time | None = None
    from_then: bool = False
    turned: bool = False
    part: Part | None = None
    soonest: bool = False
    first: int | None = None
    last: int = 0
    hours: list[tuple[int, time]] = field(default_factory=list)
    requested: bool = False
    text: str = ""
    away: list[Day] = field(default_factory=list)
    told: list[Day] = field(default_factory=list)
    also: list[tuple[time | None, time | None]] = field(default_factory=list)
    seen: list[tuple[int, bool]] = field(default_factory=list)

    def saw_signs(self, first: int, last: int) -> None:
        """Have the signs from *first* to *last* be of the wish."""
        self.first = first if self.first is None else min(self.first, first)
        self.last = max(self.last, last)

    def saw(self, words: Sequence[Word], first: int, last: int) -> None:
        """Have the words from *first* to *last* be of the wish."""
        start, end = words[first].start, words[min(last, len(words) - 1)].end
        self.first = start if self.first is None else min(self.first, start)
        self.last = max(self.last, end)
        requested = is_requested(words, last)
        self.seen.append((last, requested))
        self.requested = self.requested or requested
