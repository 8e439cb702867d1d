"""What technicians expect of the rules for cooktops and microwaves, for and against. Common practice, no source."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Ask, Belief, Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.wording.grade import grade
from service.wording.segments import BASIC, EXTENSION, count
from tests.conftest import RULES

COUNTER = {"cooktop": (12, 5), "microwave": (12, 5)}
"""Causes and owner checks each must have at least."""


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def _evidence(symptoms: str, **observations: str) -> Evidence:
    return Evidence(symptoms=dict.fromkeys(symptoms.split(), True), observations=observations)


def _belief(rulebook: Rulebook, code: str, symptoms: str, **observations: str) -> Belief:
    return believe(rulebook.appliances[code], _evidence(symptoms, **observations))


def _offered(rulebook: Rulebook, code: str, told: Evidence) -> set[str]:
    """Every owner check the line would go on to offer if none of them helped."""
    tried: set[str] = set()
    limits = Limits(questions_max=0, checks_max=30)
    machine = rulebook.appliances[code]
    while isinstance(step := next_step(machine, told, limits, rulebook.shop), Try):
        tried.add(step.check)
        told = Evidence(told.symptoms, told.hazards, told.observations, checks=dict.fromkeys(tried, "not_fixed"))
    return tried


@pytest.mark.parametrize("code", COUNTER)
def test_there_is_enough_of_everything_and_nothing_hangs_loose(rulebook: Rulebook, code: str) -> None:
    machine = rulebook.appliances[code]
    causes, checks = COUNTER[code]
    assert len(machine.causes) >= causes
    assert len(machine.checks) >= checks
    settled = {cause for check in machine.checks.values() for cause in check.settles}
    assert {cause.id for cause in machine.causes.values() if cause.owner} <= settled
    assert set(machine.causes) <= {cause for test in machine.tests.values() for cause in test.finds}
    assert {part for cause in machine.causes.values() for part in cause.parts} == set(machine.parts)
    assert set(machine.symptoms) - {"vague"} <= {seen for cause in machine.causes.values() for seen in cause.evidence}


@pytest.mark.parametrize("code", COUNTER)
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


@pytest.mark.parametrize("code", COUNTER)
@pytest.mark.parametrize("hazard", ["gas_smell", "shock", "burning_smell", "smoke", "sparks", "hot_wiring"])
def test_nobody_is_offered_a_check_while_a_danger_is_named(rulebook: Rulebook, code: str, hazard: str) -> None:
    machine = rulebook.appliances[code]
    for symptom in machine.symptoms:
        told = Evidence(symptoms={symptom: True}, hazards=(hazard,))
        assert not isinstance(next_step(machine, told, Limits(), rulebook.shop), Try), symptom


@pytest.mark.parametrize("code", COUNTER)
def test_any_complaint_gets_a_plan(rulebook: Rulebook, code: str) -> None:
    machine = rulebook.appliances[code]
    for symptom in machine.symptoms:
        assert plan_visit(machine, Evidence(symptoms={symptom: True}), rulebook.shop).tests, symptom


# A complaint with its answers, the cause a technician names first, and one those answers speak against.
COOKTOP = [
    (
        "burner_dead",
        {"cook_kind": "gas", "click_heard": "clicks", "cap_sits": "no"},
        "cap_misplaced",
        "spark_module_bad",
    ),
    (
        "burner_dead",
        {"cook_kind": "gas", "click_heard": "clicks", "cap_sits": "yes", "how_many": "one", "spilled": "no"},
        "ports_clogged",
        "cap_misplaced",
    ),
    (
        "burner_dead",
        {"cook_kind": "gas", "how_many": "all", "click_heard": "clicks", "other_gas": "no"},
        "gas_supply_off",
        "no_spark_power",
    ),
    (
        "burner_dead",
        {"cook_kind": "gas", "how_many": "all", "click_heard": "silent", "clock_works": "no"},
        "no_spark_power",
        "gas_supply_off",
    ),
    ("clicks_nonstop", {"cook_kind": "gas", "spilled": "yes", "clicks_when": "off"}, "wet_burner", "electrode_bad"),
    (
        "clicks_nonstop",
        {"cook_kind": "gas", "spilled": "no", "clicks_when": "off"},
        "ignition_switch_bad",
        "wet_burner",
    ),
    ("weak_flame", {"cook_kind": "gas", "flame_look": "yellow", "how_many": "one"}, "air_mix_yellow", "regulator_weak"),
    (
        "weak_flame",
        {"cook_kind": "gas", "how_many": "all", "began": "install", "flame_look": "lifts"},
        "orifice_wrong",
        "ports_clogged",
    ),
    (
        "burner_dead",
        {"cook_kind": "electric", "top_kind": "glass", "how_many": "one", "setting_heat": "nothing"},
        "radiant_element_open",
        "coil_element_open",
    ),
    (
        "burner_dead",
        {"cook_kind": "electric", "top_kind": "coils", "wiggle_coil": "yes"},
        "coil_receptacle_burnt",
        "radiant_element_open",
    ),
    ("overheat", {"cook_kind": "electric", "setting_heat": "full"}, "infinite_switch_stuck", "infinite_switch_open"),
    ("no_start", {"cook_kind": "induction", "pan_magnet": "no"}, "pan_not_induction", "induction_generator_bad"),
    (
        "burner_dead error_code",
        {"cook_kind": "induction", "pan_magnet": "yes", "how_many": "some"},
        "induction_generator_bad",
        "pan_not_induction",
    ),
    (
        "no_heat",
        {"cook_kind": "electric", "breaker_tripped": "yes", "how_many": "all", "clock_works": "yes"},
        "half_breaker",
        "radiant_element_open",
    ),
    ("broken_glass", {}, "glass_cracked", "knob_broken"),
]


@pytest.mark.parametrize(("symptoms", "answers", "first", "against"), COOKTOP)
def test_a_cooktops_first_suspect_is_a_technicians(
    rulebook: Rulebook, symptoms: str, answers: dict[str, str], first: str, against: str
) -> None:
    belief = _belief(rulebook, "cooktop", symptoms, **answers)
    assert belief.likely[0].cause == first
    assert belief.share(first) > 5 * belief.share(against)


def test_a_gas_top_has_no_elements_and_an_electric_one_no_caps(rulebook: Rulebook) -> None:
    gas = _belief(rulebook, "cooktop", "burner_dead", cook_kind="gas")
    electric = _belief(rulebook, "cooktop", "burner_dead", cook_kind="electric")
    assert gas.share("radiant_element_open") + gas.share("coil_element_open") < 0.02
    assert electric.share("cap_misplaced") + electric.share("ports_clogged") < 0.02


def test_a_burner_that_does_not_light_is_asked_about_before_anything_is_tried(rulebook: Rulebook) -> None:
    step = next_step(rulebook.appliances["cooktop"], _evidence("burner_dead"), Limits(), rulebook.shop)
    assert isinstance(step, Ask)


def test_a_burner_that_only_clicks_has_its_cap_seated_first(rulebook: Rulebook) -> None:
    told = _evidence("burner_dead", cook_kind="gas", click_heard="clicks", how_many="one")
    assert "seat_cap" in _offered(rulebook, "cooktop", told)
    straight = _evidence("burner_dead", cook_kind="gas", click_heard="clicks", how_many="one", cap_sits="yes")
    assert "seat_cap" not in _offered(rulebook, "cooktop", straight)


@pytest.mark.parametrize(
    ("symptoms", "answers"),
    [
        ("broken_glass", {}),
        ("broken_glass burner_dead", {"cook_kind": "electric"}),
        ("wont_stop", {}),
        ("overheat", {}),
        ("weak_flame", {"flame_look": "yellow"}),
        ("trips_breaker", {"trips_again": "yes"}),
        ("temp_off", {"setting_heat": "full"}),
        ("broken_part", {"knob_off": "no"}),
    ],
)
def test_a_cooktop_that_must_not_be_used_has_no_owner_check(
    rulebook: Rulebook, symptoms: str, answers: dict[str, str]
) -> None:
    assert not _offered(rulebook, "cooktop", _evidence(symptoms, **answers))


def test_a_cracked_glass_top_stops_use(rulebook: Rulebook) -> None:
    cooktop = rulebook.appliances["cooktop"]
    assert cooktop.symptoms["broken_glass"].stop_use is not None
    assert cooktop.observations["flame_look"].stop_use.keys() == {"yellow"}


MICROWAVE = [
    ("dead", {"other_things": "no"}, "plug_or_outlet_dead", "line_fuse_blown"),
    ("dead", {"other_things": "yes", "began": "slam"}, "door_switch_bad", "plug_or_outlet_dead"),
    ("no_heat", {"water_test": "loud"}, "diode_capacitor_bad", "door_switch_bad"),
    ("no_heat", {"water_test": "usual", "machine_age": "old", "power_level": "no"}, "magnetron_bad", "power_level_low"),
    ("no_start", {"lock_shown": "yes"}, "lock_or_demo", "door_switch_bad"),
    ("turntable_stuck", {"plate_seat": "no"}, "plate_off_ring", "turntable_motor_bad"),
    ("turntable_stuck", {"plate_seat": "yes"}, "turntable_motor_bad", "plate_off_ring"),
    ("trips_breaker", {"shares_circuit": "yes"}, "circuit_shared", "diode_capacitor_bad"),
    ("temp_off", {"power_level": "yes"}, "power_level_low", "magnetron_bad"),
]


@pytest.mark.parametrize(("symptoms", "answers", "first", "against"), MICROWAVE)
def test_a_microwaves_first_suspect_is_a_technicians(
    rulebook: Rulebook, symptoms: str, answers: dict[str, str], first: str, against: str
) -> None:
    belief = _belief(rulebook, "microwave", symptoms, **answers)
    assert belief.likely[0].cause == first
    assert belief.share(first) > 3 * belief.share(against)


@pytest.mark.parametrize("symptoms", ["door_fault", "broken_glass", "wont_stop", "arcing", "overheat"])
def test_a_microwave_with_a_bad_door_sparks_or_running_open_is_not_used(rulebook: Rulebook, symptoms: str) -> None:
    assert rulebook.appliances["microwave"].symptoms[symptoms].stop_use is not None
    assert not _offered(rulebook, "microwave", _evidence(symptoms))
    assert not _offered(rulebook, "microwave", _evidence(f"{symptoms} no_heat"))


def test_a_microwave_whose_door_must_be_held_has_no_owner_check(rulebook: Rulebook) -> None:
    for state in ("loose", "damaged"):
        assert not _offered(rulebook, "microwave", _evidence("no_start", door_look=state))
