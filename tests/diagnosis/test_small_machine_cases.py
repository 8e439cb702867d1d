"""What technicians expect of the disposal's rules, both ways. Common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(Path(__file__).parents[2] / "rules", "demo")


@pytest.fixture(scope="module")
def disposal(rulebook: Rulebook) -> Appliance:
    return rulebook.appliances["disposal"]


def shares(appliance: Appliance, symptom: str, **observations: str) -> dict[str, float]:
    """Belief in each cause with *symptom* present and these answers."""
    belief = believe(appliance, Evidence(symptoms={symptom: True}, observations=observations))
    return {cause: belief.share(cause) for cause in appliance.causes}


def leader(appliance: Appliance, symptom: str, **observations: str) -> str:
    """The likeliest cause."""
    held = shares(appliance, symptom, **observations)
    return max(held, key=lambda cause: held[cause])


def check_offered(rulebook: Rulebook, appliance: Appliance, evidence: Evidence) -> str | None:
    """The owner check that comes next when nothing more may be asked."""
    step = next_step(appliance, evidence, Limits(questions_max=0, checks_max=2), rulebook.shop)
    return step.check if isinstance(step, Try) else None


def test_of_two_resets_that_exclude_each_other_the_one_that_helps_more_is_offered(
    rulebook: Rulebook, disposal: Appliance
) -> None:
    dead = Evidence(symptoms={"dead": True})
    assert check_offered(rulebook, disposal, dead) == "press_reset"
    tried = Evidence(symptoms={"dead": True}, checks={"press_reset": "not_fixed"})
    assert check_offered(rulebook, disposal, tried) != "reset_breaker"


@pytest.mark.parametrize(
    ("symptom", "answers", "expected"),
    [
        ("dead", {"sound": "silent", "reset_pressed": "no"}, "overload_tripped"),
        ("dead", {"sound": "silent", "reset_pressed": "yes"}, "switched_or_breaker_off"),
        ("jammed", {"went_in": "hard"}, "jam_hard_object"),
        ("jammed", {"went_in": "stringy"}, "jam_fibrous"),
        ("jammed", {"went_in": "usual", "idle": "yes"}, "seized_rust"),
        ("jammed", {"plate_turns": "yes"}, "motor_failed"),
        ("leak", {"leak_where": "bottom", "machine_age": "old"}, "body_leak"),
        ("leak", {"leak_where": "top", "leak_when": "full_bowl"}, "flange_leak"),
        ("leak", {"leak_where": "side", "leak_when": "dishwasher"}, "dishwasher_hose_leak"),
        ("no_drain", {"other_bowl": "yes"}, "line_blocked"),
        ("no_drain", {"other_bowl": "no"}, "outlet_clogged"),
        ("noise", {"noise_kind": "rattle"}, "loose_object"),
        ("noise", {"noise_kind": "growl", "machine_age": "old"}, "bearing_worn"),
        ("trips_breaker", {"trips_again": "yes"}, "motor_grounded"),
        ("no_start", {"feed": "batch"}, "batch_cover_not_seated"),
    ],
)
def test_a_told_complaint_leads_where_a_technician_would_look(
    disposal: Appliance, symptom: str, answers: dict[str, str], expected: str
) -> None:
    assert leader(disposal, symptom, **answers) == expected


@pytest.mark.parametrize(
    ("symptom", "answers", "unlikely"),
    [
        ("dead", {"sound": "silent"}, "jam_hard_object"),
        ("dead", {"feed": "continuous"}, "batch_switch_failed"),
        ("jammed", {"went_in": "hard"}, "motor_failed"),
        ("leak", {"leak_where": "top"}, "body_leak"),
        ("leak", {"leak_where": "bottom"}, "trap_leak"),
        ("leak", {"leak_when": "any_water"}, "dishwasher_hose_leak"),
        ("backflow", {"new_unit": "no"}, "dishwasher_plug_left_in"),
        ("noise", {"noise_kind": "rattle"}, "bearing_worn"),
    ],
)
def test_an_answer_takes_the_other_cause_off_the_list(
    disposal: Appliance, symptom: str, answers: dict[str, str], unlikely: str
) -> None:
    assert shares(disposal, symptom, **answers)[unlikely] < 0.05


def test_a_new_disposal_and_a_dishwasher_that_backs_up_is_the_plug(rulebook: Rulebook, disposal: Appliance) -> None:
    evidence = Evidence(
        symptoms={"backflow": True}, observations={"dishwasher_backs": "yes"}, facts={"after": ("new_disposal",)}
    )
    assert believe(disposal, evidence).share("dishwasher_plug_left_in") > 0.8
    assert check_offered(rulebook, disposal, evidence) == "ask_installer_plug"


def test_a_silent_disposal_is_offered_its_reset_button(rulebook: Rulebook, disposal: Appliance) -> None:
    evidence = Evidence(symptoms={"dead": True}, observations={"sound": "silent", "reset_pressed": "no"})
    assert check_offered(rulebook, disposal, evidence) == "press_reset"


@pytest.mark.parametrize("told", ["leak", "overheat", "jammed", "wont_stop", "trips_breaker"])
def test_the_reset_button_is_left_alone_when_wet_hot_stuck_or_tripping(
    rulebook: Rulebook, disposal: Appliance, told: str
) -> None:
    evidence = Evidence(symptoms={"dead": True, told: True}, observations={"sound": "silent", "reset_pressed": "no"})
    assert check_offered(rulebook, disposal, evidence) != "press_reset"


def test_nothing_an_owner_touches_lies_inside_the_disposal(disposal: Appliance) -> None:
    outside = {"disposal_switch", "disposal_reset_button", "breaker", "tap", "detergent", "nothing"}
    assert {touched for check in disposal.checks.values() for touched in check.touches} <= outside
