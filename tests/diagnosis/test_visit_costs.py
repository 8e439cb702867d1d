"""What a plan costs, written out decision by decision, against the few products it is reckoned with."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from service.diagnosis.belief import shares_of
from service.diagnosis.costs import Costs
from service.diagnosis.model import Evidence
from service.diagnosis.table import compiled
from service.diagnosis.tariff import CENTS_A_MINUTE, LATE_MIN, OVERRUN_MIN, RUSH_MIN, SPARE_MIN, tariff
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

COMPLAINTS = ["no_drain", "slow_drain", "noise"]


def costs_of(machine: Appliance, shop: Shop, symptom: str) -> Costs:
    table = compiled(machine)
    belief = shares_of(table, Evidence(symptoms={symptom: True}))
    return Costs(table, tariff(machine, shop), belief, frozenset({symptom}), np.ones(len(table.checks), dtype=bool))


def beliefs(costs: Costs) -> np.ndarray:
    """The belief now, and eight that lie far from it."""
    return np.concatenate(
        [costs.shares[None, :], np.random.default_rng(1).dirichlet(np.full(len(costs.shares), 0.4), 8)]
    )


@pytest.mark.parametrize("symptom", COMPLAINTS)
def test_a_visit_costs_the_least_over_all_that_can_be_got_ready_and_every_order(
    machine: Appliance, shop: Shop, symptom: str
) -> None:
    costs, table = costs_of(machine, shop, symptom), compiled(machine)
    ready = [*(table.bundle_cents / CENTS_A_MINUTE), RUSH_MIN, SPARE_MIN]
    lacking = [costs.rates.second_trip] * len(table.bundle_cents) + [LATE_MIN, OVERRUN_MIN]
    testing = table.testing(symptom)

    def minutes(cause: int, order: int, taken: tuple[bool, ...]) -> float:
        each = zip(taken, ready, lacking, table.readiness[cause], strict=True)
        return (
            costs.rates.visit
            + testing[cause, order]
            + sum(own if yes else need * lack for yes, own, lack, need in each)
        )

    ways = list(product(range(testing.shape[1]), product((False, True), repeat=len(ready))))
    by_way = np.array([[minutes(cause, *way) for cause in costs.active] for way in ways])
    rows = beliefs(costs)
    assert costs.visit(rows).tolist() == pytest.approx((by_way @ rows.T).min(axis=0).tolist())


@pytest.mark.parametrize("symptom", COMPLAINTS)
def test_what_the_visit_costs_each_cause_is_what_it_costs_on_the_whole(
    machine: Appliance, shop: Shop, symptom: str
) -> None:
    costs = costs_of(machine, shop, symptom)
    each = [costs.visit_of(costs.table.causes[cause])[0] for cause in costs.active]
    assert float(costs.shares @ each) == pytest.approx(float(costs.visit(costs.shares[None, :])[0]))


def test_only_lacking_a_part_makes_a_second_trip(machine: Appliance, shop: Shop) -> None:
    costs = costs_of(machine, shop, "slow_drain")
    trips = {cause: costs.visit_of(cause)[1] for cause in ("seal", "line", "wiring")}
    assert trips == {"seal": False, "line": False, "wiring": True}
    assert costs.visit_of("wiring")[0] > costs.visit_of("line")[0] + costs.rates.second_trip / 2


@pytest.mark.parametrize("left", [1, 2, 3])
def test_rows_from_a_place_on_may_do_one_check_less(machine: Appliance, shop: Shop, left: int) -> None:
    costs = costs_of(machine, shop, "no_drain")
    rows = beliefs(costs)
    bars = np.repeat(costs.table.bars[:1], len(rows), axis=0)
    whole, fewer = costs.plan(rows, bars, left)[0], costs.plan(rows, bars, left - 1)[0]
    assert costs.plan(rows, bars, left, 4)[0].tolist() == pytest.approx([*whole[:4], *fewer[4:]])
    assert (whole <= fewer + 1e-9).all()
    assert left > 1 or (whole < fewer - 1).any()


def test_a_check_waits_where_a_cause_it_is_unsafe_for_is_likely(machine: Appliance, shop: Shop) -> None:
    costs = costs_of(machine, shop, "slow_drain")
    causes = [costs.table.causes[cause] for cause in costs.active]
    bars = np.repeat(costs.table.bars[:1], 2, axis=0)
    only_line = [float(cause == "line") for cause in causes]
    a_little_wiring = [{"line": 0.98, "wiring": 0.02}.get(cause, 0.0) for cause in causes]
    rows = np.array([only_line, a_little_wiring])
    tap = costs.table.places["run_tap"]
    other = [place for place in range(len(costs.table.checks)) if place != tap]
    bars[:, other] = -np.inf
    cost, at_once = costs.plan(rows, bars, 1)
    assert cost[0] < at_once[0] - 1
    assert cost[1] == pytest.approx(at_once[1])
