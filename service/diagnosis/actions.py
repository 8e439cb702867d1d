"""Technician's tests as bare figures, and what an order of them is expected to cost."""

from __future__ import annotations

from dataclasses import dataclass

from service.diagnosis.likelihoods import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Actions:
    """
    Tests to be put in order. shares: by cause. finds: tests by causes, chance that a test shows the cause.

    minutes: each test alone. opening: number of the panel it needs or -1; opening_min: minutes by panel, spent once.
    place: number of where the technician stands, or -1 for anywhere; moving_min: minutes from one place to another. after:
    tests (as places in the list) that must come before. last: only after all that are not last.
    """

    shares: Floats
    finds: Floats
    minutes: Floats
    opening: tuple[int, ...] = ()
    opening_min: tuple[float, ...] = ()
    place: tuple[int, ...] = ()
    moving_min: float = 0.0
    after: tuple[frozenset[int], ...] = ()
    last: tuple[bool, ...] = ()

    @property
    def count(self) -> int:
        """How many tests."""
        return len(self.minutes)


def expected_min(actions: Actions, order: tuple[int, ...], eliminate: bool = False) -> float:
    """Expected minutes until the fault shows, or until the list ends, in this order."""
    left, total, opened, place = actions.shares.copy(), 0.0, set[int](), -1
    for step, test in enumerate(order):
        if not (eliminate and step == len(order) - 1):
            total += float(left.sum()) * minutes_next(actions, test, opened, place)
        opened.add(at(actions.opening, test))
        place = place if at(actions.place, test) < 0 else at(actions.place, test)
        left = left * (1 - actions.finds[test])
    return total


def minutes_next(actions: Actions, test: int, opened: set[int], place: int) -> float:
    """Minutes of *test* next: itself, its panel if that is still shut, and the way if it is elsewhere."""
    panel, where = at(actions.opening, test), at(actions.place, test)
    opening = actions.opening_min[panel] if panel >= 0 and panel not in opened else 0.0
    moving = actions.moving_min if where >= 0 and place >= 0 and where != place else 0.0
    return float(actions.minutes[test]) + opening + moving


def at(values: tuple[int, ...], test: int) -> int:
    """The value of *test*, -1 where none are given."""
    return values[test] if values else -1


def before_each(actions: Actions) -> tuple[frozenset[int], ...]:
    """For each test all that must come before it: its own preconditions, and for a last one all that are not last."""
    early = frozenset(t for t in range(actions.count) if not (actions.last and actions.last[t]))
    own = actions.after or (frozenset[int](),) * actions.count
    return tuple(own[t] | (early if actions.last and actions.last[t] else frozenset()) for t in range(actions.count))
