"""Which window of an offer the time in a text takes, and when it names another one instead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import time

from service.reading.model import Choice, Wish
from service.reading.times.clock import hours_between
from service.reading.times.days import DAYS, weekday_of
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, fold

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
    if wish is None or wish.also or wish.apart or wish.relative or wish.dates or len(wish.days_in) > 1:
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
    return _of_one_day(matching, wish, options, wish_words)


_LATE = frozenset(("late", "later", "last", "latest", "latter", "tarde", "ultima", "second", "segunda"))
_EARLY = frozenset(("early", "earlier", "earliest", "first", "temprano", "tempranito", "primera"))


def _of_one_day(matching: Sequence[int], wish: Wish, options: Sequence[Choice], said: Sequence[str]) -> int | None:
    """The one offer that matches; of several on a day that in the part of it told, or “the late one Friday”."""
    if len(matching) > 1 and wish.part is not None:
        matching = [n for n in matching if _is_in_part(options[n], wish)] or matching
    if len(matching) > 1 and wish.days_in and (bool(_LATE & {*said}) != bool(_EARLY & {*said})):
        return matching[-1] if _LATE & {*said} else matching[0]
    return matching[0] if len(matching) == 1 else None


_BECAUSE = frozenset(("porque", "pq", "because", "cause", "cuz", "since", "bc", "pues", "que"))
_OR = frozenset(("or", "o", "u", "and", "y", "either", "also", "tambien", "then", "but", "pero"))
_REFUSED = frozenset(("no", "not", "cant", "puedo", "wont", "out", "busy", "ni"))
_TELLS = 2


def first_of_two_days(words: Sequence[Word], options: Sequence[Choice]) -> int | None:
    """“Thursday, Tuesday I have the car tested”, “el miércoles porque el martes fumigan”: the first is taken."""
    days = [at for at, word in enumerate(words) if word.form in DAYS]
    if len(days) != OF_BOTH or DAYS[words[days[0]].form] == DAYS[words[days[1]].form] or len(words) - days[1] <= _TELLS:
        return None
    first, second = days
    between = words[first + 1 : second + 1]
    if first > 1 or (_OR | _REFUSED) & {word.form for word in words[first + 1 : second]}:
        return None
    if not (any(word.brk for word in between) or _BECAUSE & {word.form for word in between}):
        return None
    same = [n for n, option in enumerate(options) if weekday_of(option.say) == DAYS[words[first].form]]
    return same[0] if len(same) == 1 else None


OF_BOTH = 2


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
    """The one hour a wish names ("at 1"), none for "after 1", "1 to 3" or several stretches."""
    several = bool(wish.also or wish.apart)
    return None if several or wish.end is not None or _FROM_THEN_ON & set(wish.words.lower().split()) else wish.start


def _holds(option: Choice, hour: time) -> bool | None:
    """Whether the window of an offer holds *hour*; None when its words name no hours."""
    hours = hours_between(fold(option.say))
    return hours.start <= hour < hours.end if hours is not None else None


_REFUSALS = frozenset(("none", "neither", "ninguno", "ninguna", "those", "these", "esos", "esas", "estos", "estas"))


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
