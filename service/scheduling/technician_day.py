"""One technician's day: what stands in it, in which order it is driven, and what one more visit would add."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from math import ceil, floor, inf

from service.rulebook.schema.shop import Shop, Technician
from service.scheduling.area import Place, travel_min
from service.scheduling.hours import WEEK, span_on, zone_of
from service.scheduling.lengths import Length, deviate, from_median, from_planned
from service.scheduling.model import Booked, Diary, Job
from service.scheduling.route import Legs, Route, Stop, VanDay, best_route


@dataclass(frozen=True, slots=True)
class StandingDay:
    """
    A technician's day as it stands. starts, ends: the hours worked, UTC. visits: those booked, in the order of *stops*.

    stops: the visits, then the blocked hours. places: where the day starts, then one per stop. van_day: these, as an order
    is searched in them. route: the order that holds by mean minutes, None when none does (the day is promised too full).
    """

    shop: Shop
    technician: Technician
    starts: datetime
    ends: datetime
    visits: tuple[Booked, ...]
    stops: tuple[Stop, ...]
    places: tuple[Place, ...]
    van_day: VanDay
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
        legs = _with_place(self.shop, self.van_day.legs, self.places, (job.lat, job.lon))
        van_day = VanDay(legs, standing, 0, self.van_day.home_by, self.van_day.z)
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
        day = self.van_day
        route = best_route(VanDay(day.legs, (*day.stops, asked), day.leave, day.home_by, day.z))
        return None if route is None else route.travel - self.travel


def works_on(shop: Shop, technician: Technician, day: date) -> tuple[datetime, datetime] | None:
    """The hours *technician* works on *day*, aware and shop-local; None on a day off or when the shop is closed."""
    span = technician.days.get(WEEK[day.weekday()])
    if span is None or day in technician.off or day in shop.closed:
        return None
    return span_on(day, span, zone_of(shop))


def visits_by_day(shop: Shop, diary: Diary) -> Mapping[tuple[str, date], Sequence[Booked]]:
    """The visits of *diary* by technician and by the day they begin on, as the shop's clock shows it."""
    zone = zone_of(shop)
    days: dict[tuple[str, date], list[Booked]] = {}
    for visit in diary.booked:
        days.setdefault((visit.technician, visit.start.astimezone(zone).date()), []).append(visit)
    return days


def standing_day(
    shop: Shop,
    diary: Diary,
    technician: Technician,
    day: date,
    moving: str | None,
    known: Mapping[tuple[str, date], Sequence[Booked]] | None = None,
) -> StandingDay | None:
    """
    The day of *technician* without the visit *moving*; None when there is none: a day off, or all of it is blocked.

    known: the ``visits_by_day`` of *diary*, for who looks at many days of it.
    """
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
    own = (visits_by_day(shop, diary) if known is None else known).get((technician.id, day), ())
    visits = tuple(visit for visit in own if visit.visit_id != moving)
    stops = [
        Stop(ceil(_minutes(starts, v.start)), floor(_minutes(starts, v.end)), from_planned(v.minutes)) for v in visits
    ]
    for first, last in blocked:
        at = floor(_minutes(starts, first))
        stops.append(Stop(at, at, Length(ceil(_minutes(starts, last)) - at), inf, placeless=True))
    home = (base.lat, base.lon)
    places = (home, *((v.lat, v.lon) for v in visits), *(home for _ in blocked))
    legs = _legs(shop, places)
    van_day = VanDay(legs, tuple(stops), 0, floor(_minutes(starts, ends)), deviate(shop.windows.promise_quantile))
    return StandingDay(shop, technician, starts, ends, visits, tuple(stops), places, van_day, best_route(van_day))


def job_length(shop: Shop, job: Job) -> Length:
    """How long *job* takes: its median and promised minutes as a lognormal."""
    return from_median(job.minutes_usual, job.minutes_promise, shop.windows.promise_quantile)


def planned_minutes(shop: Shop, job: Job) -> int:
    """The minutes to plan *job* with: its mean, rounded up."""
    return ceil(job_length(shop, job).mean - 1e-9)


def _legs(shop: Shop, places: Sequence[Place]) -> Legs:
    return tuple(
        tuple(0 if a == b else travel_min(shop.travel, here, there, to_stop=b > 0) for b, there in enumerate(places))
        for a, here in enumerate(places)
    )


def _with_place(shop: Shop, legs: Legs, places: Sequence[Place], new: Place) -> Legs:
    """*legs* between *places*, and those to and from one place more."""
    there = tuple(travel_min(shop.travel, here, new) for here in places)
    back = tuple(travel_min(shop.travel, new, here, to_stop=b > 0) for b, here in enumerate(places))
    return (*((*row, way) for row, way in zip(legs, there, strict=True)), (*back, 0))


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
