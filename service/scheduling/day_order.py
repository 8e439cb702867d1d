"""In which order to drive one technician's day, and when each stop is expected: for the desk and the visit sheet."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from service.rulebook.schema.shop import Shop
from service.scheduling.area import travel_min
from service.scheduling.hours import zone_of
from service.scheduling.model import Booked, Diary
from service.scheduling.technician_day import StandingDay, standing_day


@dataclass(frozen=True, slots=True)
class Leg:
    """One stop of the day. travel_min: from the stop before. arrive, late: by means and at the promise quantile, local."""

    visit: Booked
    travel_min: int
    arrive: datetime
    starts: datetime
    late: datetime


@dataclass(frozen=True, slots=True)
class DayOrder:
    """
    A technician's day in driving order. holds: False when no order keeps every window; then by window, without times kept.

    home: when the technician is expected back; None when the day does not hold.
    """

    legs: tuple[Leg, ...]
    holds: bool = True
    home: datetime | None = None


def order_of_day(shop: Shop, diary: Diary, technician: str, day: date) -> DayOrder:
    """
    The order of least travel for *technician* (id) on *day*; empty when nothing stands.

    A day that cannot be kept, or a day off with visits, still lists its visits, by window, with ``holds`` False.
    """
    who = next((t for t in shop.technicians if t.id == technician), None)
    standing = None if who is None else standing_day(shop, diary, who, day, None)
    if standing is not None and standing.route is not None:
        return _driven(standing)
    zone = zone_of(shop)
    visits = sorted(
        (v for v in diary.booked if v.technician == technician and v.start.astimezone(zone).date() == day),
        key=lambda v: (v.start.astimezone(UTC), v.end.astimezone(UTC), v.visit_id),
    )
    legs = tuple(Leg(v, 0, *(v.start.astimezone(zone),) * 2, v.end.astimezone(zone)) for v in visits)
    return DayOrder(legs, holds=not visits)


def _driven(day: StandingDay) -> DayOrder:
    route = day.route
    assert route is not None  # noqa: S101 - asked before
    zone = zone_of(day.shop)

    def moment(minutes: float) -> datetime:
        return (day.starts + timedelta(minutes=minutes)).astimezone(zone)

    legs, here = [], day.places[0]
    for place, number in enumerate(route.order):
        if day.stops[number].placeless:
            continue
        there = day.places[number + 1]
        legs.append(
            Leg(
                day.visits[number],
                travel_min(day.shop.travel, here, there),
                moment(route.arrivals[place]),
                moment(route.starts[place]),
                moment(route.late[place]),
            )
        )
        here = there
    return DayOrder(tuple(legs), True, moment(route.home))
