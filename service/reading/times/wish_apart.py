"""Hours that each hold for a day of their own: “tuesday before 11 or thursday after 3”."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from service.reading.model import Wish
from service.reading.times.day_words import form_at
from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

_JOINS = frozenset(("or", "o", "and", "y"))
_BETWEEN = frozenset(("between", "entre"))
_BEFORE_DAY = frozenset(("el", "los", "on", "the", "this", "next", "este", "proximo"))
_TO = frozenset(("to", "thru", "through", "a", "al", "until", "till", "til", "hasta"))
"""“monday to thursday” is one stretch of days."""
_NEAR = 5
"""“between 8 and 10”: so many words on, the "and" is of the hours."""

ReadPiece = Callable[[Sequence[Word]], Wish | None]
"""The wish that a part of the words tells by itself."""


def with_hours_apart(wish: Wish | None, words: Sequence[Word], read: ReadPiece) -> Wish | None:
    """*wish*, each day with the hours told of it, where the text tells hours of several days; else as it is."""
    if wish is None or len(_days(wish)) <= 1:
        return wish
    pieces = list(_pieces(words))
    told = [found for piece in pieces if (found := read(piece)) is not None] if len(pieces) > 1 else []
    groups = [found for found in _grouped(told) if _days(found)]
    hours = {_hours(found) for found in groups}
    if len(groups) <= 1 or len(hours) <= 1 or sum(bool(_bound(found)) for found in groups) <= 1:
        return wish
    return replace(wish, apart=tuple(groups))


def _pieces(words: Sequence[Word]) -> Iterator[Sequence[Word]]:
    """The words between one "or", "and", sign or next day and another; the "and" of “between 8 and 10” parts nothing."""
    first = 0
    for at in range(len(words) + 1):
        joins = form_at(words, at) in _JOINS and not _is_of_a_span(words, at)
        if at == len(words) or joins or _parts(words, at) or _is_next_day(words, first, at):
            if at > first:
                yield words[first:at]
            first = at + 1 if joins else at


def _parts(words: Sequence[Word], at: int) -> bool:
    """Whether a sign parts the word at *at* from that before; the dash of “8-10” and “mon-wed” does not."""
    if at == 0 or not words[at].brk:
        return False
    both = (words[at - 1].form, words[at].form)
    return not (all(form[0].isdigit() for form in both) or all(form in DAYS for form in both))


def _is_next_day(words: Sequence[Word], first: int, at: int) -> bool:
    """“tuesday before 11 thursday after 3”: a second day, where the first one opened what is told."""
    if words[at].form not in DAYS or at - first <= 1:
        return False
    opened = next((word.form for word in words[first:at] if word.form not in _BEFORE_DAY), "")
    return opened in DAYS and words[at - 1].form not in _TO


def _is_of_a_span(words: Sequence[Word], at: int) -> bool:
    return any(form_at(words, back) in _BETWEEN for back in range(max(0, at - _NEAR), at))


def _grouped(told: Sequence[Wish]) -> list[Wish]:
    """
    One wish for each of the days with its hours.

    Days alone share the hours told next (“tuesday or wednesday after 3”); hours alone are further ones of the days before.
    """
    groups: list[Wish] = []
    waiting: list[Wish] = []
    for found in told:
        if _days(found) and not _bound(found):
            waiting.append(found)
        elif _days(found) or waiting:
            groups += [_with_days(found, day) for day in (*waiting, found) if _days(day)]
            waiting = []
        elif groups and _bound(found):
            groups.append(_with_days(found, groups[-1]))
    return [*groups, *waiting]


def _with_days(hours: Wish, days: Wish) -> Wish:
    return replace(hours, days_in=days.days_in, relative=days.relative, dates=days.dates, week=days.week)


def _days(wish: Wish) -> tuple[object, ...]:
    return (*wish.days_in, *wish.relative, *wish.dates)


def _hours(wish: Wish) -> tuple[object, ...]:
    return (wish.start, wish.end, wish.part, wish.point, wish.also)


def _bound(wish: Wish) -> bool:
    return bool(wish.start or wish.end or wish.part)
