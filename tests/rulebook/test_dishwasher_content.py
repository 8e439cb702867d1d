"""The dishwasher's own files: they are whole, their texts fit a phone, and their weights say what a technician would."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Belief, Evidence
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance, Check
from service.wording.grade import grade
from service.wording.segments import BASIC, EXTENSION, count

RULES = Path(__file__).parents[2] / "rules"
ASKED_CHECKS = (
    "clean_filter",
    "hose_in_view",
    "ask_installer_plug",
    "run_disposal",
    "sink_drain",
    "air_gap_cap",
    "high_loop",
    "open_shutoff",
    "reset_breaker",
    "switch_and_plug",
    "clear_door",
    "clear_lock",
    "arms_and_racks",
    "free_float",
    "hot_tap_and_soap",
)
NAMED_TOOLS = (
    "1/4-inch nut driver",
    "5/16-inch nut driver",
    "Phillips screwdriver",
    "length of 1/4-inch tubing to clear the line",
    "towels",
    "shallow pan",
)
SYMPTOM_CODES = (
    "vague dead no_start stops_midcycle wont_stop trips_breaker controls_fault error_code door_fault broken_part leak no_fill "
    "overfill no_drain slow_drain backflow suds poor_clean wet_load no_detergent damages_load vibration noise odor no_heat "
    "overheat light_out jammed"
)
SYMPTOMS = frozenset(SYMPTOM_CODES.split())


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


@pytest.fixture(scope="module")
def dishwasher(rulebook: Rulebook) -> Appliance:
    return rulebook.appliances["dishwasher"]


def _shares(dishwasher: Appliance, **evidence: object) -> Belief:
    return believe(dishwasher, Evidence(**evidence))


def _texts(rulebook: Rulebook, check: Check, language: str) -> tuple[str, str]:
    """The two texts of *check*: who leaves it, cautions and steps; what to see, what ends it and whether it helped."""
    words = rulebook.wording[language]
    cautions = [f"{words[f'signal.{c.signal.lower()}']}: {c.text.in_(language)}" for c in check.cautions]
    first = [check.not_for.in_(language), *cautions, *(step.in_(language) for step in check.steps)]
    return " ".join(first), " ".join(text.in_(language) for text in (check.see, check.ends_if, check.helped))


def test_every_dishwasher_symptom_of_the_vocabulary_can_be_heard_in_both_languages(dishwasher: Appliance) -> None:
    assert set(dishwasher.symptoms) >= SYMPTOMS
    for symptom in dishwasher.symptoms.values():
        for language in ("en", "es"):
            assert symptom.signs.in_(language) or symptom.functions.in_(language), (symptom.code, language)


def test_there_is_enough_of_everything(dishwasher: Appliance) -> None:
    asked = [item for item in dishwasher.observations.values() if item.who == "customer"]
    assert len(asked) >= 12
    assert len(dishwasher.causes) >= 28
    assert len(dishwasher.checks) >= 13
    assert len(dishwasher.tests) >= 12


def test_the_checks_an_owner_can_do_are_all_there(dishwasher: Appliance) -> None:
    assert set(ASKED_CHECKS) <= set(dishwasher.checks)


def test_the_sheet_can_name_the_tools_of_the_trade(dishwasher: Appliance) -> None:
    assert set(NAMED_TOOLS) <= {tool.name for tool in dishwasher.tools.values()}


def test_common_symptoms_have_hits_and_near_misses(dishwasher: Appliance) -> None:
    for code in ("no_drain", "slow_drain", "leak", "dead", "no_start", "poor_clean", "noise", "door_fault"):
        examples = dishwasher.symptoms[code].examples
        assert sum(code in example.means for example in examples) >= 6, code
        assert any(code in example.lacks or code in example.denies for example in examples), code


def test_every_check_fits_two_texts_of_two_segments_in_both_languages(
    rulebook: Rulebook, dishwasher: Appliance
) -> None:
    for check in dishwasher.checks.values():
        for language in ("en", "es"):
            for text in _texts(rulebook, check, language):
                assert count(text).number <= 2, (check.id, language, count(text).units, text)


def test_spanish_checks_keep_to_letters_of_the_seven_bit_alphabet_without_losing_an_accent(
    dishwasher: Appliance,
) -> None:
    for check in dishwasher.checks.values():
        texts = [*(c.text for c in check.cautions), *check.steps, check.see, check.helped, check.not_for, check.ends_if]
        for text in texts:
            assert all(sign in BASIC or sign in EXTENSION for sign in text.es), (check.id, text.es)


def test_every_check_reads_at_grade_six_or_below(rulebook: Rulebook, dishwasher: Appliance) -> None:
    for check in dishwasher.checks.values():
        for text in _texts(rulebook, check, "en"):
            assert grade(text) <= 6, (check.id, grade(text), text)


def test_every_question_and_what_to_do_meanwhile_fits_and_reads_easily(dishwasher: Appliance) -> None:
    for item in dishwasher.observations.values():
        choices = [f"\n{number} {answer.say.en}" for number, answer in enumerate(item.answers, 1)]
        assert count(item.ask.en + "".join(choices)).number <= 1, item.id
    for meanwhile in dishwasher.basics.meanwhile:
        assert grade(meanwhile.say.en) <= 6, meanwhile.say.en
        assert count(meanwhile.say.es).number <= 1, meanwhile.say.es


def test_nobody_shouts_or_decorates(dishwasher: Appliance) -> None:
    for check in dishwasher.checks.values():
        for text in [*(c.text for c in check.cautions), *check.steps, check.see, check.helped]:
            assert not set("!¡“”’‘–—…") & set(text.en + text.es), (check.id, text)


def test_only_the_owner_can_settle_what_an_owner_check_settles_for_sure(dishwasher: Appliance) -> None:
    for check in dishwasher.checks.values():
        for cause, grade_ in check.settles.items():
            if grade_ in ("often", "very often", "almost always", "always"):
                assert dishwasher.causes[cause].owner, (check.id, cause)


def test_every_owner_cause_has_an_owner_check(dishwasher: Appliance) -> None:
    settled = {cause for check in dishwasher.checks.values() for cause in check.settles}
    owners = {cause.id for cause in dishwasher.causes.values() if cause.owner}
    assert owners <= settled


def test_every_cause_can_be_found_by_a_test(dishwasher: Appliance) -> None:
    found = {cause for test in dishwasher.tests.values() for cause in test.finds}
    assert set(dishwasher.causes) <= found


def test_every_part_is_for_a_cause_and_every_symptom_has_one(dishwasher: Appliance) -> None:
    used = {part for cause in dishwasher.causes.values() for part in cause.parts}
    assert used == set(dishwasher.parts)
    seen = {code for cause in dishwasher.causes.values() for code in cause.evidence}
    assert SYMPTOMS - {"vague"} <= seen


def test_a_trickle_with_no_new_disposal_is_the_seal_then_the_line_then_screen_before_the_pump(
    rulebook: Rulebook, dishwasher: Appliance
) -> None:
    evidence = Evidence(
        symptoms={"slow_drain": True, "no_drain": False, "leak": False},
        observations={"trickle": "yes", "sink_backs_up": "no", "new_disposal": "no"},
        facts={"tried": ("cleaned_filter",)},
    )
    belief = believe(dishwasher, evidence)
    assert [item.cause for item in belief.likely[:3]] == [
        "drain_valve_seal_worn",
        "drain_line_grease",
        "sump_screen_blocked",
    ]
    plan = plan_visit(dishwasher, evidence, rulebook.shop)
    order = [planned.test for planned in plan.tests]
    wanted = ["full_fill", "full_drain_watched", "seal_across", "sump_and_screen", "line_through", "condemn_motor_pump"]
    assert [test for test in order if test in wanted] == wanted
    carried = {item.part for item in plan.load if item.carry}
    assert "drain_valve_seal_kit" in carried
    assert "motor_pump_assembly" not in carried
    assert {"nut_driver_1_4", "nut_driver_5_16", "tubing_1_4", "towels", "pan"} <= set(plan.tools)


def test_no_drain_since_a_new_disposal_is_its_plug_by_far(dishwasher: Appliance) -> None:
    belief = _shares(dishwasher, symptoms={"no_drain": True}, facts={"after": ("new_disposal",)})
    assert belief.likely[0].cause == "knockout_plug_in"
    assert belief.likely[0].share > 5 * belief.likely[1].share


def test_a_filter_already_cleaned_falls_behind(dishwasher: Appliance) -> None:
    before = _shares(dishwasher, symptoms={"slow_drain": True})
    after = _shares(dishwasher, symptoms={"slow_drain": True}, facts={"tried": ("cleaned_filter",)})
    assert after.share("filter_clogged") < before.share("filter_clogged") / 5


def test_dead_after_a_tripped_breaker_is_the_breaker_until_the_reset_has_failed(dishwasher: Appliance) -> None:
    known = {"symptoms": {"dead": True}, "observations": {"breaker_tripped": "yes"}}
    assert _shares(dishwasher, **known).likely[0].cause == "breaker_off"
    failed = _shares(dishwasher, **known, checks={"reset_breaker": "not_fixed"})
    assert failed.share("breaker_off") < 0.35
    again = _shares(dishwasher, symptoms={"trips_breaker": True}, observations={"trips_again": "yes"})
    assert again.likely[0].cause == "heater_shorted"
    assert dishwasher.observations["trips_again"].stop_use.keys() == {"yes"}


def test_suds_at_the_door_are_the_wrong_soap(dishwasher: Appliance) -> None:
    belief = _shares(dishwasher, symptoms={"leak": True, "suds": True}, observations={"leak_where": "door"})
    assert belief.likely[0].cause == "wrong_detergent"
    assert belief.likely[0].share > 0.8


def test_draining_that_comes_and_goes_points_to_something_wedged(dishwasher: Appliance) -> None:
    belief = _shares(dishwasher, symptoms={"slow_drain": True}, observations={"comes_and_goes": "yes"})
    assert belief.likely[0].cause == "glass_wedged"


def test_the_seal_belongs_to_a_valve_and_the_impeller_to_a_pump(dishwasher: Appliance) -> None:
    trickle = {"symptoms": {"slow_drain": True}}
    unknown = _shares(dishwasher, **trickle, observations={"trickle": "yes", "drain_type": "unknown"})
    unasked = _shares(dishwasher, **trickle, observations={"trickle": "yes"})
    pump = _shares(dishwasher, **trickle, observations={"trickle": "yes", "drain_type": "pump"})
    assert unknown.share("drain_valve_seal_worn") == pytest.approx(unasked.share("drain_valve_seal_worn"), abs=0.01)
    assert pump.share("drain_valve_seal_worn") < 0.03
    valve = _shares(dishwasher, symptoms={"no_drain": True}, observations={"drain_type": "valve"})
    assert valve.share("drain_impeller_jammed") < 0.01
    assert valve.share("check_valve_stuck") < 0.01


def test_the_motor_and_pump_assembly_is_condemned_last(dishwasher: Appliance) -> None:
    tests = dishwasher.tests
    assert tests["condemn_motor_pump"].last
    only_last = [t for t in tests.values() if "motor_pump_worn" in t.finds]
    assert all(test.last for test in only_last)
    assert "full_fill" in tests["full_drain_watched"].after
