"""
What the best plan would cost, for many beliefs at once: owner checks first, then the visit with its load and its length.

Beliefs come as rows that need not sum to 1: a row's sum is the chance of getting there, and costs scale with it, so that
the rows of a question's answers add up to the cost after asking. A plan is the least over fixed actions of something
linear in the belief, so knowing more never costs more, but where safety forbids a check that ignorance allowed.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.grades import UNSAFE_FROM
from service.diagnosis.likelihoods import Floats
from service.diagnosis.table import Bools, Table
from service.diagnosis.tariff import CENTS_A_MINUTE, LATE_MIN, OVERRUN_MIN, RUSH_MIN, SPARE_MIN, Tariff

Places = NDArray[np.intp]
After = Callable[[Floats], Floats]
"""Rows of belief to what it costs from there on."""


def plan_min(table: Table, rows: Floats, allowed: Bools, checks_left: int, rates: Tariff) -> Floats:
    """Minutes of the best plan from each of *rows* (beliefs by causes); *allowed* (rows by checks) before safety by belief."""

    def visit(left: Floats) -> Floats:
        return visit_min(table, left, rates)

    usable = allowed & safe(table, rows)
    if checks_left <= 0 or not usable.any():
        return visit(rows)
    return best_prefix(rows, table.settles, table.check_min, usable, checks_left, rates.visit, visit)


def safe(table: Table, rows: Floats) -> Bools:
    """Rows by checks: no cause the check is unsafe for has belief of ``UNSAFE_FROM`` or more."""
    doubtful = rows >= UNSAFE_FROM * rows.sum(axis=1, keepdims=True)
    return np.asarray(doubtful.astype(np.float64) @ table.unsafe.T.astype(np.float64) == 0.0)


def visit_min(table: Table, rows: Floats, rates: Tariff) -> Floats:
    """Minutes of a visit from each row: the trip, parts carried or lacking, tests, and coming late or staying too long."""
    chance = rows.sum(axis=1)
    needed = rows @ table.bundles
    load = np.minimum(needed * rates.second_trip, table.bundle_cents / CENTS_A_MINUTE * chance[:, None]).sum(axis=1)
    late = np.minimum(rows @ table.pressing * LATE_MIN, chance * RUSH_MIN)
    long = np.minimum(rows @ table.long * OVERRUN_MIN, chance * SPARE_MIN)
    return np.asarray(rates.visit * chance + load + late + long + testing_min(table, rows, rates.second_trip))


def testing_min(table: Table, rows: Floats, unfound: float) -> Floats:
    """
    Expected minutes of testing until the fault shows, each test showing its own share; leaving unfound costs *unfound*.

    Tests go by chance over minutes, which is the best order when each cause belongs to one test; the plan on the sheet
    is computed exactly elsewhere, this only says how much a sharper belief would shorten it.
    """
    shown = rows @ table.found.T
    order = np.argsort(-(shown / table.test_min), axis=1, kind="stable")
    chance = rows.sum(axis=1, keepdims=True)
    minutes = table.test_min[order]
    left = chance - np.cumsum(np.take_along_axis(shown, order, axis=1), axis=1)
    before = np.concatenate([chance, left[:, :-1]], axis=1) if left.shape[1] else left
    spent = np.cumsum(before * minutes, axis=1) + unfound * left
    return np.asarray(np.minimum(unfound * chance[:, 0], spent.min(axis=1, initial=np.inf)))


def best_prefix(
    rows: Floats, settles: Floats, minutes: Floats, usable: Bools, most: int, visit: float, after: After
) -> Floats:
    """
    Least cost from each row over doing the first 0, 1, 2... of the chosen checks and then going on as *after* says.

    settles: checks by causes. Checks go by chance over minutes. All prefixes are compared, for the first check may not pay
    although two do. With more checks than *most* the ones with the largest gain against *visit* are taken.
    """
    chosen = in_order(rows, settles, minutes, usable, most, visit)
    left, spent = rows, np.zeros(len(rows))
    stages = [(spent, left)]
    for place in range(chosen.shape[1]):
        check = chosen[:, place]
        real = check >= 0
        spent = spent + np.where(real, minutes[check], 0.0) * left.sum(axis=1)
        left = np.where(real[:, None], left * (1 - settles[check]), left)
        stages.append((spent, left))
    ends = after(np.concatenate([left for _, left in stages])).reshape(len(stages), len(rows))
    return np.asarray((ends + np.array([spent for spent, _ in stages])).min(axis=0))


def in_order(rows: Floats, settles: Floats, minutes: Floats, usable: Bools, most: int, visit: float) -> Places:
    """Rows by places: the check done there or -1; at most *most*, by chance over minutes, ties in file order."""
    if not len(minutes):
        return np.zeros((len(rows), 0), dtype=np.intp)
    chance = rows @ settles.T
    ratio = np.where(usable, chance / minutes, -1.0)
    if most < len(minutes):
        gain = np.where(usable, chance * visit - minutes * rows.sum(axis=1, keepdims=True), -np.inf)
        cut = np.argsort(-gain, axis=1, kind="stable")[:, most:]
        np.put_along_axis(ratio, cut, -1.0, axis=1)
    order = np.argsort(-ratio, axis=1, kind="stable")[:, :most]
    return np.where(np.take_along_axis(ratio, order, axis=1) > 0, order, -1)
