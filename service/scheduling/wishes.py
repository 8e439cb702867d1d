"""A customer's wish laid on the calendar: which windows it allows, and how far the others are from it."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from service.scheduling.hours import WEEK
from service.scheduling.model import Wished

NOON, EVENING = time(12), time(17)
_DAY_OFF_MIN = 240.0
"""A day from the one wished for weighs like four hours from the hour wished for."""
_REFUSED_MIN = 10_000.0


def binds(wish: Wished | None) -> bool:
    """Whether *wish* narrows anything; "as soon as possible" alone only orders."""
    return wish is not None and bool(
        wish.days_in or wish.days_out or wish.dates or wish.relative or wish.week or wish.start or wish.end or wish.part
    )


def allows(wish: Wished | None, start: datetime, end: datetime, now: datetime) -> bool:
    """
    Whether the window *start* to *end* (aware, shop-local) is one *wish* asks for.

    Times of day bind the whole window: "after 3" begins at 3 or later, "before noon" ends by noon.
    """
    return wish is None or (allows_day(wish, start, now) and _hour_gap(wish, start, end) == 0)


def allows_day(wish: Wished, start: datetime, now: datetime) -> bool:
    """Whether the day of *start* is one *wish* asks for, whatever the hours."""
    return _names(wish, start.date(), now.astimezone(start.tzinfo).date())


def distance(wish: Wished, start: datetime, end: datetime, now: datetime) -> float:
    """How far a window is from *wish*, in minutes; 0 when it fits; days that were ruled out are the farthest."""
    days = _day_gap(wish, start.date(), now, start)
    refused = _REFUSED_MIN if WEEK[start.weekday()] in wish.days_out else 0.0
    return refused + days * _DAY_OFF_MIN + _hour_gap(wish, start, end)


def _day_gap(wish: Wished, day: date, now: datetime, like: datetime) -> int:
    """How many days *day* is from the nearest day that *wish* names; 0 when it is one of them."""
    today = now.astimezone(like.tzinfo).date()
    for gap in range(22):
        if any(_names(wish, day + timedelta(days=step), today) for step in {gap, -gap}):
            return gap
    return 22


def _names(wish: Wished, day: date, today: date) -> bool:
    """Whether *wish* allows *day*."""
    weekday = WEEK[day.weekday()]
    if weekday in wish.days_out:
        return False
    if (day.month, day.day) in wish.dates or (day - today).days in wish.relative:
        return True
    if wish.week is not None and _week_of(day) != _week_of(today) + timedelta(weeks=wish.week == "next"):
        return False
    if wish.days_in:
        return weekday in wish.days_in and not _said_twice(wish, today)
    return not wish.dates and not wish.relative


def _said_twice(wish: Wished, today: date) -> bool:
    """Whether the weekdays only repeat the dates: "Thursday the 4th" is one day, "tomorrow or Friday" are two."""
    named = {WEEK[(today + timedelta(days=ahead)).weekday()] for ahead in wish.relative}
    for ahead in range(366):
        day = today + timedelta(days=ahead)
        if (day.month, day.day) in wish.dates:
            named.add(WEEK[day.weekday()])
    return bool(named) and set(wish.days_in) <= named


def _week_of(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _hour_gap(wish: Wished, start: datetime, end: datetime) -> float:
    """Minutes by which the window misses the hours wished for."""
    first, last = start.time(), end.time()
    over_midnight = end.date() > start.date()
    gap = 0.0
    if wish.start is not None and first < wish.start:
        gap += _minute(wish.start) - _minute(first)
    if wish.end is not None and (over_midnight or last > wish.end):
        gap += _minute(last) + 1440 * over_midnight - _minute(wish.end)
    if wish.part == "morning" and first >= NOON:
        gap += _minute(first) - _minute(NOON) + 1
    elif wish.part == "afternoon":
        gap += max(0, _minute(NOON) - _minute(first)) + max(0, _minute(first) - _minute(EVENING) + 1)
    elif wish.part == "evening" and first < EVENING:
        gap += _minute(EVENING) - _minute(first)
    return gap


def _minute(at: time) -> int:
    return at.hour * 60 + at.minute
