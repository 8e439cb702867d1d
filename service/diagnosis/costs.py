"""
What the best plan would cost, for many beliefs at once: owner checks first, then the visit with its load and its length.

Beliefs come as rows that need not sum to 1: a row's sum is the chance of getting there, and costs scale with it, so that
the rows of a question's answers add up to the cost after asking. A plan is the least over fixed actions of something
linear in the belief, so knowing more never costs more, but where safety forbids a check that ignorance allowed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.diagnosis.grades import UNSAFE_FROM
from service.diagnosis.likelihoods import Floats
from service.diagnosis.prefixes import BARRED, Choices, Places, choices, prefixes
from service.diagnosis.table import Bools, Table
from service.diagnosis.tariff import CENTS_A_MINUTE, LATE_MIN, OVERRUN_MIN, RUSH_MIN, SPARE_MIN, Tariff

ACTIVE = 3e-3
"""Causes below this share are not reckoned with one by one when the worth of a question is weighed. Own choice."""
ORDERS = 8
"""So many orders of tests, each with another test first, are weighed."""


class Costs:
    """
    What plans for one ticket cost at its shop, in minutes, from beliefs near the one now.

    Causes that hardly matter are left out, their share put to ``something_else``: *active* are the places of the others in
    the table, *shares* their belief. *checks* are the places of those that may be done as long as the belief allows it.
    """

    def __init__(self, table: Table, rates: Tariff, belief: Floats, present: frozenset[str], allowed: Bools) -> None:
        self.table, self.rates = table, rates
        near = (belief >= ACTIVE).astype(np.float64)
        near[-1] = 1.0
        self.active = near.nonzero()[0]
        self.shares = belief.take(self.active)
        self.shares[-1] += 1 - np.add.reduce(self.shares)
        self._visit = visit_min(table, rates, present)
        needs = self._visit.matters.dot(near).nonzero()[0]  # what no active cause needs is never got ready for
        self._needs, self._orders = len(needs), orders_near(table, belief, len(self._visit.matters))
        columns = np.concatenate([needs, self._orders])
        self._weights = self._visit.minutes.take(columns, axis=0).take(self.active, axis=1)
        pays = table.settles.dot(near) > 0  # never a check that settles no active cause
        self.checks = (allowed & pays).nonzero()[0]
        if len(self.checks):
            self._choose()

    def _choose(self) -> None:
        """What choosing among the checks takes, and which of them (by place) are unsafe for which active causes."""
        table = self.table
        checks: list[int] = self.checks.tolist()
        alone = [checks.index(check) for check in table.resets if check in checks]
        self._each = np.array([*checks, -1])
        self._among = self._visit.among.of(self._each, self.active, alone)
        self._guarded = not table.guarded.isdisjoint(checks)
        if self._guarded:
            self._unsafe = table.unsafe.take(self.checks, axis=0).take(self.active, axis=1).nonzero()

    def plan(
        self, rows: Floats, bars: Floats, checks_left: int, fewer_from: int | None = None
    ) -> tuple[Floats, Floats]:
        """
        Minutes of the best plan from each of *rows*, and of going at once without a check.

        bars: rows by all checks and none, as ``Table.bars``, before what the belief forbids. checks_left: how many may be
        done, one less from row *fewer_from* on.
        """
        if not len(self.checks) or checks_left <= 0:
            at_once = self.visit(rows)
            return at_once, at_once
        bars = bars.take(self._each, axis=1)
        if self._guarded:
            checks, causes = self._unsafe
            forbids = rows.take(causes, axis=1) >= UNSAFE_FROM * rows.dot(np.ones((rows.shape[1], 1)))
            places, pairs = forbids.nonzero()
            bars[places, checks.take(pairs)] = BARRED
        ends = prefixes(rows, self._among, bars, checks_left, self.visit, fewer_from)
        return np.minimum.reduce(ends), ends[0]

    def visit(self, rows: Floats) -> Floats:
        """
        Minutes of a visit from each row: the trip, tests, and being ready or not for a part, for a rush, for a long job.

        Each readiness costs its own if taken, and what lacking it costs if not; the cheaper is done. Tests go in the best of
        the orders that the table keeps; the plan on the sheet is computed exactly elsewhere.
        """
        weighed = self._weights.dot(rows.T)
        readying, unready = weighed[: self._needs], weighed[self._needs :]
        minutes = np.minimum.reduce(unready)
        minutes += np.add.reduce(np.minimum(readying, 0.0))
        return np.asarray(minutes)

    def visit_of(self, cause: str) -> tuple[float, bool]:
        """
        What the visit planned from the belief now costs if *cause* is the true one, and whether it takes a second trip.

        The same decisions as in ``visit``, taken before the truth is known.
        """
        table, visit = self.table, self._visit
        true = table.causes.index(cause) if cause in table.causes else len(table.causes) - 1
        believed = visit.minutes.take(self.active, axis=1) @ self.shares
        ready = believed[: len(visit.matters)] < 0
        order = self._orders[believed[self._orders].argmin()]
        whole = visit.minutes[order, true] + visit.minutes[: len(ready), true][ready].sum()
        missed = (visit.matters[:, true] > 0) & ~ready
        return float(whole), bool(missed[: len(table.bundle_cents)].any())


def orders_near(table: Table, belief: Floats, usual: int) -> Places:
    """
    The orders of tests worth weighing near *belief*: the usual one, and those that begin with what shows most a minute.

    usual: the number of the usual order; the one that begins with the table's first test has the next, and so on.
    """
    orders = np.empty(1 + min(ORDERS, len(table.test_min)), dtype=np.intp)
    orders[0] = usual
    shown = table.finds.dot(belief) / -np.maximum(table.test_min, 1.0)
    np.add(shown.argsort(kind="stable")[:ORDERS], usual + 1, out=orders[1:])
    return orders


@dataclass(frozen=True, slots=True, eq=False)
class VisitMin:
    """
    What a visit is made of, in minutes. matters: readiness by causes, 1 if needed. among: all owner checks, that may save it.

    minutes, by causes: first what each readiness adds to a visit where nothing is got ready (less than nothing where it is
    needed), and behind it what that visit costs with the tests in each order.
    """

    matters: Floats
    minutes: Floats
    among: Choices


def visit_min(table: Table, rates: Tariff, present: frozenset[str]) -> VisitMin:
    """The figures of a visit at these *rates* where *present* symptoms lead the tests. Kept with the table."""
    key = (rates.visit, rates.second_trip, table.leading(present))
    found = table.kept.get(key)
    if found is None:
        bundles = table.bundle_cents / CENTS_A_MINUTE
        lacking = np.concatenate([np.full(len(bundles), rates.second_trip), (LATE_MIN, OVERRUN_MIN)])
        ready = np.concatenate([bundles, (RUSH_MIN, SPARE_MIN)])
        missed = table.readiness * lacking
        unready = rates.visit + missed.sum(axis=1)[:, None] + table.testing(key[2])
        minutes = np.concatenate([(ready - missed).T, unready.T])
        matters = (table.readiness.T > 0).astype(np.float64)
        among = choices(table.settles, np.array(table.check_min), rates.visit)
        found = table.kept.setdefault(key, VisitMin(matters, minutes, among))
    return found
