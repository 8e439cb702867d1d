"""One technician's day: what stands in it, in which order it is driven, and what one more visit would add."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from math import ceil, floor, inf

from service.rulebook.schema.shop import Shop, Technician
from service.scheduling.area import Place, travel_min
from service.scheduling.hours import WEEK, span_on, zone_of
from service.scheduling.lengths import Length, deviate, from_median, from_planned
from service.scheduling.model import Booked, Diary, Job
from service.scheduling.route import Route, Stop, VanDay, best_route


@dataclass(frozen=True, slots=True)
class StandingDay:
    """
    A technician's day as it stands. starts, ends: the hours worked, UTC. visits: those booked, in the order of *stops*.

    stops: the visits, then the blocked hours. places: where the day starts, then one per stop. route: the order that
    holds by mean minutes, None when none does (the day is promised too full).
    """

    shop: Shop
    technician: Technician
    starts: datetime
    ends: datetime
    visits: tuple[Booked, ...]
    stops: tuple[Stop, ...]
    places: tuple[Place, ...]
    route: Route | None

    def minute(self, moment: datetime) -> float:
        """*moment* in minutes from the start of the day."""
        return (moment.astimezone(UTC) - self.starts).total_seconds() / 60

    def with_job(self, job: Job) -> DayWithJob | None:
        """The day as *job* would have to fit in; None when nothing fits, for the day does not hold as it stands."""
        if self.route is None:
            return None
        lateness = dict(zip(self.route.order, self.route.late, strict=True))
        standing = tuple(
            stop if stop.placeless else replace(stop, promised=max(stop.latest, lateness[number] + 1e-6))
            for number, stop in enumerate(self.stops)
        )
        places = (*self.places, (job.lat, job.lon))
        van_day = _van_day(self.shop, standing, places, floor(self.minute(self.ends)))
        return DayWithJob(self, van_day, job_length(self.shop, job), self.route.travel)


@dataclass(frozen=True, slots=True)
class DayWithJob:
    """
    A day that one more job may join, whatever its window. van_day: the stops that stand, with the job's place beside theirs.

    work: how long the job takes. travel: minutes on the road without it.
    """

    day: StandingDay
    van_day: VanDay
    work: Length
    travel: int

    def added_travel(self, start: datetime, end: datetime) -> int | None:
        """
        Minutes of travel that the job, begun between *start* and *end*, adds to the day in its best order.

        None when it cannot be kept: its own arrival at the promise quantile must lie in the window, and no standing
        promise may become later than its window's end (or than it already was).
        """
        ends = floor(self.day.minute(end))
        asked = Stop(ceil(self.day.minute(start)), ends, self.work, promised=ends)
        route = best_route(replace(self.van_day, stops=(*self.van_day.stops, asked)))
        return None if route is None else route.travel - self.travel


def works_on(shop: Shop, technician: Technician, day: date) -> tuple[datetime, datetime] | None:
    """The hours *technician* works on *day*, aware and shop-local; None on a day off or when the shop is closed."""
    span = technician.days.get(WEEK[day.weekday()])
    if span is None or day in technician.off or day in shop.closed:
        return None
    return span_on(day, span, zone_of(shop))


def standing_day(shop: Shop, diary: Diary, technician: Technician, day: date, moving: str | None) -> StandingDay | None:
    """The day of *technician* without the visit *moving*; None when there is none: a day off, or all of it is blocked."""
    hours = works_on(shop, technician, day)
    base = shop.area.get(technician.start_zip)
    if hours is None or base is None:
        return None
    starts, ends = (moment.astimezone(UTC) for moment in hours)
    blocked = _blocked(diary, technician.id, starts, ends)
    if blocked and blocked[0][0] <= starts:
        starts = blocked.pop(0)[1]
    if blocked and blocked[-1][1] >= ends:
        ends = blocked.pop()[0]
    if starts >= ends:
        return None
    zone = zone_of(shop)
    visits = tuple(
        visit
        for visit in diary.booked
        if visit.technician == technician.id and visit.visit_id != moving and visit.start.astimezone(zone).date() == day
    )
    stops = [
        Stop(ceil(_minutes(starts, v.start)), floor(_minutes(starts, v.end)), from_planned(v.minutes)) for v in visits
    ]
    for first, last in blocked:
        at = floor(_minutes(starts, first))
        stops.append(Stop(at, at, Length(ceil(_minutes(starts, last)) - at), inf, placeless=True))
    home = (base.lat, base.lon)
    places = (home, *((v.lat, v.lon) for v in visits), *(home for _ in blocked))
    route = best_route(_van_day(shop, stops, places, floor(_minutes(starts, ends))))
    return StandingDay(shop, technician, starts, ends, visits, tuple(stops), places, route)


def job_length(shop: Shop, job: Job) -> Length:
    """How long *job* takes: its median and promised minutes as a lognormal."""
    return from_median(job.minutes_usual, job.minutes_promise, shop.windows.promise_quantile)


def planned_minutes(shop: Shop, job: Job) -> int:
    """The minutes to plan *job* with: its mean, rounded up."""
    return ceil(job_length(shop, job).mean - 1e-9)


def _van_day(shop: Shop, stops: Sequence[Stop], places: Sequence[Place], home_by: int) -> VanDay:
    legs = tuple(
        tuple(0 if a == b else travel_min(shop.travel, here, there, to_stop=b > 0) for b, there in enumerate(places))
        for a, here in enumerate(places)
    )
    return VanDay(legs, tuple(stops), 0, home_by, deviate(shop.windows.promise_quantile))


def _blocked(diary: Diary, technician: str, starts: datetime, ends: datetime) -> list[tuple[datetime, datetime]]:
    """Blocked hours within the day, UTC, in order, those that touch joined."""
    spans = sorted(
        (max(first.astimezone(UTC), starts), min(last.astimezone(UTC), ends))
        for who, first, last in diary.blocked
        if who == technician and first.astimezone(UTC) < ends and last.astimezone(UTC) > starts
    )
    joined: list[tuple[datetime, datetime]] = []
    for first, last in spans:
        if joined and first <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], last))
        else:
            joined.append((first, last))
    return joined


def _minutes(since: datetime, moment: datetime) -> float:
    return (moment.astimezone(UTC) - since).total_seconds() / 60
