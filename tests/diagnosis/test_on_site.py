"""What comes first at a machine with a danger, what fuel rules out, and looks before panels; by the shop's real rules."""

from __future__ import annotations

import pytest

from service.diagnosis.model import Evidence
from service.diagnosis.on_site import done_first, taken_for, with_time_for_it
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import RULES

ELECTRICAL = ("fire", "shock", "smoke", "hot_wiring", "sparks", "burning_smell")
WET = ("water_near_power", "flooding")


@pytest.fixture(scope="module")
def rules() -> Rulebook:
    return load_rulebook(RULES, "demo")


def order(rules: Rulebook, machine: str, evidence: Evidence) -> list[str]:
    plan = plan_visit(rules.appliances[machine], evidence, rules.shop)
    return [step.test for step in plan.tests]


def test_every_danger_but_an_injury_has_something_that_comes_first(rules: Rulebook) -> None:
    assert set(rules.dangers) - {code for rule in rules.on_site for code in rule.dangers} == {"injury"}


def test_gas_comes_before_any_flame_with_what_it_needs_on_the_van(rules: Rulebook) -> None:
    [first] = done_first(rules.on_site, ("gas_smell",))

    assert "before any flame" in first.do.casefold()
    assert {"connector", "valve", "fitting"} <= {word.strip(",.").casefold() for word in first.do.split()}
    assert {"gas leak solution", "combustible-gas detector"} <= {*first.bring}
    assert "licensed practice and local code" in first.cautions[0].text.en
    assert "utility" in first.cautions[0].text.en


@pytest.mark.parametrize("hazard", [*ELECTRICAL, *WET])
def test_power_is_proved_dead_before_anything_is_tested(rules: Rulebook, hazard: str) -> None:
    [first] = done_first(rules.on_site, (hazard,))

    assert "proved dead" in first.do
    assert "breaker off" in first.do.casefold()
    assert first.bring


def test_what_two_dangers_need_alike_is_done_once(rules: Rulebook) -> None:
    assert len(done_first(rules.on_site, ELECTRICAL)) == 1


@pytest.mark.parametrize("machine", ["range", "cooktop"])
def test_a_smell_of_gas_is_planned_for_a_gas_machine_and_no_pan_is_carried(rules: Rulebook, machine: str) -> None:
    smelt = Evidence(hazards=frozenset({"gas_smell"}))
    plan = plan_visit(rules.appliances[machine], taken_for(rules.on_site, smelt.hazards, smelt), rules.shop)

    assert "test_pan" not in plan.tools
    assert "test_pan_zones" not in [step.test for step in plan.tests]


def test_what_was_told_of_the_fuel_stands_against_what_a_danger_suggests(rules: Rulebook) -> None:
    told = Evidence(facts={"fuel": "electric"})

    assert taken_for(rules.on_site, ("gas_smell",), told).facts == {"fuel": "electric"}


@pytest.mark.parametrize("machine", ["range", "cooktop", "wall_oven", "dryer"])
def test_an_electric_machine_has_no_gas_test(rules: Rulebook, machine: str) -> None:
    symptoms = {code: True for code in rules.appliances[machine].symptoms if code in ("no_heat", "burner_dead")}
    tests = order(rules, machine, Evidence(symptoms=symptoms, facts={"fuel": "electric"}))

    gas = {"gas_pressure", "gas_pressure_test", "ignition_watch", "igniter_current", "flame_watch", "spark_watch"}
    assert gas.isdisjoint(tests)


def test_breaker_and_settings_come_before_the_dryer_is_taken_apart(rules: Rulebook) -> None:
    tests = order(rules, "dryer", Evidence(symptoms={"no_heat": True}, facts={"fuel": "electric"}))

    assert tests[0] == "load_and_setting"
    assert tests.index("supply_240") < tests.index("element_and_fuses")


def test_time_is_kept_for_what_comes_first(rules: Rulebook) -> None:
    smelt = Evidence(hazards=frozenset({"gas_smell", "smoke"}))
    plan = plan_visit(rules.appliances["range"], smelt, rules.shop)
    [gas, power] = done_first(rules.on_site, smelt.hazards)

    longer = with_time_for_it(plan, rules.on_site, smelt.hazards)

    assert longer.minutes_usual == plan.minutes_usual + gas.minutes + power.minutes
    assert longer.minutes_promise >= plan.minutes_promise + gas.minutes + power.minutes
    assert longer.minutes_promise % 5 == 0
    assert longer.tests == plan.tests
    assert with_time_for_it(plan, rules.on_site, ()) is plan
