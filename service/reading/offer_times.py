"""Which window of an offer the time in a text takes, and when it names another one instead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import time

from service.reading.clock import hours_between
from service.reading.days import weekday_of
from service.reading.matching import Hit
from service.reading.model import Choice, Wish
from service.reading.normalising import Word, fold

_NOON, _EVENING = time(12), time(17)


def _is_in_part(option: Choice, wish: Wish) -> bool:
    """Whether an offer lies in the part of the day told, and on its day if one is: “la de la tarde”."""
    hours = hours_between(fold(option.say))
    if hours is None or (wish.days_in and weekday_of(option.say) != wish.days_in[0]):
        return False
    part = "morning" if hours.start < _NOON else "afternoon" if hours.start < _EVENING else "evening"
    return part == wish.part


def by_wish(wish: Wish | None, options: Sequence[Choice], wish_words: Sequence[str] = ()) -> int | None:
    """
    An offer by its weekday or its hour, when only one fits: “the thursday one works”, “at 1”, “tuesday no, thursday
    yes”. A day that stands in no offer's words ("tomorrow") is for the calendar.
    """
    if wish is None or wish.relative or wish.dates or len(wish.days_in) > 1:
        return None
    if wish.relative_out or (wish.days_out and len(wish.days_in) != 1):
        return None
    hour = _hour_meant(wish)
    if wish.start is not None and wish.end is not None:
        same = [n for n, option in enumerate(options) if _is_span(option, wish.start, wish.end, wish)]
        return same[0] if len(same) == 1 else None
    if wish.part is not None and hour is None and (wish.days_in or {"one", "de"} & set(wish_words)):
        placed = [n for n, option in enumerate(options) if _is_in_part(option, wish)]
        return placed[0] if len(placed) == 1 else None
    if not wish.days_in and hour is None:
        return None
    matching = [
        number
        for number, option in enumerate(options)
        if (not wish.days_in or weekday_of(option.say) == wish.days_in[0])
        and (hour is None or _holds(option, hour) is not False)
    ]
    if len(matching) > 1 and wish.days_in and not wish.start:
        return matching[-1] if _LATE & set(wish_words) else matching[0] if _EARLY & set(wish_words) else None
    return matching[0] if len(matching) == 1 else None


_LATE = frozenset(("late", "later", "latest", "last", "ultima", "second", "segunda"))
_EARLY = frozenset(("early", "earlier", "earliest", "temprano", "first", "primera"))
"""“the late one friday”: of two windows on the day."""


def _is_span(option: Choice, start: time, end: time, wish: Wish) -> bool:
    """Whether an offer is the very window told: “between one and three is fine”."""
    hours = hours_between(fold(option.say))
    day = not wish.days_in or weekday_of(option.say) == wish.days_in[0]
    return hours is not None and day and (hours.start, hours.end) == (start, end)


def unless_other_time(index: int, wish: Wish | None, options: Sequence[Choice]) -> int | None:
    """The offer at *index*, unless the hour that is named lies outside it, or its day is ruled out."""
    if wish is not None and (wish.relative_out or weekday_of(options[index].say) in wish.days_out):
        return None
    hour = _hour_meant(wish) if wish is not None else None
    return None if hour is not None and _holds(options[index], hour) is False else index


_FROM_THEN_ON = frozenset(("after", "past", "from", "later", "desde", "despues", "después", "adelante"))


def _hour_meant(wish: Wish) -> time | None:
    """The one hour a wish names ("at 1"), none for "after 1" or "1 to 3"."""
    return None if wish.end is not None or _FROM_THEN_ON & set(wish.words.lower().split()) else wish.start


def _holds(option: Choice, hour: time) -> bool | None:
    """Whether the window of an offer holds *hour*; None when its words name no hours."""
    hours = hours_between(fold(option.say))
    return hours.start <= hour < hours.end if hours is not None else None


_REFUSALS = frozenset(("none", "neither", "ninguno", "ninguna", "those", "esos", "esas"))


def names_another(wish: Wish, replies: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """
    Whether *wish* says when instead: “not the 3rd. the 5th”, “any time past 1”; not the "either" before a part of the day, nor
    after “none of those”, which answers by itself.
    """
    none = replies.get("none")
    if none is not None and _REFUSALS & {word.form for word in words[none.start : none.end]}:
        return False
    day = bool(wish.days_in or wish.dates or wish.relative or wish.holiday)
    hours = bool(wish.start or wish.end)
    return day or (hours and ("either" not in replies or replies["either"].start > 0))
