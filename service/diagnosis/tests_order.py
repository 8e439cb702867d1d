"""The order of the technician's tests: least expected minutes until the fault shows, exact for short lists."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.actions import Actions, at, before_each, expected_min
from service.diagnosis.blocks import by_blocks
from service.diagnosis.likelihoods import Floats

Places = NDArray[np.intp]
EXACT = 8
"""Up to so many tests every order is weighed (over subsets); of a longer list the first so many."""


def best_order(actions: Actions, eliminate: bool = False) -> tuple[int, ...]:
    """
    The order with the least expected minutes; of equal ones, one that keeps the list's order.

    Exact up to ``EXACT`` tests. Beyond, blocks by chance over minutes, and then the first ``EXACT`` put in their best
    order exactly, which never makes the whole dearer. eliminate: the last test need not be done, for no cause is unlisted.
    """
    if actions.count <= EXACT:
        return _exact(actions, tuple(range(actions.count)), eliminate)
    rough = by_blocks(actions)
    better = (*_exact(actions, tuple(sorted(rough[:EXACT])), False), *rough[EXACT:])
    return min(better, rough, key=lambda order: expected_min(actions, order))


def _exact(actions: Actions, tests: tuple[int, ...], eliminate: bool) -> tuple[int, ...]:
    """Dynamic programming over subsets of *tests* and the place the technician stands at."""
    count = len(tests)
    if count == 0:
        return ()
    left = _left_after(actions.shares, actions.finds[list(tests)])
    where = [at(actions.place, t) for t in tests]
    places = sorted({-1, *where})
    stand = [places.index(w) for w in where]
    step = np.array(_step_minutes(actions, tests, left, eliminate))
    way = left * actions.moving_min
    cost = np.full((1 << count, len(places)), np.inf)
    cost[0, 0] = 0.0
    for masks, bits, before in _layers(count):
        _arrive(cost, (masks, bits, before), np.array(stand)[bits], step[bits, before], way[before])
    return tuple(tests[bit] for bit in _trace(cost, list(step), stand, way, places, count))


def _arrive(cost: Floats, layer: tuple[Places, Places, Places], stand: Places, step: Floats, way: Floats) -> None:
    """
    Fill in *cost* of one layer of subsets: by subset, the least over the test that came last.

    Staying where one stands is free, so is the first place; place 0 is anywhere: a test done there keeps the place.
    """
    masks, bits, before = layer
    came = cost[before]
    stayed = np.minimum(np.take_along_axis(came, stand[..., None], axis=2)[..., 0], came[..., 0])
    there = np.minimum(stayed, came.min(axis=2) + way) + step
    anywhere = stand == 0
    np.minimum.at(cost, (np.broadcast_to(masks[:, None], bits.shape), stand), np.where(anywhere, np.inf, there))
    if anywhere.any():
        kept = np.where(anywhere[..., None], came + step[..., None], np.inf).min(axis=1)
        cost[masks] = np.minimum(cost[masks], kept)


def _left_after(shares: Floats, finds: Floats) -> Floats:
    """Chance that the fault has not shown, by subset of tests done."""
    left = shares[None, :]
    for row in finds:
        left = np.concatenate([left, left * (1 - row)])
    return np.asarray(left.sum(axis=1))


def _step_minutes(actions: Actions, tests: tuple[int, ...], left: Floats, eliminate: bool) -> list[Floats]:
    """By test and subset done before it: expected minutes it adds without the way; infinite where it may not come yet."""
    masks = np.arange(1 << len(tests))
    bit_of = {test: 1 << bit for bit, test in enumerate(tests)}
    needs = before_each(actions)
    steps = []
    for test in tests:
        panel = at(actions.opening, test)
        sharing = sum(bit_of[t] for t in tests if panel >= 0 and at(actions.opening, t) == panel)
        shut = (masks & sharing) == 0
        minutes = actions.minutes[test] + np.where(shut, actions.opening_min[panel] if panel >= 0 else 0.0, 0.0)
        needed = sum(bit_of[t] for t in needs[test] if t in bit_of)
        step = np.where((masks & needed) == needed, left * minutes, np.inf)
        if eliminate:
            step[(len(masks) - 1) ^ bit_of[test]] *= 0.0
        steps.append(step)
    return steps


@lru_cache(maxsize=EXACT + 1)
def _layers(count: int) -> tuple[tuple[Places, Places, Places], ...]:
    """By size: the subsets, the tests each holds, and the subset without that test."""
    every = np.arange(1 << count)
    sizes = np.array([int(mask).bit_count() for mask in every])
    layers = []
    for size in range(1, count + 1):
        masks = every[sizes == size]
        bits = np.nonzero(masks[:, None] >> np.arange(count) & 1)[1].reshape(len(masks), size)
        layers.append((masks, bits, masks[:, None] ^ (1 << bits)))
    return tuple(layers)


def _trace(
    cost: Floats, step: list[Floats], stand: list[int], way: Floats, places: list[int], count: int
) -> tuple[int, ...]:
    """Walk back from the full set along the costs; of equals the later test comes last."""
    mask, place = (1 << count) - 1, int(cost[-1].argmin())
    order: list[int] = []
    while mask:
        for bit in reversed(range(count)):
            before = mask ^ (1 << bit)
            if not mask >> bit & 1 or not np.isfinite(step[bit][before]):
                continue
            origin = _origin(cost, step[bit][before], (mask, place), (before, stand[bit]), way, places)
            if origin is not None:
                order.append(bit)
                mask, place = before, origin
                break
        else:
            raise ArithmeticError("no order of the tests meets their preconditions: look for a circle in 'after'")
    return tuple(reversed(order))


def _origin(
    cost: Floats, step: float, here: tuple[int, int], came: tuple[int, int], way: Floats, places: list[int]
) -> int | None:
    """The place before, if *here* was reached by the test that leads from *came*; None if it was not."""
    mask, place = here
    before, stand = came
    if places[stand] >= 0 and stand != place:
        return None
    for origin in range(len(places)):
        moved = places[stand] >= 0 and origin not in (0, stand)
        if places[stand] < 0 and origin != place:
            continue
        reached = cost[before, origin] + step + (way[before] if moved else 0.0)
        if np.isfinite(reached) and abs(reached - cost[mask, place]) <= 1e-9 * max(1.0, abs(reached)):
            return origin
    return None
