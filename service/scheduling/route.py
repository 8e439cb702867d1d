"""The order of one van's day: least travel within the windows promised, exact up to eight stops, by insertion beyond.

Computation notes, section 6: windows bound the start of work, waiting is allowed, routes are planned with mean minutes and
promises kept at a quantile of arrival. Minutes are whole and counted from any fixed moment.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import inf
from typing import NamedTuple

from service.scheduling.lengths import Length

EXACT_STOPS = 8
"""Up to this many stops every order is weighed (8! = 40,320, cut by bounds). Example E6.5."""

_SHORT = 4

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


class _Van(NamedTuple):
    """A van on its way: where it stands, its clock by means, and the least moment with the delay that may lie on it."""

    at: int
    clock: int
    travel: int
    base: float
    delay: Length

    def beats(self, other: _Van) -> bool:
        """Whether nothing ahead can go better for *other*, which stands at the same place after the same stops."""
        return (
            self.travel <= other.travel
            and self.clock <= other.clock
            and self.base <= other.base
            and self.delay.mean <= other.delay.mean
            and self.delay.variance <= other.delay.variance
        )


class _Arrival(NamedTuple):
    """One stop reached: minutes of arrival and start, the arrival at the quantile, and the van when the work is done."""

    arrival: int
    start: int
    late: float
    van: _Van


@lru_cache(maxsize=2048)  # a shop's days are looked at again with every text that asks for a time, and seldom change
def best_route(day: VanDay) -> Route | None:
    """The least travel that keeps every window and promise; ties go to the earlier home. None when no order holds."""
    if len(day.stops) > EXACT_STOPS:
        return _by_insertion(day)
    # A good order to begin with cuts a long search short and only delays a short one.
    return _Search(day, _by_insertion(day) if len(day.stops) > _SHORT else None).best()


def walk(day: VanDay, order: Sequence[int]) -> Route | None:
    """The day in this *order*; None when a window, a promise or the way home does not hold."""
    van = _leaving(day)
    reached: list[_Arrival] = []
    for number in order:
        there = _visit(day, van, number)
        if there is None:
            return None
        reached.append(there)
        van = there.van
    home = van.clock + day.legs[van.at][0]
    if home > day.home_by:
        return None
    return Route(
        tuple(order),
        tuple(there.arrival for there in reached),
        tuple(there.start for there in reached),
        tuple(there.late for there in reached),
        van.travel + day.legs[van.at][0],
        home,
    )


def _leaving(day: VanDay) -> _Van:
    return _Van(0, day.leave, 0, float(day.leave), Length())


def _visit(day: VanDay, van: _Van, number: int) -> _Arrival | None:
    """One more stop; None when its window or promise does not hold."""
    stop = day.stops[number]
    leg = 0 if stop.placeless else day.legs[van.at][number + 1]
    arrival = van.clock + leg
    start = max(arrival, stop.earliest)
    if start > stop.latest:
        return None
    base = van.base + leg
    late = base + van.delay.quantile(day.z)
    if late > stop.promised:
        return None
    after = _Van(
        at=van.at if stop.placeless else number + 1,
        clock=start + round(stop.work.mean),
        travel=van.travel + leg,
        base=max(base, stop.earliest),
        delay=van.delay.beyond(stop.earliest - base) + stop.work,
    )
    return _Arrival(arrival, start, late, after)


@dataclass(slots=True)
class _Search:
    """Depth first over all orders, cut where a window is lost, travel cannot win, or another way there was better."""

    day: VanDay
    found: Route | None
    least_in: list[int] = field(default_factory=list)
    known: dict[tuple[int, int], list[_Van]] = field(default_factory=dict)

    def best(self) -> Route | None:
        stops = self.day.stops
        real = [0, *(n + 1 for n in range(len(stops)) if not stops[n].placeless)]
        self.least_in = [
            0 if stop.placeless else min(self.day.legs[a][n + 1] for a in real if a != n + 1)
            for n, stop in enumerate(stops)
        ]
        self._extend(_leaving(self.day), (), tuple(sorted(range(len(stops)), key=lambda n: stops[n].latest)))
        return self.found

    def _extend(self, van: _Van, done: tuple[int, ...], left: tuple[int, ...]) -> None:
        if not left:
            route = walk(self.day, done)
            if route is not None and (self.found is None or _rank(route) < _rank(self.found)):
                self.found = route
            return
        if self._lost(van, left):
            return
        for number in left:
            there = _visit(self.day, van, number)
            if there is not None:
                self._extend(there.van, (*done, number), tuple(n for n in left if n != number))

    def _lost(self, van: _Van, left: tuple[int, ...]) -> bool:
        """Whether nothing good can come of going on from here."""
        if self.found is not None and van.travel + sum(self.least_in[n] for n in left) > self.found.travel:
            return True
        if self._too_full(van.clock, left):
            return True
        here = self.known.setdefault((sum(1 << n for n in left), van.at), [])
        if any(known.beats(van) for known in here):
            return True
        here.append(van)
        return False

    def _too_full(self, clock: int, left: tuple[int, ...]) -> bool:
        """
        Whether *left*, by their latest beginnings, cannot all be in time even by the shortest legs.

        Of those that must begin by some moment one is the last: all others are done by then, at best all but the longest.
        """
        stops, spent, longest = self.day.stops, 0, 0
        for number in left:
            work = round(stops[number].work.mean)
            spent += self.least_in[number] + work
            longest = max(longest, work)
            if clock + spent - longest > stops[number].latest:
                return True
        return clock + spent > self.day.home_by


def _rank(route: Route) -> tuple[int, int, tuple[int, ...]]:
    return route.travel, route.home, route.order


def _by_insertion(day: VanDay) -> Route | None:
    """Stops put in one by one where they add the least travel, most pressing window first (Solomon 1987, I1)."""
    route = walk(day, ())
    for number in sorted(range(len(day.stops)), key=lambda n: (day.stops[n].latest, day.stops[n].earliest)):
        if route is None:
            return None
        order = route.order
        tried = (walk(day, (*order[:place], number, *order[place:])) for place in range(len(order) + 1))
        route = min((found for found in tried if found is not None), key=_rank, default=None)
    return route
