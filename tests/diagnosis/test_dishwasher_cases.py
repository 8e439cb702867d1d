"""What technicians expect of the dishwasher's rules, both ways. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Ask, Evidence, Limits, Try, VisitPlan
from service.diagnosis.questions import next_step
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance

TRICKLE = Evidence(
    symptoms={"slow_drain": True, "no_drain": False}, observations={"trickle": "yes", "new_disposal": "no"}
)
PLUG_LEFT_IN = Evidence(symptoms={"no_drain": True}, facts={"after": ("new_disposal",)})


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(Path(__file__).parents[2] / "rules", "demo")


@pytest.fixture(scope="module")
def dishwasher(rulebook: Rulebook) -> Appliance:
    return rulebook.appliances["dishwasher"]


@pytest.fixture(scope="module")
def sheet(rulebook: Rulebook, dishwasher: Appliance) -> VisitPlan:
    return plan_visit(dishwasher, TRICKLE, rulebook.shop)


def test_a_trickle_is_tested_at_seal_line_and_screen_before_the_pump_assembly(sheet: VisitPlan) -> None:
    order = [step.test for step in sheet.tests]
    pump = order.index("condemn_motor_pump")
    assert pump == len(order) - 1
    assert all(order.index(test) < pump for test in ("seal_across", "sump_and_screen", "line_through"))


def test_a_drain_test_counts_only_after_a_full_fill_and_a_full_drain(sheet: VisitPlan) -> None:
    order = [step.test for step in sheet.tests]
    drained = order.index("full_drain_watched")
    assert order[drained - 1] == "full_fill"
    assert all(order.index(test) > drained for test in ("seal_across", "line_through", "sump_and_screen"))
    assert order[0] == "filter_look"  # two minutes without a tool tell more than a fill that only makes ready


def test_a_trickle_loads_the_seal_and_not_the_assembly(sheet: VisitPlan) -> None:
    load = {item.part: item.carry for item in sheet.load}
    assert load["drain_valve_seal_kit"]
    assert not load["motor_pump_assembly"]
    assert sheet.finish_with is not None
    assert sheet.finish_with[0] == "motor_pump_assembly"


def test_a_trickle_brings_the_tools_of_the_trade(sheet: VisitPlan) -> None:
    named = {"nut_driver_1_4", "nut_driver_5_16", "phillips_screwdriver", "tubing_1_4", "towels", "pan"}
    assert named <= set(sheet.tools)


def test_a_trickle_with_the_filter_cleaned_is_not_asked_to_clean_it(rulebook: Rulebook, dishwasher: Appliance) -> None:
    evidence = Evidence(symptoms=TRICKLE.symptoms, facts={"tried": ("cleaned_filter",)})
    limits = Limits(questions_max=0, checks_max=9)
    step = next_step(dishwasher, evidence, limits, rulebook.shop)
    assert not (isinstance(step, Try) and step.check == "clean_filter")
    assert believe(dishwasher, evidence).share("filter_clogged") < 0.05


def test_nothing_drains_since_a_new_disposal_so_the_plug_comes_first(rulebook: Rulebook, dishwasher: Appliance) -> None:
    step = next_step(dishwasher, PLUG_LEFT_IN, Limits(), rulebook.shop)
    assert isinstance(step, Try)
    assert step.check == "ask_installer_plug"
    assert step.chance > 0.5


def test_if_the_installer_does_not_come_the_technician_looks_for_the_plug_first(
    rulebook: Rulebook, dishwasher: Appliance
) -> None:
    evidence = Evidence(
        symptoms=PLUG_LEFT_IN.symptoms, facts=PLUG_LEFT_IN.facts, checks={"ask_installer_plug": "declined"}
    )
    plan = plan_visit(dishwasher, evidence, rulebook.shop)
    assert plan.tests[0].test == "knockout_look"
    assert plan.tests[0].looks_for[0][0] == "knockout_plug_in"
    assert plan.minutes_promise < plan_visit(dishwasher, TRICKLE, rulebook.shop).minutes_promise


def test_without_a_new_disposal_the_plug_is_never_offered(rulebook: Rulebook, dishwasher: Appliance) -> None:
    evidence = Evidence(symptoms={"no_drain": True}, observations={"new_disposal": "no"})
    limits = Limits(questions_max=0, checks_max=30)
    tried: set[str] = set()
    while isinstance(step := next_step(dishwasher, evidence, limits, rulebook.shop), Try):
        tried.add(step.check)
        evidence = Evidence(evidence.symptoms, (), evidence.observations, checks=dict.fromkeys(tried, "not_fixed"))
    assert "ask_installer_plug" not in tried


def test_when_nothing_drains_the_new_disposal_is_what_is_asked(rulebook: Rulebook, dishwasher: Appliance) -> None:
    step = next_step(dishwasher, Evidence(symptoms={"no_drain": True}), Limits(), rulebook.shop)
    assert isinstance(step, Ask)
    assert step.code == "new_disposal"


def test_draining_that_comes_and_goes_is_felt_for_in_the_sump_before_the_pump(
    rulebook: Rulebook, dishwasher: Appliance
) -> None:
    evidence = Evidence(symptoms={"no_drain": True}, observations={"comes_and_goes": "yes", "new_disposal": "no"})
    plan = plan_visit(dishwasher, evidence, rulebook.shop)
    order = [step.test for step in plan.tests]
    assert plan.belief.share("glass_wedged") > 2 * plan.belief.share("motor_pump_worn")
    assert order.index("sump_and_screen") < min(order.index("drain_pump_meter"), order.index("condemn_motor_pump"))


def test_a_pump_machine_is_not_tested_for_a_valve_seal(
    rulebook: Rulebook, dishwasher: Appliance, sheet: VisitPlan
) -> None:
    pump = Evidence(symptoms=TRICKLE.symptoms, observations={**TRICKLE.observations, "drain_type": "pump"})
    plan = plan_visit(dishwasher, pump, rulebook.shop)
    assert "seal_across" not in [step.test for step in plan.tests]
    assert plan.belief.share("drain_valve_seal_worn") < 0.1 * sheet.belief.share("drain_valve_seal_worn")


def test_water_is_never_looked_for_under_the_machine_without_its_panel(
    rulebook: Rulebook, dishwasher: Appliance
) -> None:
    plan = plan_visit(dishwasher, Evidence(symptoms={"leak": True}), rulebook.shop)
    opened = [step.opens for step in plan.tests if step.opens]
    assert len(opened) == len(set(opened))
    under = next(step for step in plan.tests if step.test == "look_under_while_draining")
    assert "toe_panel" in opened
    assert under.looks_for[0][0] in ("hose_leak", "pump_seal_leak")


def test_any_complaint_gets_a_plan_and_a_next_step(rulebook: Rulebook, dishwasher: Appliance) -> None:
    for code in dishwasher.symptoms:
        evidence = Evidence(symptoms={code: True})
        plan = plan_visit(dishwasher, evidence, rulebook.shop)
        assert plan.tests, code
        assert 0.3 < plan.finish < 1, code
        assert 25 <= plan.minutes_usual < plan.minutes_promise <= 180, code
        next_step(dishwasher, evidence, Limits(), rulebook.shop)


@pytest.mark.parametrize(("told", "idle"), [("noise_kind=hum", "drain_sound"), ("drain_sound=hums", "noise_kind")])
def test_what_it_sounds_like_is_not_asked_of_whoever_said_that_it_hums(
    rulebook: Rulebook, dishwasher: Appliance, told: str, idle: str
) -> None:
    code, _, value = told.partition("=")
    symptoms = {"no_drain": True, "noise": True}
    without, limits = Evidence(symptoms=symptoms), Limits(checks_allowed=False, questions_max=40)
    assert idle in asked(rulebook, dishwasher, without, limits)
    assert idle not in asked(rulebook, dishwasher, replace(without, observations={code: value}), limits)


def asked(rulebook: Rulebook, dishwasher: Appliance, evidence: Evidence, limits: Limits) -> set[str]:
    """All that is asked of somebody who cannot answer anything."""
    while isinstance(step := next_step(dishwasher, evidence, limits, rulebook.shop), Ask):
        limits = replace(limits, asked=limits.asked | {step.code})
    return set(limits.asked)
