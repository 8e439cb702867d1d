"""
What the best plan would cost, for many beliefs at once: owner checks first, then the visit with its load and its length.

Beliefs come as rows that need not sum to 1: a row's sum is the chance of getting there, and costs scale with it, so that
the rows of a question's answers add up to the cost after asking. A plan is the least over fixed actions of something
linear in the belief, so knowing more never costs more, but where safety forbids a check that ignorance allowed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from service.diagnosis.grades import UNSAFE_FROM
from service.diagnosis.likelihoods import Floats
from service.diagnosis.table import Bools, Table
from service.diagnosis.tariff import CENTS_A_MINUTE, LATE_MIN, OVERRUN_MIN, RUSH_MIN, SPARE_MIN, Tariff

Places = NDArray[np.intp]
Counts = NDArray[np.intp]
After = Callable[[Floats], Floats]
"""Rows of belief to what it costs from there on."""

ACTIVE = 3e-3
"""Causes below this share are not reckoned with one by one when the worth of a question is weighed. Own choice."""
ORDERS = 8
"""So many orders of tests, each with another test first, are weighed."""


class Costs:
    """
    What plans for one ticket cost at its shop, in minutes, from beliefs near the one now.

    Causes that hardly matter are left out, their share put to ``something_else``: *active* are the places of the others in
    the table, *shares* their belief.
    """

    def __init__(self, table: Table, rates: Tariff, belief: Floats, present: frozenset[str]) -> None:
        self.table, self.rates, self._present = table, rates, present
        self.check_min = table.check_min
        near = belief >= ACTIVE
        near[-1] = True
        self.active = np.flatnonzero(near)
        self.shares = belief[self.active]
        self.shares[-1] += 1 - self.shares.sum()
        self.settles = table.settles.take(self.active, axis=1)
        self._settling = self.settles.any(axis=1)  # a check that settles no active cause never pays
        self.unsafe = table.unsafe.take(self.active, axis=1)
        self._orders = orders_near(table, belief)
        self._testing = table.testing(present).take(self._orders, axis=1).take(self.active, axis=0)
        _, if_lacking, if_ready = readiness_min(table, rates)
        if_lacking = if_lacking.take(self.active, axis=0)
        matters = np.flatnonzero(if_lacking.any(axis=0))  # what no active cause needs is never got ready for
        self._if_ready = if_ready.take(matters)
        self._weights = np.concatenate(
            [if_lacking.take(matters, axis=1), self._testing, np.ones((len(self.active), 1))], axis=1
        ).T

    def plan(self, rows: Floats, allowed: Bools, checks_left: Counts) -> tuple[Floats, Floats]:
        """
        Minutes of the best plan from each of *rows*, and of going at once without a check.

        allowed: rows by checks, before what the belief forbids. checks_left: by row.
        """
        places = np.flatnonzero(allowed.any(axis=0) & self._settling)
        if not len(places) or checks_left.max() <= 0:
            at_once = self.visit(rows)
            return at_once, at_once
        usable = allowed.take(places, axis=1)
        usable &= safe(self.unsafe[places], rows)
        settles, minutes = self.settles[places], self.check_min[places]
        several = len(self.table.resets) > 1
        if several and len(resets := np.flatnonzero(np.isin(places, self.table.resets))) > 1:
            usable[:, resets] = best_alone(rows, settles[resets], minutes[resets], usable[:, resets], self.rates.visit)
        ends = prefixes(rows, settles, minutes, usable, checks_left, self.rates.visit, self.visit)
        return ends.min(axis=0), ends[0]

    def visit(self, rows: Floats) -> Floats:
        """
        Minutes of a visit from each row: the trip, tests, and being ready or not for a part, for a rush, for a long job.

        Each readiness costs its own if taken, and what lacking it costs if not; the cheaper is done. Tests go in the best of
        the orders that the table keeps; the plan on the sheet is computed exactly elsewhere.
        """
        weighed, needs = self._weights @ rows.T, len(self._if_ready)
        chance = weighed[-1]
        ready = np.minimum(weighed[:needs], self._if_ready[:, None] * chance).sum(axis=0)
        ready += weighed[needs:-1].min(axis=0)
        chance *= self.rates.visit
        return np.asarray(ready + chance)

    def visit_of(self, cause: str) -> tuple[float, bool]:
        """
        What the visit planned from the belief now costs if *cause* is the true one, and whether it takes a second trip.

        The same decisions as in ``visit``, taken before the truth is known.
        """
        table = self.table
        true = table.causes.index(cause) if cause in table.causes else len(table.causes) - 1
        lacking, if_lacking, if_ready = readiness_min(table, self.rates)
        ready = self.shares @ if_lacking.take(self.active, axis=0) > if_ready
        missed = table.readiness[true] * lacking * ~ready
        order = self._orders[int((self.shares @ self._testing).argmin())]
        testing = table.testing(self._present)[true, order]
        whole = self.rates.visit + testing + if_ready[ready].sum() + missed.sum()
        return float(whole), bool(missed[: len(table.bundle_cents)].any())


def orders_near(table: Table, belief: Floats) -> Places:
    """The orders of tests worth weighing near *belief*: the usual one, and those that begin with what shows most a minute."""
    shown = table.finds @ belief / np.maximum(table.test_min, 1.0)
    orders = np.zeros(min(ORDERS, len(shown)) + 1, dtype=np.intp)
    orders[1:] = (-shown).argsort(kind="stable")[:ORDERS] + 1
    return orders


def readiness_min(table: Table, rates: Tariff) -> tuple[Floats, Floats, Floats]:
    """By readiness: minutes if lacking it, the same by cause that needs it, minutes of being ready. Kept with the table."""
    key = (rates.visit, rates.second_trip)
    found = table.kept.get(key)
    if found is None:
        bundles = table.bundle_cents / CENTS_A_MINUTE
        lacking = np.concatenate([np.full(len(bundles), rates.second_trip), (LATE_MIN, OVERRUN_MIN)])
        ready = np.concatenate([bundles, (RUSH_MIN, SPARE_MIN)])
        found = table.kept.setdefault(key, (lacking, table.readiness * lacking, ready))
    return found


def safe(unsafe: Bools, rows: Floats) -> Bools:
    """Rows by checks: no cause the check is *unsafe* for (checks by causes) has belief of ``UNSAFE_FROM`` or more."""
    if not unsafe.any():
        return np.ones((len(rows), len(unsafe)), dtype=bool)
    causes = np.flatnonzero(unsafe.any(axis=0))
    doubtful = rows.take(causes, axis=1) >= (UNSAFE_FROM * sums(rows))[:, None]
    return np.asarray(doubtful.astype(np.float64) @ unsafe.take(causes, axis=1).T.astype(np.float64) == 0)


def sums(rows: Floats) -> Floats:
    """The sum of each row: by product, which is quicker than by adding where rows are short."""
    return np.asarray(rows @ np.ones(rows.shape[-1]))


def best_alone(rows: Floats, settles: Floats, minutes: Floats, usable: Bools, visit: float) -> Bools:
    """*usable* with the one check a row that gains most against *visit*: of those that reset something one is done only."""
    gain = np.where(usable, rows @ settles.T * visit - sums(rows)[:, None] * minutes, -np.inf)
    return np.asarray(usable & (np.arange(len(minutes)) == gain.argmax(axis=1)[:, None]))


def prefixes(
    rows: Floats, settles: Floats, minutes: Floats, usable: Bools, most: Counts, visit: float, after: After
) -> Floats:
    """
    Cost from each row of doing the first 0, 1, 2... of the chosen checks and then going on as *after* says: 0, 1, 2... by rows.

    settles: checks by causes. Checks go by chance over minutes. The least is to be taken over all, for the first check may
    not pay although two do. With more checks than *most* (by row) those with the largest gain against *visit* are taken.
    """
    chosen = in_order(rows, settles, minutes, usable, most, visit)
    fails = np.concatenate([1 - settles, np.ones((1, settles.shape[1]))])
    spends = np.concatenate([minutes, np.zeros(1)])[chosen]
    lefts = np.empty((chosen.shape[1] + 1, *rows.shape))
    lefts[0] = rows
    for place in range(chosen.shape[1]):
        np.multiply(lefts[place], fails[chosen[:, place]], out=lefts[place + 1])
    ends = after(lefts.reshape(-1, rows.shape[1])).reshape(len(lefts), len(rows))
    ends[1:] += (sums(lefts[:-1]) * spends.T).cumsum(axis=0)
    return ends


def in_order(rows: Floats, settles: Floats, minutes: Floats, usable: Bools, most: Counts, visit: float) -> Places:
    """Rows by places: the check done there or -1; at most *most* (by row), by chance over minutes, ties in file order."""
    width, lines = min(int(most.max()), len(minutes)), np.arange(len(rows)) * len(minutes)
    chance = rows @ settles.T
    ratio = chance / minutes
    ratio *= usable
    gain = np.multiply(chance, visit, out=chance)
    gain -= sums(rows)[:, None] * minutes
    gain[ratio <= 0] = -np.inf
    chosen: list[Places] = []
    worth: list[Floats] = []
    for place in range(width):
        check = gain.argmax(axis=1)
        cell = lines + check
        check[(gain.take(cell) == -np.inf) | (most <= place)] = -1
        chosen.append(check)
        worth.append(ratio.take(cell))
        gain.put(cell, -np.inf)
    return _by_ratio(chosen, worth, len(rows))


def _by_ratio(chosen: Sequence[Places], worth: Sequence[Floats], rows: int) -> Places:
    """The *chosen* checks of each row in the order of their *worth*, ties in file order; -1 last."""
    order = np.array(chosen, dtype=np.intp).reshape(len(chosen), rows).T
    if len(chosen) < 2:
        return order
    if len(chosen) == 2:
        (one, other), (here, there) = chosen, worth
        swapped = (other >= 0) & ((there > here) | ((there == here) & (other < one)))
        order[swapped] = order[swapped, ::-1]
        return order
    ranks = np.lexsort((order, np.where(order < 0, 0.0, -np.array(worth).T)), axis=1)
    return np.take_along_axis(order, ranks, axis=1)
