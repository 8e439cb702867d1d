"""Which windows to offer: those a technician can keep, nearest the wish, with the least added travel."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from operator import itemgetter
from typing import Literal

from service.rulebook.schema.shop import Shop, Technician
from service.scheduling.hours import local_moment, open_on, zone_of
from service.scheduling.model import Booked, Diary, Job, Offer, Offers, Wished
from service.scheduling.technician_day import DayWithJob, planned_minutes, standing_day, visits_by_day, works_on
from service.scheduling.wishes import NOON, OnCalendar, binds, lay

WAIT_PRICE_MIN = 4.0
"""What a day of waiting weighs against travel minutes: a near route in two weeks is no better than a detour tomorrow."""
LANGUAGE_PRICE_MIN = 20.0
"""What a technician who does not speak the customer's language weighs against travel minutes."""


Window = tuple[Technician, datetime, datetime]
Rank = tuple[float, float, datetime, str]
"""What windows are ordered by: distance from the wish, price in minutes, start, technician."""


def find_offers(
    shop: Shop,
    diary: Diary,
    job: Job,
    wish: Wished | None,
    now: datetime,
    *,
    language: str = "en",
    count: int = 3,
    moving: str | None = None,
) -> Offers:
    """
    Up to *count* windows for *job*, best first, no two in the same half-day.

    With a *wish* only windows that fit it; when none does, the nearest ones and ``fits_wish`` False. Ranked by added
    travel, days of waiting and language; by time when the wish is "as soon as possible". *moving*: a visit that is to
    get another window than it has and does not stand in its own way. Nothing is held: ``still_free`` looks again.
    """
    able = [technician for technician in shop.technicians if job.skills <= set(technician.skills)]
    if not able:
        missing = ", ".join(sorted(job.skills))
        return Offers((), not binds(wish), f"no technician has all the skills this needs: {missing}")
    laid = lay(wish, now, zone_of(shop)) if wish is not None and binds(wish) else None
    stands = next((visit.start for visit in diary.booked if visit.visit_id == moving), None)
    windows = [window for window in _windows(shop, able, now) if window[1] != stands]
    search = _Search(shop, diary, job, moving, now, language, wish is not None and wish.soonest, count)
    fitting = windows if laid is None else [window for window in windows if laid.meets(window[1], window[2])]
    found = search.best(fitting)
    if found or laid is None:
        return Offers(found, True, "" if found else f"no technician has room within {shop.windows.days_ahead} days")
    found = search.best(windows, laid)
    why = (
        "none of the windows asked for can be kept; the nearest instead" if found else "no room, as wished or otherwise"
    )
    return Offers(found, False, why)


Refusal = Literal["unknown", "skill", "lead", "shop_closed", "off", "hours", "full", "length", "beside"]
"""
Why a window cannot be kept: no such technician; a skill is lacking; too soon; the shop is closed that day; the technician
is off; outside the hours of both; the day is promised too full as it stands; the work and the way home end after the day;
the work and the way do not fit beside the visits that stand.
"""


def still_free(shop: Shop, diary: Diary, job: Job, offer: Offer, now: datetime, *, moving: str | None = None) -> bool:
    """
    Whether *offer* can still be kept with the diary as it is now.

    Half the shop's lead time is enough here, so that an offer does not lapse while the customer types.
    """
    return why_not(shop, diary, job, offer, now, moving=moving) is None


def why_not(
    shop: Shop, diary: Diary, job: Job, offer: Offer, now: datetime, *, moving: str | None = None
) -> Refusal | None:
    """What stands against *offer* with the diary as it is now, the first of what does; None if it can be kept."""
    technician = next((t for t in shop.technicians if t.id == offer.technician), None)
    if technician is None:
        return "unknown"
    if not job.skills <= set(technician.skills):
        return "skill"
    if offer.start < now.astimezone(UTC) + timedelta(minutes=shop.windows.lead_min / 2):
        return "lead"
    start, end = offer.start.astimezone(zone_of(shop)), offer.end.astimezone(zone_of(shop))
    if open_on(shop, start.date()) is None:
        return "shop_closed"
    hours = _hours(shop, technician, start.date())
    if hours is None:
        return "off"
    if start < hours[0] or end > hours[1]:
        return "hours"
    day = standing_day(shop, diary, technician, start.date(), moving)
    asked = None if day is None else day.with_job(job)
    if asked is None:
        return "full"
    if asked.added_travel(start, end) is not None:
        return None
    alone = standing_day(shop, Diary(), technician, start.date(), moving)
    by_itself = None if alone is None else alone.with_job(job)
    return "length" if by_itself is None or by_itself.added_travel(start, end) is None else "beside"


def _windows(shop: Shop, able: list[Technician], now: datetime) -> Iterator[Window]:
    """Every window of every able technician within the shop's days ahead, hours, days off and lead time."""
    zone = zone_of(shop)
    today = now.astimezone(zone).date()
    soonest = now.astimezone(UTC) + timedelta(minutes=shop.windows.lead_min)
    for ahead in range(shop.windows.days_ahead + 1):
        day = today + timedelta(days=ahead)
        working = [(who, hours) for who in able if (hours := _hours(shop, who, day)) is not None]
        if not working:
            continue
        for at in shop.windows.starts:
            start = local_moment(day, at, zone)
            end = _after(start, shop.windows.minutes)
            if start >= soonest:
                yield from ((who, start, end) for who, (first, last) in working if first <= start and end <= last)


def _hours(shop: Shop, technician: Technician, day: date) -> tuple[datetime, datetime] | None:
    """From when to when windows of *technician* may lie on *day*: at work while the shop is open."""
    hours, work = open_on(shop, day), works_on(shop, technician, day)
    return None if hours is None or work is None else (max(hours[0], work[0]), min(hours[1], work[1]))


def _after(start: datetime, minutes: int) -> datetime:
    """*minutes* of real time after *start*, shown by the same clock."""
    return (start.astimezone(UTC) + timedelta(minutes=minutes)).astimezone(start.tzinfo)


@dataclass(slots=True)
class _Search:
    """The best windows for one job. Days are worked out once each, and only as far as a window may still win."""

    shop: Shop
    diary: Diary
    job: Job
    moving: str | None
    now: datetime
    language: str
    soonest: bool
    count: int
    days: dict[tuple[str, date], DayWithJob | None] = field(default_factory=dict)
    today: date = field(init=False)
    visits: Mapping[tuple[str, date], Sequence[Booked]] = field(init=False)

    def __post_init__(self) -> None:
        self.visits = visits_by_day(self.shop, self.diary)
        self.today = self.now.astimezone(zone_of(self.shop)).date()

    def best(self, windows: list[Window], near: OnCalendar | None = None) -> tuple[Offer, ...]:
        """The best offers out of *windows*, one per half-day; those nearest the wish first when *near* is given."""
        chosen: dict[tuple[date, bool], tuple[Rank, Offer]] = {}
        planned = planned_minutes(self.shop, self.job)
        for floor, (technician, start, end) in sorted(
            ((self._rank(w, 0.0, near), w) for w in windows), key=itemgetter(0)
        ):
            if len(chosen) >= self.count and floor > sorted(rank for rank, _ in chosen.values())[self.count - 1]:
                break
            added = self._added(technician, start, end)
            if added is None:
                continue
            rank = self._rank((technician, start, end), added, near)
            half = (start.date(), start.time() < NOON)
            if half not in chosen or rank < chosen[half][0]:
                chosen[half] = rank, Offer(technician.id, start, end, planned, float(added))
        ranked = sorted(chosen.values(), key=lambda pair: pair[0])
        return tuple(offer for _, offer in ranked[: self.count])

    def _rank(self, window: Window, added: float, near: OnCalendar | None) -> Rank:
        technician, start, end = window
        far = 0.0 if near is None else near.distance(start, end)
        price = added + (0.0 if self.language in technician.language else LANGUAGE_PRICE_MIN)
        if self.soonest:
            far += (start - self.now).total_seconds() / 60
        else:
            price += WAIT_PRICE_MIN * (start.date() - self.today).days
        return far, price, start, technician.id

    def _added(self, technician: Technician, start: datetime, end: datetime) -> int | None:
        key = (technician.id, start.date())
        if key not in self.days:
            day = standing_day(self.shop, self.diary, technician, start.date(), self.moving, self.visits)
            self.days[key] = None if day is None else day.with_job(self.job)
        asked = self.days[key]
        return None if asked is None else asked.added_travel(start, end)
