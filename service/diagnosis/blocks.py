"""Order for long lists of tests: the block with the best chance per minute next, a panel's tests taken as one block."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from service.diagnosis.actions import Actions, at, minutes_next
from service.diagnosis.likelihoods import Floats


def by_blocks(actions: Actions) -> tuple[int, ...]:
    """
    All tests, greedily: each time the block that shows most per minute.

    A block is a test behind the tests it needs, or the best few of the tests behind one shut panel, whose opening they
    share. Tests that come last are ordered the same way after all others.
    """
    is_last = actions.last or (False,) * actions.count
    order: list[int] = []
    for turn in (False, True):
        _extend(actions, order, {test for test in range(actions.count) if is_last[test] == turn})
    return tuple(order)


def _extend(actions: Actions, order: list[int], remaining: set[int]) -> None:
    left = actions.shares.copy()
    for test in order:
        left = left * (1 - actions.finds[test])
    while remaining:
        opened = {at(actions.opening, test) for test in order}
        place = at(actions.place, order[-1]) if order else -1
        shown = (actions.finds @ left).tolist()
        blocks = list(_blocks(actions, remaining, opened, shown))
        best = max(blocks, key=lambda block: (_score(actions, block, (left, shown), opened, place), -block[-1]))
        for test in best:
            order.append(test)
            remaining.discard(test)
            left = left * (1 - actions.finds[test])


def _blocks(actions: Actions, remaining: set[int], opened: set[int], shown: list[float]) -> Iterable[list[int]]:
    for test in sorted(remaining):
        yield _behind_needs(actions, [test], remaining)
    shut = {at(actions.opening, test) for test in remaining} - opened - {-1}
    for panel in sorted(shut):
        sharing = [test for test in sorted(remaining) if at(actions.opening, test) == panel]
        sharing.sort(key=lambda test: -shown[test] / float(actions.minutes[test]))
        yield from (_behind_needs(actions, sharing[:size], remaining) for size in range(2, len(sharing) + 1))


def _behind_needs(actions: Actions, tests: Sequence[int], remaining: set[int]) -> list[int]:
    """*tests* with everything they still need before them, nearest first."""
    if len(tests) == 1 and not (actions.after and actions.after[tests[0]] & remaining):
        return [tests[0]]
    block: list[int] = []

    def put(test: int, above: frozenset[int]) -> None:
        if test in above:
            raise ArithmeticError("no order of the tests meets their preconditions: look for a circle in 'after'")
        for needed in sorted(actions.after[test]) if actions.after else ():
            if needed in remaining:
                put(needed, above | {test})
        if test not in block:
            block.append(test)

    for test in tests:
        put(test, frozenset())
    return block


def _score(actions: Actions, block: list[int], now: tuple[Floats, list[float]], opened: set[int], place: int) -> float:
    """Chance per minute of the block: what its tests show, over the minutes of all of them with panels and ways."""
    left, shown = now
    if len(block) == 1:
        return shown[block[0]] / minutes_next(actions, block[0], opened, place)
    minutes, opened = 0.0, set(opened)
    for test in block:
        minutes += minutes_next(actions, test, opened, place)
        opened.add(at(actions.opening, test))
        place = at(actions.place, test)
    unshown = np.prod(1 - actions.finds[block], axis=0)
    return float((left * (1 - unshown)).sum()) / minutes
