"""The visit plan: order and minutes of tests, load, tools, the chance to finish."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from service.diagnosis.model import Evidence, VisitPlan
from service.diagnosis.visit import plan_visit
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

SLOW = Evidence(symptoms={"slow_drain": True, "no_drain": False})


@pytest.fixture
def plan(machine: Appliance, shop: Shop) -> Callable[..., VisitPlan]:
    def of(evidence: Evidence = SLOW, **more: object) -> VisitPlan:
        return plan_visit(machine, evidence, shop, **more)

    return of


def order(plan: VisitPlan) -> list[str]:
    return [step.test for step in plan.tests]


def test_a_drain_test_comes_after_the_full_fill_it_needs(plan: Callable[..., VisitPlan]) -> None:
    tests = order(plan())
    assert tests.index("full_fill") < tests.index("seal_size")


def test_the_costly_assembly_is_condemned_last(plan: Callable[..., VisitPlan]) -> None:
    assert order(plan(Evidence(symptoms={"no_drain": True})))[-1] == "pump_out"


def test_tests_of_causes_that_are_out_of_the_question_are_left_out(plan: Callable[..., VisitPlan]) -> None:
    assert "pump_out" not in order(plan())


def test_owners_faults_are_looked_for_on_the_visit_too(plan: Callable[..., VisitPlan]) -> None:
    new_disposal = plan(Evidence(symptoms={"no_drain": True}, facts={"after": "new_disposal"}))
    assert order(new_disposal)[0] == "line_off"
    assert new_disposal.tests[0].looks_for[0][0] == "knockout"


def test_a_panel_is_opened_once_and_minutes_add_up(plan: Callable[..., VisitPlan]) -> None:
    tests = plan(Evidence(symptoms={"noise": True})).tests
    assert [step.opens for step in tests if step.opens] == ["toe_panel"]
    assert [step.minutes for step in tests] == sorted(step.minutes for step in tests)
    alone = {"full_fill": 6, "seal_size": 8, "sump": 5, "line_off": 12, "meter": 6, "pump_out": 15}
    assert tests[-1].minutes >= sum(alone[step.test] for step in tests) + 4


def test_what_tests_settle_is_never_more_than_the_belief(plan: Callable[..., VisitPlan]) -> None:
    whole = plan()
    shown: dict[str, float] = {}
    for step in whole.tests:
        for cause, share in step.looks_for:
            shown[cause] = shown.get(cause, 0.0) + share
    assert all(share <= whole.belief.share(cause) + 1e-9 for cause, share in shown.items())


def test_a_part_is_carried_if_a_second_trip_would_cost_more(plan: Callable[..., VisitPlan]) -> None:
    load = {item.part: item for item in plan().load}
    assert load["seal_kit"].carry
    assert load["seal_kit"].saving_cents == round(load["seal_kit"].chance * 11000 - 200)
    assert not load["pump_kit"].carry if "pump_kit" in load else True


def test_parts_needed_together_are_carried_together(plan: Callable[..., VisitPlan]) -> None:
    load = {item.part: item.carry for item in plan(Evidence(symptoms={"noise": True})).load}
    assert load["harness"] is load["board"]


def test_carried_parts_come_first(plan: Callable[..., VisitPlan]) -> None:
    carried = [item.carry for item in plan(Evidence(facts={"after": "new_disposal"}), van_litres=3).load]
    assert carried == sorted(carried, reverse=True)
    assert False in carried


def test_a_larger_van_finishes_no_less_often_here(plan: Callable[..., VisitPlan]) -> None:
    evidence = Evidence(symptoms={"no_drain": True})
    finish = [plan(evidence, van_litres=litres).finish for litres in (0.5, 2, 8, 120)]
    assert finish == sorted(finish)
    assert 0 < finish[0] < finish[-1] < 1


@pytest.mark.parametrize("litres", [0.0, 0.5, 2, 8, 120])
def test_the_load_never_takes_more_room_than_the_van_has(
    plan: Callable[..., VisitPlan], machine: Appliance, litres: float
) -> None:
    for code in machine.symptoms:
        load = plan(Evidence(symptoms={code: True}), van_litres=litres).load
        assert sum(machine.parts[item.part].volume_l for item in load if item.carry) <= litres


def test_what_would_raise_the_chance_is_named(plan: Callable[..., VisitPlan]) -> None:
    small = plan(Evidence(symptoms={"no_drain": True}), van_litres=2)
    assert small.finish_with is not None
    part, chance = small.finish_with
    assert part == "pump_kit"
    assert chance > small.finish + 0.05
    assert plan(Evidence(symptoms={"no_drain": True})).finish_with is None


def test_tools_are_those_of_planned_tests_openings_and_likely_repairs(plan: Callable[..., VisitPlan]) -> None:
    assert set(plan(Evidence(symptoms={"noise": True})).tools) == {"nut_driver", "towel", "quarter_driver"}
    assert "quarter_driver" not in plan().tools


def test_a_tool_always_on_the_van_is_not_named_for_a_repair(plan: Callable[..., VisitPlan]) -> None:
    assert plan().belief.share("filter") > 0.05
    assert "screwdriver" not in plan().tools


def test_the_promise_is_a_quantile_above_the_usual(plan: Callable[..., VisitPlan]) -> None:
    whole = plan()
    assert 20 < whole.minutes_usual < whole.minutes_promise < 180
    assert whole.minutes_promise % 5 == 0


def test_a_longer_repair_makes_a_longer_visit(plan: Callable[..., VisitPlan]) -> None:
    pump = plan(Evidence(symptoms={"no_drain": True}, observations={"drain_type": "pump"}))
    assert pump.minutes_usual > plan(SLOW).minutes_usual


def test_it_is_a_book_estimate_until_fifty_outcomes(plan: Callable[..., VisitPlan]) -> None:
    assert plan(outcomes=49).estimate
    assert not plan(outcomes=50).estimate
