"""What technicians expect of the range hood's rules, both ways. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Belief, Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import RULES

BEFORE_ANY_CHECK = ("carbon_monoxide", "gas_smell", "fire", "smoke", "burning_smell", "sparks", "shock", "hot_wiring")


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def belief(rulebook: Rulebook, symptom: str, **answers: str) -> Belief:
    return believe(rulebook.appliances["range_hood"], Evidence(symptoms={symptom: True}, observations=answers))


def first(rulebook: Rulebook, symptom: str, **answers: str) -> str:
    return belief(rulebook, symptom, **answers).likely[0].cause


def offered(rulebook: Rulebook, told: Evidence) -> set[str]:
    """Every owner check the line would go on to offer if none of them helped."""
    tried: dict[str, str] = {}
    limits = Limits(questions_max=0, checks_max=30)
    machine = rulebook.appliances["range_hood"]
    while isinstance(step := next_step(machine, replace(told, checks=tried), limits, rulebook.shop), Try):
        tried = {**tried, step.check: "not_fixed"}
    return set(tried)


def test_a_hood_that_draws_badly_is_its_filter_until_that_is_washed_and_then_the_way_out(rulebook: Rulebook) -> None:
    assert first(rulebook, "weak_suction", filter_washed="no") == "grease_filter_packed"
    washed = belief(rulebook, "weak_suction", filter_washed="yes", hood_vents="outside", flap_opens="no")
    assert {item.cause for item in washed.likely[:3]} == {"damper_stuck", "duct_poor", "outlet_blocked"}
    assert washed.share("grease_filter_packed") < 0.05


def test_one_that_blows_back_lives_by_its_charcoal_and_one_with_a_duct_has_none(rulebook: Rulebook) -> None:
    assert (
        first(rulebook, "weak_suction", hood_vents="inside", charcoal_changed="no", filter_washed="yes")
        == "charcoal_spent"
    )
    assert belief(rulebook, "weak_suction", hood_vents="outside").share("charcoal_spent") < 0.02
    assert first(rulebook, "weak_suction", hood_vents="outside", window_helps="yes") == "makeup_air_short"


def test_a_hum_is_motor_or_capacitor_and_silence_with_a_lamp_is_the_switch(rulebook: Rulebook) -> None:
    hum = belief(rulebook, "fan_dead", lamp_works="yes", fan_sound="hums")
    assert {item.cause for item in hum.likely[:2]} == {"motor_failed", "capacitor_weak"}
    assert first(rulebook, "fan_dead", lamp_works="yes", fan_sound="nothing") == "fan_switch_bad"


def test_a_drip_of_grease_is_filter_and_cup_and_a_drip_of_water_the_duct(rulebook: Rulebook) -> None:
    grease = belief(rulebook, "leak", drip_what="grease")
    assert {item.cause for item in grease.likely[:2]} == {"grease_filter_packed", "grease_in_hood"}
    assert grease.share("duct_sweats") < 0.02
    assert first(rulebook, "leak", drip_what="water") == "duct_sweats"


def test_a_rattle_after_a_wash_is_the_filter_and_a_scrape_the_wheel(rulebook: Rulebook) -> None:
    assert first(rulebook, "noise", noise_kind="rattle", filter_washed="yes") == "filter_loose"
    assert first(rulebook, "noise", noise_kind="scrape") == "wheel_bad"


def test_a_dark_lamp_is_the_bulb_until_a_new_one_stays_dark(rulebook: Rulebook) -> None:
    assert first(rulebook, "light_out") == "lamp_burnt"
    assert first(rulebook, "light_out", bulb_new="no", lamp_scope="every") == "lamp_holder_bad"
    assert "lamp_kind" in offered(rulebook, Evidence(symptoms={"light_out": True}))
    assert not offered(rulebook, Evidence(symptoms={"light_out": True}, observations={"bulb_new": "no"}))


def test_the_commonest_complaints_have_something_for_the_owner(rulebook: Rulebook) -> None:
    for symptom, check in (
        ("weak_suction", "wash_filter"), ("odor", "charcoal_due"), ("error_code", "clear_filter_sign"),
        ("dead", "breaker_once"), ("leak", "wash_filter"), ("controls_fault", "lock_timer"),
    ):  # fmt: skip
        assert check in offered(rulebook, Evidence(symptoms={symptom: True})), symptom
    assert not offered(rulebook, Evidence(symptoms={"trips_breaker": True}, observations={"trips_again": "yes"}))
    assert not offered(rulebook, Evidence(symptoms={"broken_glass": True, "weak_suction": True}))


@pytest.mark.parametrize("hazard", BEFORE_ANY_CHECK)
def test_nobody_tries_a_hood_while_a_danger_is_named(rulebook: Rulebook, hazard: str) -> None:
    for symptom in rulebook.appliances["range_hood"].symptoms:
        assert not offered(rulebook, Evidence(symptoms={symptom: True}, hazards=(hazard,))), symptom
    for check in rulebook.appliances["range_hood"].checks.values():
        assert hazard in check.never_if, check.id


@pytest.mark.parametrize(
    "text",
    [
        "hood doesnt pull and we get headaches when the gas stove is on",
        "vent hood barely pulls and im dizzy every time the gas stove is going",
        "la campana no jala y nos mareamos con la estufa de gas",
    ],
)
def test_a_weak_hood_over_gas_with_a_headache_is_heard_as_the_danger(rulebook: Rulebook, text: str) -> None:
    assert "carbon_monoxide" in {found.code for found in reader_for(rulebook).hazards(text)}


def test_a_weak_hood_alone_is_no_danger(rulebook: Rulebook) -> None:
    assert not reader_for(rulebook).hazards("hood doesnt pull the steam over our gas stove")
