"""Washer and dryer: whole, short enough for a phone, weighed as a technician would, and stopped when they must not run."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.wording.grade import grade
from service.wording.segments import BASIC, EXTENSION, count
from tests.conftest import RULES

LAUNDRY = ("washer", "dryer")


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


@pytest.fixture(params=LAUNDRY)
def machine(request: pytest.FixtureRequest, rulebook: Rulebook) -> Appliance:
    return rulebook.appliances[request.param]


def _evidence(symptoms: str, **observations: str) -> Evidence:
    return Evidence(symptoms=dict.fromkeys(symptoms.split(), True), observations=observations)


def _first(rulebook: Rulebook, code: str, symptoms: str, **observations: str) -> str:
    return believe(rulebook.appliances[code], _evidence(symptoms, **observations)).likely[0].cause


def test_there_is_enough_of_everything(machine: Appliance) -> None:
    assert len(machine.causes) >= 20
    assert len(machine.checks) >= 8
    settled = {cause for check in machine.checks.values() for cause in check.settles}
    assert {cause.id for cause in machine.causes.values() if cause.owner} <= settled
    assert set(machine.causes) <= {cause for test in machine.tests.values() for cause in test.finds}
    assert {part for cause in machine.causes.values() for part in cause.parts} == set(machine.parts)
    assert set(machine.symptoms) - {"vague"} <= {code for cause in machine.causes.values() for code in cause.evidence}


def test_every_check_fits_two_texts_and_reads_easily(rulebook: Rulebook, machine: Appliance) -> None:
    for check in machine.checks.values():
        for language in ("en", "es"):
            signals = rulebook.wording[language]
            told = [f"{signals[f'signal.{c.signal.lower()}']}: {c.text.in_(language)}" for c in check.cautions]
            first = " ".join([check.not_for.in_(language), *told, *(step.in_(language) for step in check.steps)])
            then = " ".join(text.in_(language) for text in (check.see, check.ends_if, check.helped))
            for text in (first, then):
                assert count(text).number <= 2, (check.id, language, text)
                assert language == "es" or grade(text) <= 6, (check.id, text)
                assert all(sign in BASIC or sign in EXTENSION for sign in text), (check.id, text)


def test_heat_that_does_not_stop_and_a_second_trip_end_use(rulebook: Rulebook, machine: Appliance) -> None:
    assert machine.symptoms["overheat"].stop_use is not None
    assert machine.observations["trips_again"].stop_use.keys() == {"yes"}
    for told in (_evidence("overheat"), _evidence("trips_breaker", trips_again="yes")):
        assert not isinstance(next_step(machine, told, Limits(), rulebook.shop), Try)


def test_a_yellow_flame_and_scorched_clothes_end_a_dryers_use(rulebook: Rulebook) -> None:
    dryer = rulebook.appliances["dryer"]
    assert dryer.symptoms["weak_flame"].stop_use is not None
    assert dryer.observations["flame_seen"].stop_use.keys() == {"yellow"}
    assert dryer.observations["mark_kind"].stop_use.keys() == {"scorch"}


def test_nobody_opens_a_pump_filter_that_is_not_low_in_front_off_and_cold(rulebook: Rulebook) -> None:
    check = rulebook.appliances["washer"].checks["pump_filter"]
    assert (check.power, check.water) == ("off", "off")
    assert {"loader=top", "filter_cleaned=none"} <= set(check.never_if)


@pytest.mark.parametrize(
    ("code", "symptoms", "answers", "cause"),
    [
        ("washer", "no_drain", {"loader": "front"}, "pump_filter_clogged"),
        ("washer", "no_spin", {"loader": "top", "drive_sound": "runs", "other_motion": "no"}, "drive_coupler_broken"),
        ("washer", "no_spin", {"loader": "top", "drive_sound": "silent", "lock_clicks": "no"}, "lid_switch_failed"),
        ("washer", "vibration", {"rocks": "yes"}, "not_level"),
        ("washer", "vibration", {"loader": "front", "began": "install", "load_kind": "every"}, "shipping_bolts_in"),
        ("washer", "noise", {"noise_kind": "roar", "noise_when": "spin"}, "drum_bearing_worn"),
        ("washer", "suds leak", {}, "oversudsing"),
        ("washer", "overfill", {"fills_off": "yes"}, "inlet_valve_weeps"),
        ("dryer", "slow_dry", {"air_outside": "weak"}, "vent_clogged"),
        ("dryer", "no_heat", {"heat_kind": "electric", "breaker_tripped": "no"}, "heating_element_open"),
        ("dryer", "no_heat", {"heat_kind": "electric", "breaker_tripped": "yes"}, "half_breaker"),
        ("dryer", "no_heat", {"heat_kind": "gas"}, "igniter_failed"),
        ("dryer", "no_heat", {"heat_kind": "gas", "heat_comes_goes": "yes"}, "gas_coils_weak"),
        ("dryer", "no_tumble", {"start_sound": "runs", "turns_by_hand": "free"}, "belt_broken"),
        ("dryer", "noise", {"noise_kind": "squeal"}, "idler_worn"),
    ],
)
def test_the_first_suspect_is_a_technicians(
    rulebook: Rulebook, code: str, symptoms: str, answers: dict[str, str], cause: str
) -> None:
    assert _first(rulebook, code, symptoms, **answers) == cause


def test_a_gas_dryer_has_no_element_and_an_electric_one_no_igniter(rulebook: Rulebook) -> None:
    dryer = rulebook.appliances["dryer"]
    gas = believe(dryer, _evidence("no_heat", heat_kind="gas"))
    electric = believe(dryer, _evidence("no_heat", heat_kind="electric"))
    assert gas.share("heating_element_open") < 0.02
    assert electric.share("igniter_failed") < 0.02
