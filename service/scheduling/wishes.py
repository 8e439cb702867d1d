"""A customer's wish laid on the calendar: which windows it allows, and how far the others are from it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from service.scheduling.hours import WEEK
from service.scheduling.model import Wished

NOON, EVENING = time(12), time(17)
_DAY_OFF_MIN = 240.0
"""A day after the one wished for weighs like four hours from the hour wished for."""
_DAY_BEFORE = 2
"""A day before it weighs like so many behind it: who names a day has often said that they cannot sooner."""
_WEEKS_LATER_DAYS = 2
"""The weekday wished for, but in a later week, weighs like so many days."""
_TODAY_MIN = 50_000.0
"""Today comes last where another day was asked for, unless it was to be soon."""
_REFUSED_MIN = 100_000.0
_HORIZON_DAYS = 90
"""Farther than any shop offers windows."""


def binds(wish: Wished | None) -> bool:
    """Whether *wish* narrows anything; "as soon as possible" alone only orders."""
    return wish is not None and bool(
        wish.days_in
        or wish.days_out
        or wish.dates
        or wish.dates_out
        or wish.relative
        or wish.relative_out
        or wish.week
        or wish.start
        or wish.end
        or wish.part
    )


@dataclass(frozen=True, slots=True)
class OnCalendar:
    """
    A wish laid on the calendar of one shop: the days it allows from yesterday on, and its hours.

    coming: of ``days`` those that are meant first; "Friday" is the one that comes, those after it are second best.
    apart: the wishes for days that have hours of their own; then no other hours count.
    """

    wish: Wished
    days: frozenset[date]
    coming: frozenset[date]
    today: date
    apart: tuple[OnCalendar, ...] = ()

    def allows(self, start: datetime, end: datetime) -> bool:
        """
        Whether the window *start* to *end* (aware, shop-local) is one the wish asks for.

        Times of day bind the whole window: "after 3" begins at 3 or later, "before noon" ends by noon. One point of time
        is held by the window: 1 to 3 for "at 2".
        """
        if self.apart:
            return start.date() in self.days and any(one.allows(start, end) for one in self.apart)
        return start.date() in self.days and _hour_gap(self.wish, start, end) == 0

    def meets(self, start: datetime, end: datetime) -> bool:
        """Whether the window is one the wish asks for on the days that come."""
        if self.apart:
            return start.date() in self.coming and any(one.meets(start, end) for one in self.apart)
        return start.date() in self.coming and _hour_gap(self.wish, start, end) == 0

    def distance(self, start: datetime, end: datetime) -> float:
        """
        How far a window is from the wish, in minutes; 0 when it fits.

        Days behind the one wished for are nearer than those before it; today is farther than those, and days that were
        ruled out are the farthest.
        """
        day = start.date()
        gap = min((_days_off(day, other) for other in self.coming), default=_HORIZON_DAYS)
        if day in self.days:
            gap = min(gap, _WEEKS_LATER_DAYS)
        hours = () if not self.apart else [one for one in self.apart if day in one.days] or self.apart
        off = min((_hour_gap(one.wish, start, end) for one in hours), default=None)
        far = gap * _DAY_OFF_MIN + (_hour_gap(self.wish, start, end) if off is None else off)
        if _refused(self.wish, day, self.today):
            far += _REFUSED_MIN
        elif gap and day == self.today and not self.wish.soonest:
            far += _TODAY_MIN
        return far


def lay(wish: Wished, now: datetime, zone: tzinfo) -> OnCalendar:
    """*wish*, said at *now*, on the calendar of *zone*."""
    today = now.astimezone(zone).date()
    twice = _said_twice(wish, today)
    horizon = (today + timedelta(days=ahead) for ahead in range(-1, _HORIZON_DAYS))
    days = frozenset(day for day in horizon if _names(wish, day, today, twice))
    apart = tuple(lay(one, now, zone) for one in wish.apart)
    return OnCalendar(wish, days, _coming(wish, days, today), today, apart)


def _coming(wish: Wished, days: frozenset[date], today: date) -> frozenset[date]:
    """Of *days* the dates named, and each weekday named as it comes next; today's own may mean the one in a week."""
    days = frozenset(day for day in days if day >= today) or days
    if not wish.days_in or wish.week is not None:
        return days
    soon = {day for day in days if day < today + timedelta(days=7 + (day.weekday() == today.weekday()))}
    return frozenset(soon | {day for day in days if _is_dated(wish, day, today)})


def _days_off(day: date, wished: date) -> int:
    """How far *day* is from the one *wished* for, in days after it."""
    off = (day - wished).days
    return off if off >= 0 else -off * _DAY_BEFORE


def _refused(wish: Wished, day: date, today: date) -> bool:
    dated_out = (day.month, day.day) in wish.dates_out or (day - today).days in wish.relative_out
    return dated_out or WEEK[day.weekday()] in wish.days_out


def _is_dated(wish: Wished, day: date, today: date) -> bool:
    return (day.month, day.day) in wish.dates or (day - today).days in wish.relative


def _names(wish: Wished, day: date, today: date, said_twice: bool) -> bool:
    """Whether *wish* allows *day*."""
    if _refused(wish, day, today):
        return False
    if _is_dated(wish, day, today):
        return True
    if wish.week is not None and _week_of(day) != _week_of(today) + timedelta(weeks=wish.week == "next"):
        return False
    if wish.days_in:
        return WEEK[day.weekday()] in wish.days_in and not said_twice
    return not wish.dates and not wish.relative


def _said_twice(wish: Wished, today: date) -> bool:
    """Whether the weekdays only repeat the dates: "Thursday the 4th" is one day, "tomorrow or Friday" are two."""
    if not wish.days_in or not (wish.dates or wish.relative):
        return False
    named = {WEEK[(today + timedelta(days=ahead)).weekday()] for ahead in wish.relative}
    for ahead in range(366):
        day = today + timedelta(days=ahead)
        if (day.month, day.day) in wish.dates:
            named.add(WEEK[day.weekday()])
    return set(wish.days_in) <= named


def _week_of(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _hour_gap(wish: Wished, start: datetime, end: datetime) -> float:
    """Minutes by which the window misses the hours wished for; of several stretches that will do, the nearest."""
    gaps = [_beyond(earliest, latest, start, end) for earliest, latest in wish.also]
    return min([_first_gap(wish, start, end), *gaps])


def _beyond(earliest: time | None, latest: time | None, start: datetime, end: datetime) -> float:
    """Minutes by which the window lies outside of what begins at *earliest* and ends by *latest*."""
    first, last = start.time(), end.time()
    over_midnight = end.date() > start.date()
    gap = 0.0
    if earliest is not None and first < earliest:
        gap += _minute(earliest) - _minute(first)
    if latest is not None and (over_midnight or last > latest):
        gap += _minute(last) + 1440 * over_midnight - _minute(latest)
    return gap


def _first_gap(wish: Wished, start: datetime, end: datetime) -> float:
    """Minutes by which the window misses the first stretch of hours wished for, or its one point of time."""
    first, last = start.time(), end.time()
    gap = _beyond(None if wish.point else wish.start, wish.end, start, end)
    if wish.start is not None and wish.point:
        gap += max(0, _minute(first) - _minute(wish.start), _minute(wish.start) - _minute(last) + 1)
    if wish.part == "morning" and first >= NOON:
        gap += _minute(first) - _minute(NOON) + 1
    elif wish.part == "afternoon":
        gap += max(0, _minute(NOON) - _minute(first)) + max(0, _minute(first) - _minute(EVENING) + 1)
    elif wish.part == "evening" and first < EVENING:
        gap += _minute(EVENING) - _minute(first)
    return gap


def _minute(at: time) -> int:
    return at.hour * 60 + at.minute
