"""The order of one van's day: least travel within the windows promised, exact up to eight stops, by insertion beyond.

Computation notes, section 6: windows bound the start of work, waiting is allowed, routes are planned with mean minutes and
promises kept at a quantile of arrival. Minutes are whole and counted from any fixed moment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import inf

from service.scheduling.lengths import Length

EXACT_STOPS = 8
"""Up to this many stops every order is weighed (8! = 40,320, cut by bounds). Example E6.5."""

Legs = Sequence[Sequence[int]]
"""Travel minutes from row to column; 0 is where the day begins and ends, stop number n is n + 1."""


@dataclass(frozen=True, slots=True)
class Stop:
    """
    Work at a place. earliest, latest: when it may begin. promised: the minute its arrival must keep at the quantile.

    placeless: hours taken by something else; the van stays where it was.
    """

    earliest: int
    latest: int
    work: Length
    promised: float = inf
    placeless: bool = False


@dataclass(frozen=True, slots=True)
class Route:
    """An order that holds. order: stop numbers; arrivals, starts: minutes; late: arrivals at the quantile; travel: in all."""

    order: tuple[int, ...]
    arrivals: tuple[int, ...]
    starts: tuple[int, ...]
    late: tuple[float, ...]
    travel: int
    home: int


@dataclass(frozen=True, slots=True)
class VanDay:
    """What a day's order is searched in: legs, stops, when the van leaves, when it must be home, the promise's deviate."""

    legs: Legs
    stops: tuple[Stop, ...]
    leave: int
    home_by: int
    z: float = 0.0


@dataclass(slots=True)
class _Walk:
    """A van on its way: where it stands, the clock by means, and the least moment with the delay that may lie on it."""

    at: int
    clock: int
    travel: int
    base: float
    delay: Length
    done: tuple[int, ...] = ()
    arrivals: tuple[int, ...] = ()
    starts: tuple[int, ...] = ()
    late: tuple[float, ...] = ()


def best_route(day: VanDay) -> Route | None:
    """The least travel that keeps every window and promise; ties go to the earlier home. None when no order holds."""
    if len(day.stops) > EXACT_STOPS:
        return _by_insertion(day)
    return _Search(day).best()


def walk(day: VanDay, order: Sequence[int]) -> Route | None:
    """The day in this *order*; None when a window, a promise or the way home does not hold."""
    van = _start(day)
    for number in order:
        further = _visit(day, van, number)
        if further is None:
            return None
        van = further
    return _home(day, van)


def _start(day: VanDay) -> _Walk:
    return _Walk(0, day.leave, 0, float(day.leave), Length())


def _visit(day: VanDay, van: _Walk, number: int) -> _Walk | None:
    """The van after one more stop; None when that stop's window or promise does not hold."""
    stop = day.stops[number]
    leg = 0 if stop.placeless else day.legs[van.at][number + 1]
    arrival = van.clock + leg
    start = max(arrival, stop.earliest)
    base = van.base + leg
    late = base + van.delay.quantile(day.z)
    if start > stop.latest or late > stop.promised:
        return None
    return _Walk(
        at=van.at if stop.placeless else number + 1,
        clock=start + round(stop.work.mean),
        travel=van.travel + leg,
        base=max(base, stop.earliest),
        delay=van.delay.beyond(stop.earliest - base) + stop.work,
        done=(*van.done, number),
        arrivals=(*van.arrivals, arrival),
        starts=(*van.starts, start),
        late=(*van.late, late),
    )


def _home(day: VanDay, van: _Walk) -> Route | None:
    leg = day.legs[van.at][0]
    if van.clock + leg > day.home_by:
        return None
    return Route(van.done, van.arrivals, van.starts, van.late, van.travel + leg, van.clock + leg)


@dataclass(slots=True)
class _Search:
    """Depth first over all orders, cut by windows that can no longer be kept and by travel that can no longer win."""

    day: VanDay
    found: Route | None = None
    least_in: list[int] = field(default_factory=list)

    def best(self) -> Route | None:
        count = len(self.day.stops)
        real = [0, *(n + 1 for n in range(count) if not self.day.stops[n].placeless)]
        self.least_in = [
            0 if self.day.stops[n].placeless else min((self.day.legs[a][n + 1] for a in real if a != n + 1), default=0)
            for n in range(count)
        ]
        self._extend(_start(self.day), tuple(sorted(range(count), key=lambda n: self.day.stops[n].latest)))
        return self.found

    def _extend(self, van: _Walk, left: tuple[int, ...]) -> None:
        if not left:
            route = _home(self.day, van)
            if route is not None and (self.found is None or _rank(route) < _rank(self.found)):
                self.found = route
            return
        if self.found is not None and van.travel + sum(self.least_in[n] for n in left) > self.found.travel:
            return
        if any(van.clock > self.day.stops[n].latest for n in left):
            return
        for number in left:
            further = _visit(self.day, van, number)
            if further is not None:
                self._extend(further, tuple(n for n in left if n != number))


def _rank(route: Route) -> tuple[int, int, tuple[int, ...]]:
    return route.travel, route.home, route.order


def _by_insertion(day: VanDay) -> Route | None:
    """Stops put in one by one where they add the least travel, most pressing window first (Solomon 1987, I1)."""
    order: tuple[int, ...] = ()
    route: Route | None = None
    for number in sorted(range(len(day.stops)), key=lambda n: (day.stops[n].latest, day.stops[n].earliest)):
        tried = (walk(day, (*order[:place], number, *order[place:])) for place in range(len(order) + 1))
        route = min((found for found in tried if found is not None), key=_rank, default=None)
        if route is None:
            return None
        order = route.order
    return route
