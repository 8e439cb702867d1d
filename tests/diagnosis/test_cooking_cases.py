"""What technicians expect of the rules for ranges and wall ovens, for and against. Common practice, no source."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Belief, Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.wording.grade import grade
from service.wording.segments import BASIC, EXTENSION, count
from tests.conftest import RULES

COOKING = {"range": (20, 8), "wall_oven": (12, 5)}
"""Causes and owner checks each must have at least."""

OVEN = [
    ("no_heat", {"cook_kind": "gas", "igniter_glow": "glows"}, "oven_igniter_weak", "bake_element_open"),
    ("no_heat", {"cook_kind": "electric", "heat_mode": "bake"}, "bake_element_open", "oven_igniter_weak"),
    ("no_heat", {"cook_kind": "electric", "heat_mode": "broil"}, "broil_element_open", "bake_element_open"),
    ("no_heat", {"heat_mode": "both", "mode_shown": "yes"}, "oven_mode_set", "bake_element_open"),
    ("no_start", {"clock_blinks": "yes", "mode_shown": "no"}, "clock_unset", "oven_mode_set"),
    ("temp_off", {"how_far": "uneven", "blocked": "yes"}, "air_blocked", "offset_small"),
    ("door_fault", {"door_how": "locked", "after_clean": "yes"}, "still_hot_lock", "door_hinge_bent"),
    ("door_fault", {"door_how": "loose"}, "door_hinge_bent", "door_latch_stuck"),
    ("dead", {"breaker_tripped": "yes", "clock_works": "no"}, "breaker_off", "thermal_cutout_open"),
    ("dead", {"breaker_tripped": "no", "after_clean": "yes"}, "thermal_cutout_open", "breaker_off"),
    ("noise", {"noise_kind": "fan", "noise_after": "yes"}, "oven_fan_runs_on", "convection_fan_bad"),
]
"""A complaint with its answers, the cause a technician names first, and one those answers speak against."""

TOP = [
    ("clicks_nonstop", {"cook_kind": "gas", "spilled": "yes", "clicks_when": "off"}, "wet_burner", "electrode_bad"),
    ("burner_dead", {"cook_kind": "gas", "how_many": "one", "cap_sits": "no"}, "cap_misplaced", "gas_supply_off"),
    ("burner_dead", {"cook_kind": "gas", "how_many": "all", "other_gas": "no"}, "gas_supply_off", "cap_misplaced"),
    ("burner_dead", {"top_kind": "coils", "wiggle_coil": "yes"}, "coil_receptacle_burnt", "radiant_element_open"),
    ("burner_dead", {"top_kind": "glass", "setting_heat": "nothing"}, "radiant_element_open", "coil_element_open"),
    ("overheat", {"which_part": "top", "setting_heat": "full"}, "infinite_switch_stuck", "oven_relay_welded"),
    ("overheat", {"which_part": "oven", "how_far": "high"}, "oven_relay_welded", "infinite_switch_stuck"),
    ("weak_flame", {"which_part": "top", "flame_look": "yellow"}, "air_mix_yellow", "regulator_weak"),
    ("broken_glass", {"which_part": "top", "top_kind": "glass"}, "glass_cracked", "oven_glass_broken"),
]

CASES = [(code, *case) for code in COOKING for case in OVEN] + [("range", *case) for case in TOP]


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def _belief(rulebook: Rulebook, code: str, symptom: str, observations: dict[str, str]) -> Belief:
    return believe(rulebook.appliances[code], Evidence(symptoms={symptom: True}, observations=observations))


@pytest.mark.parametrize(("code", "symptom", "answers", "first", "unlikely"), CASES)
def test_answers_lead_where_a_technician_would_look(
    rulebook: Rulebook, code: str, symptom: str, answers: dict[str, str], first: str, unlikely: str
) -> None:
    before, after = _belief(rulebook, code, symptom, {}), _belief(rulebook, code, symptom, answers)
    assert after.likely[0].cause == first
    assert after.share(first) > before.share(first)
    assert after.share(unlikely) < 0.05


@pytest.mark.parametrize("code", COOKING)
def test_there_is_enough_of_everything_and_nothing_hangs_loose(rulebook: Rulebook, code: str) -> None:
    machine = rulebook.appliances[code]
    causes, checks = COOKING[code]
    assert len(machine.causes) >= causes
    assert len(machine.checks) >= checks
    settled = {cause for check in machine.checks.values() for cause in check.settles}
    assert {cause.id for cause in machine.causes.values() if cause.owner} <= settled
    assert set(machine.causes) <= {cause for test in machine.tests.values() for cause in test.finds}
    assert {part for cause in machine.causes.values() for part in cause.parts} == set(machine.parts)
    assert set(machine.symptoms) - {"vague"} <= {seen for cause in machine.causes.values() for seen in cause.evidence}


@pytest.mark.parametrize("code", COOKING)
def test_every_check_fits_two_texts_and_reads_easily(rulebook: Rulebook, code: str) -> None:
    for check in rulebook.appliances[code].checks.values():
        for language in ("en", "es"):
            signals = rulebook.wording[language]
            told = [f"{signals[f'signal.{c.signal.lower()}']}: {c.text.in_(language)}" for c in check.cautions]
            first = " ".join([check.not_for.in_(language), *told, *(step.in_(language) for step in check.steps)])
            then = " ".join(text.in_(language) for text in (check.see, check.ends_if, check.helped))
            for text in (first, then):
                assert count(text).number <= 2, (check.id, language, text)
                assert language == "es" or grade(text) <= 6, (check.id, text)
                assert all(sign in BASIC or sign in EXTENSION for sign in text), (check.id, text)


@pytest.mark.parametrize("code", COOKING)
@pytest.mark.parametrize("hazard", ["gas_smell", "carbon_monoxide", "shock"])
def test_nobody_is_offered_a_check_while_a_danger_is_named(rulebook: Rulebook, code: str, hazard: str) -> None:
    machine = rulebook.appliances[code]
    for symptom in machine.symptoms:
        told = Evidence(symptoms={symptom: True}, hazards=(hazard,))
        assert not isinstance(next_step(machine, told, Limits(), rulebook.shop), Try), symptom


@pytest.mark.parametrize("code", COOKING)
@pytest.mark.parametrize("symptom", ["overheat", "wont_stop", "broken_glass"])
def test_nobody_is_offered_a_check_on_heat_that_will_not_stop_or_broken_glass(
    rulebook: Rulebook, code: str, symptom: str
) -> None:
    machine = rulebook.appliances[code]
    step = next_step(machine, Evidence(symptoms={symptom: True}), Limits(questions_max=0), rulebook.shop)
    assert not isinstance(step, Try)


@pytest.mark.parametrize("code", COOKING)
def test_no_owner_check_goes_on_a_yellow_flame(rulebook: Rulebook, code: str) -> None:
    machine = rulebook.appliances[code]
    told = Evidence(symptoms={"weak_flame": True}, observations={"flame_look": "yellow"})
    assert not isinstance(next_step(machine, told, Limits(questions_max=0), rulebook.shop), Try)


@pytest.mark.parametrize("code", COOKING)
def test_any_complaint_gets_a_plan(rulebook: Rulebook, code: str) -> None:
    machine = rulebook.appliances[code]
    for symptom in machine.symptoms:
        assert plan_visit(machine, Evidence(symptoms={symptom: True}), rulebook.shop).tests, symptom
