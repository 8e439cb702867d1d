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
from service.diagnosis.prefixes import BARRED, Choices, Counts, Places, choices, prefixes
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
        self.table, self.rates, self._present = table, rates, present
        near = belief >= ACTIVE
        near[-1] = True
        self.active = near.nonzero()[0]
        self.shares = belief.take(self.active)
        self.shares[-1] += 1 - np.add.reduce(self.shares)
        self._orders = orders_near(table, belief)
        self._visit = visit_min(table, rates, present)
        needs = (self._visit.matters @ near).nonzero()[0]  # what no active cause needs is never got ready for
        columns = np.concatenate([needs, self._orders + len(self._visit.ready), (-1,)])
        self._weights = self._visit.by_cause.take(self.active, axis=0).take(columns, axis=1).T
        self._ready = self._visit.ready.take(needs)[:, None]
        self._choose(allowed)

    def _choose(self, allowed: Bools) -> None:
        """The checks among those *allowed* that settle an active cause (others never pay), and which wait for safety."""
        table = self.table
        settles = table.settles.take(self.active, axis=1)
        self.checks = (allowed & settles.any(axis=1)).nonzero()[0] if allowed.any() else np.zeros(0, dtype=np.intp)
        self._among: Choices | None = None
        self._guarded: list[tuple[int, Floats]] = []
        if len(self.checks):
            places = self.checks.tolist()
            alone = [column for column, check in enumerate(places) if check in table.resets]
            self._among = self._visit.among.of(self.checks, self.active, alone)
            for column, check in enumerate(places):
                if check in table.guarded and len(causes := table.unsafe[check].take(self.active).nonzero()[0]):
                    self._guarded.append((column, np.eye(len(self.active))[causes].T - UNSAFE_FROM))

    def plan(self, rows: Floats, bars: Floats, checks_left: Counts) -> tuple[Floats, Floats]:
        """
        Minutes of the best plan from each of *rows*, and of going at once without a check.

        bars: rows by all checks and none, as ``Table.bars``, before what the belief forbids. checks_left: by row.
        """
        if self._among is None or checks_left.max() <= 0:
            at_once = self.visit(rows)
            return at_once, at_once
        bars = bars.take([*self.checks.tolist(), -1], axis=1)
        for column, over in self._guarded:  # by how much each cause it is unsafe for is over the share that forbids it
            bars[(rows @ over >= 0).any(axis=1), column] = BARRED
        ends = prefixes(rows, self._among, bars, checks_left, self.visit)
        return np.minimum.reduce(ends), ends[0]

    def visit(self, rows: Floats) -> Floats:
        """
        Minutes of a visit from each row: the trip, tests, and being ready or not for a part, for a rush, for a long job.

        Each readiness costs its own if taken, and what lacking it costs if not; the cheaper is done. Tests go in the best of
        the orders that the table keeps; the plan on the sheet is computed exactly elsewhere.
        """
        weighed, needs = self._weights @ rows.T, len(self._ready)
        minutes = np.add.reduce(np.minimum(weighed[:needs], self._ready * weighed[-1]))
        minutes += np.minimum.reduce(weighed[needs:-1])
        minutes += weighed[-1] * self.rates.visit
        return np.asarray(minutes)

    def visit_of(self, cause: str) -> tuple[float, bool]:
        """
        What the visit planned from the belief now costs if *cause* is the true one, and whether it takes a second trip.

        The same decisions as in ``visit``, taken before the truth is known.
        """
        table, visit = self.table, self._visit
        true = table.causes.index(cause) if cause in table.causes else len(table.causes) - 1
        needs, orders = len(visit.ready), self._orders + len(visit.ready)
        believed = self.shares @ visit.by_cause.take(self.active, axis=0)
        ready = believed[:needs] > visit.ready
        missed = visit.by_cause[true, :needs] * ~ready
        testing = visit.by_cause[true, orders[believed[orders].argmin()]]
        whole = self.rates.visit + testing + visit.ready[ready].sum() + missed.sum()
        return float(whole), bool(missed[: len(table.bundle_cents)].any())


def orders_near(table: Table, belief: Floats) -> Places:
    """The orders of tests worth weighing near *belief*: the usual one, and those that begin with what shows most a minute."""
    shown = table.finds @ belief / -np.maximum(table.test_min, 1.0)
    return np.array([0, *(shown.argsort(kind="stable")[:ORDERS] + 1).tolist()])


@dataclass(frozen=True, slots=True, eq=False)
class VisitMin:
    """
    What a visit is made of, in minutes. ready: of being ready, by readiness. matters: readiness by causes, 1 if needed.

    by_cause: causes by what it costs to lack each readiness, by the minutes of tests in each order, and 1 last of all.
    among: all owner checks, that may save it.
    """

    ready: Floats
    matters: Floats
    by_cause: Floats
    among: Choices


def visit_min(table: Table, rates: Tariff, present: frozenset[str]) -> VisitMin:
    """The figures of a visit at these *rates* where *present* symptoms lead the tests. Kept with the table."""
    key = (rates.visit, rates.second_trip, table.leading(present))
    found = table.kept.get(key)
    if found is None:
        bundles = table.bundle_cents / CENTS_A_MINUTE
        lacking = np.concatenate([np.full(len(bundles), rates.second_trip), (LATE_MIN, OVERRUN_MIN)])
        ready = np.concatenate([bundles, (RUSH_MIN, SPARE_MIN)])
        by_cause = np.concatenate(
            [table.readiness * lacking, table.testing(key[2]), np.ones((len(table.causes), 1))], axis=1
        )
        matters = (table.readiness.T > 0).astype(np.float64)
        among = choices(table.settles, table.check_min, rates.visit)
        found = table.kept.setdefault(key, VisitMin(ready, matters, by_cause, among))
    return found
