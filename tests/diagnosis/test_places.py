"""Tests are grouped by where the technician already is, but not at any price."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from service.diagnosis.actions import Actions
from service.diagnosis.blocks import by_blocks
from service.diagnosis.choosing import MOVING_MIN
from service.diagnosis.model import Evidence, VisitPlan
from service.diagnosis.tests_order import EXACT
from service.diagnosis.visit import plan_visit
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop
from tests.diagnosis.drain_machine import appliance, cause, keyed, symptom, visit_test

BY_CHANCE = ["valve", "hose", "screen", "trap"]
"""Tests of five minutes each, likeliest first; each shows one cause of its own."""


def machine(weights: list[float], places: list[str]) -> Appliance:
    """A machine whose tests, in the order of ``BY_CHANCE``, show causes of these *weights* at these *places*."""
    return appliance(
        symptoms=keyed(symptom("no_drain")),
        causes=keyed(
            *(
                cause(f"{test}_bad", weight, {"no_drain": "often"})
                for test, weight in zip(BY_CHANCE, weights, strict=True)
            )
        ),
        tests=keyed(
            *(
                visit_test(test, 5, {f"{test}_bad": "always"}, place=place)
                for test, place in zip(BY_CHANCE, places, strict=True)
            )
        ),
    )


def planned(shop: Shop, weights: list[float], places: list[str]) -> VisitPlan:
    return plan_visit(machine(weights, places), Evidence(), shop)


def order(plan: VisitPlan) -> list[str]:
    return [step.test for step in plan.tests]


def test_tests_at_one_place_are_done_together_though_another_is_a_little_likelier(shop: Shop) -> None:
    weights = [26.0, 25.0, 24.0, 23.0]
    assert order(planned(shop, weights, ["tub"] * 4)) == BY_CHANCE
    apart = planned(shop, weights, ["tub", "sink", "tub", "sink"])
    assert order(apart) == ["valve", "screen", "hose", "trap"]
    assert apart.tests[-1].minutes == pytest.approx(4 * 5 + MOVING_MIN)


def test_a_much_likelier_test_is_worth_the_way(shop: Shop) -> None:
    plan = planned(shop, [40.0, 38.0, 4.0, 3.0], ["tub", "sink", "tub", "sink"])
    assert order(plan) == ["valve", "hose", "trap", "screen"]


def test_a_long_list_stays_where_the_technician_is() -> None:
    count = EXACT + 4
    shares, there = np.append(np.linspace(0.085, 0.074, count), 0.0), tuple(test % 2 for test in range(count))
    shares[-1] = 1 - shares.sum()
    finds, minutes = np.eye(count, count + 1) * 0.9, np.full(count, 5.0)
    assert by_blocks(Actions(shares, finds, minutes)) == tuple(range(count))
    grouped = by_blocks(Actions(shares, finds, minutes, place=there, moving_min=MOVING_MIN))
    assert sum(there[one] != there[other] for one, other in pairwise(grouped)) == 1
