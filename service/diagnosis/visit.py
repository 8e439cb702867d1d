"""The visit plan: tests in order, parts and tools to load, the chance to finish, the minutes to promise."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from service.diagnosis.actions import minutes_next
from service.diagnosis.belief import believe
from service.diagnosis.carrying import WORTH_NAMING, carrying
from service.diagnosis.choosing import actions_of, tests_in_order
from service.diagnosis.duration import mixed_quantile, rounded_up, spread, visit_median
from service.diagnosis.held import known_values
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, PlannedTest, VisitPlan
from service.diagnosis.table import Table, compiled
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

WORTH_A_TOOL = 0.05
"""Tools of a repair are named from this share. Our own choice."""
OUTCOMES_ENOUGH = 50


def plan_visit(
    appliance: Appliance, evidence: Evidence, shop: Shop, *, van_litres: float = 120, outcomes: int = 0
) -> VisitPlan:
    """
    What the technician should do and bring, from what is known now. outcomes: of the shop's own on this appliance.

    Tests: see ``choosing``.
    """
    table = compiled(appliance)
    belief = believe(appliance, evidence)
    by_cause = {item.cause: item.share for item in belief.likely}
    shares = np.array([by_cause[cause] for cause in table.causes])
    tests = tests_in_order(table, shares, known_values(appliance, evidence))
    planned = tuple(_planned(table, shares, tests))
    carried = carrying(table, shares, _shown(table, tests), shop, van_litres)
    usual, promise = _minutes(table, shares, planned, carried.load, shop.windows.promise_quantile)
    return VisitPlan(
        belief=belief,
        tests=planned,
        load=carried.items,
        tools=_tools(table, shares, planned),
        finish=carried.finish,
        finish_with=carried.finish_with,
        minutes_usual=usual,
        minutes_promise=promise,
        estimate=outcomes < OUTCOMES_ENOUGH,
    )


def _planned(table: Table, shares: Floats, tests: Sequence[int]) -> Iterable[PlannedTest]:
    """Each test with the minutes spent by its end and what it would settle, given that all before it showed nothing."""
    actions = actions_of(table, shares, tests)
    left, spent, opened, place = shares, 0.0, set[int](), -1
    for number, test in enumerate(tests):
        rule = table.appliance.tests[table.tests[test]]
        spent += minutes_next(actions, number, opened, place)
        panel, place = actions.opening[number], actions.place[number]
        opens = rule.opening if panel >= 0 and panel not in opened else None
        opened.add(panel)
        shown = left * table.finds[test]
        ranked = sorted(np.flatnonzero(shown >= WORTH_NAMING).tolist(), key=lambda k: -shown[k])
        yield PlannedTest(rule.id, spent, tuple((table.causes[k], float(shown[k])) for k in ranked), opens)
        left = left - shown


def _shown(table: Table, tests: Sequence[int]) -> Floats:
    """By cause, the chance that any planned test shows it."""
    return np.asarray(1 - np.prod(1 - table.finds[list(tests)], axis=0))


def _tools(table: Table, shares: Floats, planned: Sequence[PlannedTest]) -> tuple[str, ...]:
    """Tools of the planned tests and their openings, then of likely repairs; what is always on the van only for tests."""
    appliance = table.appliance
    wanted: dict[str, None] = {}
    for step in planned:
        opening = appliance.openings[step.opens].tools if step.opens else ()
        wanted |= dict.fromkeys((*opening, *appliance.tests[step.test].tools))
    likely = sorted(zip(shares.tolist(), appliance.causes.values(), strict=False), key=lambda one: -one[0])
    for share, cause in likely:
        if share >= WORTH_A_TOOL:
            known = (appliance.tools.get(tool) for tool in cause.tools)
            wanted |= dict.fromkeys(tool.id for tool in known if tool is not None and not tool.standard)
    return tuple(wanted)


def _minutes(
    table: Table, shares: Floats, planned: Sequence[PlannedTest], load: frozenset[str], quantile: float
) -> tuple[int, int]:
    """Usual and promised minutes: by cause the tests until it shows and its repair, if the parts are on board."""
    basics = table.appliance.basics.visit
    until = _minutes_until_shown(table, planned)
    medians = [
        visit_median(basics.median_min, until[k] + (cause.repair_min if frozenset(cause.parts) <= load else 0))
        for k, cause in enumerate(table.appliance.causes.values())
    ]
    parts = list(zip(shares.tolist(), [*medians, float(basics.median_min)], strict=True))
    sigma = spread(basics.median_min, basics.q90_min)
    return round(mixed_quantile(parts, sigma, 0.5)), rounded_up(mixed_quantile(parts, sigma, quantile))


def _minutes_until_shown(table: Table, planned: Sequence[PlannedTest]) -> list[float]:
    """By cause, expected minutes of tests until one shows it; to the end of the list if none does."""
    left = np.ones(len(table.causes))
    spent = np.zeros(len(table.causes))
    for step in planned:
        shown = left * table.finds[table.tests.index(step.test)]
        spent = spent + shown * step.minutes
        left = left - shown
    whole = planned[-1].minutes if planned else 0.0
    minutes: list[float] = (spent + left * whole).tolist()
    return minutes
