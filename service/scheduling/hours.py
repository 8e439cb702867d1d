"""When a shop is open, when it opens next, and when a text that we begin may go out. Safe over clock changes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from service.rulebook.schema.shop import Day, Shop, Span

WEEK: tuple[Day, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_LONGEST_CLOSURE_DAYS = 400


def zone_of(shop: Shop) -> ZoneInfo:
    """The shop's own time zone."""
    return ZoneInfo(shop.timezone)


@lru_cache(maxsize=4096)  # the days ahead are laid out again with every text that asks for a time
def local_moment(day: date, at: time, zone: ZoneInfo) -> datetime:
    """
    The moment when clocks in *zone* show *at* on *day*, as an aware local time.

    A time that a clock change skips becomes the same instant in the new time; one that comes twice is the first.
    """
    return datetime.combine(day, at, tzinfo=zone).astimezone(UTC).astimezone(zone)


def span_on(day: date, span: Span, zone: ZoneInfo) -> tuple[datetime, datetime]:
    """*span* on *day* as two aware local moments; an end at or before the start is on the next day."""
    ends = day if span.end > span.start else day + timedelta(days=1)
    return local_moment(day, span.start, zone), local_moment(ends, span.end, zone)


def open_on(shop: Shop, day: date) -> tuple[datetime, datetime] | None:
    """From when to when the shop is open on *day*; None when it is closed."""
    span = shop.hours.get(WEEK[day.weekday()])
    if span is None or day in shop.closed:
        return None
    return span_on(day, span, zone_of(shop))


def is_open(shop: Shop, now: datetime) -> bool:
    """Whether the office is open at *now* (aware, any zone)."""
    moment = now.astimezone(UTC)
    return any(start <= moment < end for start, end in _spans(shop, now, days=1))


def next_opening(shop: Shop, now: datetime) -> datetime:
    """
    The moment, shop-local, from which the office is open: *now* itself when it is open already.

    Raises ValueError when the shop's file leaves it closed for more than a year.
    """
    moment = now.astimezone(UTC)
    for start, end in _spans(shop, now, days=_LONGEST_CLOSURE_DAYS):
        if moment < end:
            return max(start, moment).astimezone(zone_of(shop))
    raise ValueError(f"shop '{shop.shop}' is never open in the year after {now:%Y-%m-%d}. Give it hours.")


def next_quiet_end(shop: Shop, now: datetime, zone: ZoneInfo | str | None = None) -> datetime:
    """
    The first moment from *now* on when a text that we begin may go out: *now* itself outside quiet hours.

    *zone* is where the recipient is; the shop's own when not given. Sources T5, T12: no text before ``quiet_end`` or from
    ``quiet_start`` on, by the recipient's clock.
    """
    where = zone_of(shop) if zone is None else ZoneInfo(zone) if isinstance(zone, str) else zone
    start, end = shop.policies.quiet_start, shop.policies.quiet_end
    if start == end:
        return now
    local = now.astimezone(where)
    clock = local.time()
    over_midnight = start > end
    if not (clock >= start or clock < end if over_midnight else start <= clock < end):
        return now
    ends = local.date() + timedelta(days=1) if over_midnight and clock >= start else local.date()
    return max(local_moment(ends, end, where).astimezone(UTC), now.astimezone(UTC)).astimezone(where)


def _spans(shop: Shop, now: datetime, *, days: int) -> Iterator[tuple[datetime, datetime]]:
    """Open spans in UTC from the day before *now* on: one that began yesterday may last past midnight."""
    today = now.astimezone(zone_of(shop)).date()
    for ahead in range(-1, days):
        span = open_on(shop, today + timedelta(days=ahead))
        if span is not None:
            yield span[0].astimezone(UTC), span[1].astimezone(UTC)
