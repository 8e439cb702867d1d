"""The next step: what is asked, offered or left, and why it stops."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from service.diagnosis.model import Ask, Evidence, Limits, Stop, Try
from service.diagnosis.questions import next_step
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import CheckOverride, Shop
from tests.diagnosis.drain_machine import appliance, cause, check, keyed, observation, symptom

SLOW = Evidence(symptoms={"slow_drain": True, "no_drain": False})
NOTHING_DRAINS = Evidence(symptoms={"no_drain": True, "slow_drain": False})
FRESH = Limits()
NO_CHECKS = Limits(checks_allowed=False)


def every_step(machine: Appliance, shop: Shop, evidence: Evidence, limits: Limits = FRESH) -> list[str]:
    """Codes asked and tried until it stops, answering nothing and with no check helping."""
    found: list[str] = []
    while not isinstance(step := next_step(machine, evidence, limits, shop), Stop):
        if isinstance(step, Ask):
            found.append(step.code)
            limits = replace(limits, asked=limits.asked | {step.code}, questions_used=limits.questions_used + 1)
        else:
            found.append(step.check)
            evidence = replace(evidence, checks={**evidence.checks, step.check: "not_fixed"})
            limits = replace(limits, checks_used=limits.checks_used + 1)
        assert len(found) < 20
    return [*found, step.why]


def offered(machine: Appliance, shop: Shop, evidence: Evidence, limits: Limits = FRESH) -> set[str]:
    """All checks that would be offered one after the other, each without help, with no question asked."""
    limits = replace(limits, questions_max=0, checks_max=20)
    return {code for code in every_step(machine, shop, evidence, limits) if code in machine.checks}


def test_a_standing_group_is_told_apart_first(machine: Appliance, shop: Shop) -> None:
    step = next_step(machine, Evidence(one_of=(("poor_clean", "wet_load"),)), Limits(), shop)
    assert isinstance(step, Ask)
    assert (step.kind, step.code, step.options) == ("one_of", "poor_clean|wet_load", ("poor_clean", "wet_load"))


def test_a_group_asked_once_is_not_asked_again(machine: Appliance, shop: Shop) -> None:
    group = "poor_clean|wet_load"
    for limits in (Limits(asked=frozenset({group})), Limits(declined=frozenset({group}))):
        step = next_step(machine, Evidence(one_of=(("poor_clean", "wet_load"),)), limits, shop)
        assert getattr(step, "code", None) != group


def test_nothing_is_tried_before_anything_is_said(machine: Appliance, shop: Shop) -> None:
    assert offered(machine, shop, Evidence()) == set()
    assert offered(machine, shop, Evidence(symptoms={"vague": True})) == set()


def test_danger_stops_everything(machine: Appliance, shop: Shop) -> None:
    evidence = replace(SLOW, hazards=frozenset({"burning_smell"}))
    assert next_step(machine, evidence, Limits(), shop) == Stop("danger")


@pytest.mark.parametrize("said", [{"symptoms": {"broken_glass": True}}, {"observations": {"wet_floor": "yes"}}])
def test_a_machine_not_to_be_used_gets_no_owner_check(machine: Appliance, shop: Shop, said: dict[str, Any]) -> None:
    evidence = replace(SLOW, **{name: {**getattr(SLOW, name), **value} for name, value in said.items()})
    assert offered(machine, shop, evidence) == set()
    assert every_step(machine, shop, evidence)[-1] == "stop_use"


def test_known_asked_and_declined_things_are_not_asked(machine: Appliance, shop: Shop) -> None:
    first = next_step(machine, NOTHING_DRAINS, NO_CHECKS, shop)
    assert isinstance(first, Ask)
    known = replace(NOTHING_DRAINS, observations={first.code: "no"})
    for evidence, limits in (
        (known, NO_CHECKS),
        (NOTHING_DRAINS, replace(NO_CHECKS, asked=frozenset({first.code}))),
        (NOTHING_DRAINS, replace(NO_CHECKS, declined=frozenset({first.code}))),
    ):
        assert first.code not in every_step(machine, shop, evidence, limits)


def test_a_question_needs_its_symptom_and_no_contrary_one(machine: Appliance, shop: Shop) -> None:
    assert "sink_backs_up" in every_step(machine, shop, SLOW)
    assert "sink_backs_up" not in every_step(machine, shop, Evidence(symptoms={"noise": True}))
    observation = machine.observations["sink_backs_up"].model_copy(update={"unless": ("leak",)})
    other = machine.model_copy(update={"observations": {**machine.observations, "sink_backs_up": observation}})
    evidence = replace(SLOW, symptoms={**SLOW.symptoms, "leak": True})
    assert "sink_backs_up" not in every_step(other, shop, evidence)


def test_a_question_that_another_answer_makes_idle_is_not_asked(machine: Appliance, shop: Shop) -> None:
    observation = machine.observations["sink_backs_up"].model_copy(update={"unless": ("wet_floor=no",)})
    other = machine.model_copy(update={"observations": {**machine.observations, "sink_backs_up": observation}})
    dry = replace(SLOW, observations={"wet_floor": "no"})
    assert "sink_backs_up" in every_step(machine, shop, dry)
    assert "sink_backs_up" in every_step(other, shop, SLOW)
    assert "sink_backs_up" not in every_step(other, shop, dry)


def test_a_question_a_fact_has_answered_is_not_asked(machine: Appliance, shop: Shop) -> None:
    evidence = Evidence(symptoms={"no_drain": True}, facts={"after": "new_disposal"})
    assert "new_disposal" not in every_step(machine, shop, evidence)


def test_what_only_a_technician_sees_is_not_asked(machine: Appliance, shop: Shop) -> None:
    for evidence in (SLOW, Evidence(symptoms={"no_drain": True})):
        assert not {"drain_type", "old"} & set(every_step(machine, shop, evidence))


def test_it_stops_at_the_cap_and_says_so(machine: Appliance, shop: Shop) -> None:
    used = replace(NO_CHECKS, questions_used=5)
    assert next_step(machine, Evidence(symptoms={"no_drain": True}), used, shop).why == "cap"


def test_it_stops_when_what_would_pay_was_declined(machine: Appliance, shop: Shop) -> None:
    evidence = Evidence(symptoms={"no_drain": True})
    asked = [code for code in every_step(machine, shop, evidence, NO_CHECKS) if code in machine.observations]
    assert asked
    limits = replace(NO_CHECKS, declined=frozenset(machine.observations))
    assert every_step(machine, shop, evidence, limits)[-1] == "declined"


def test_it_stops_when_no_answer_can_change_the_plan(shop: Shop) -> None:
    plain = appliance(
        symptoms=keyed(symptom("no_drain")),
        observations=keyed(observation("hums")),
        causes=keyed(cause("a", 1, {"no_drain": "often", "hums": "often"}), cause("b", 1, {"no_drain": "often"})),
    )
    assert next_step(plain, Evidence(symptoms={"no_drain": True}), Limits(), shop) == Stop(
        "same_plan", (("hums", pytest.approx(-1.0)),)
    )


def test_two_questions_are_asked_that_pay_only_together(shop: Shop) -> None:
    """One yes leaves the check not worth its minutes; two make it so."""
    evidence = Evidence(symptoms={"no_drain": True})
    asks = [observation(code, price=0.05, dont_know=0, otherwise="about half") for code in ("hums", "clicks")]
    x = cause("x", 10, {"no_drain": "often", "hums": "often", "clicks": "often"})
    y = cause("y", 85, {"no_drain": "often"})
    settling = check("look", {"x": "always"}, minutes=13, effort=0)
    two, one = (
        appliance(
            symptoms=keyed(symptom("no_drain")),
            observations=keyed(*asks[:count]),
            causes=keyed(x, y),
            checks=keyed(settling),
            something_else=5,
        )
        for count in (2, 1)
    )
    assert isinstance(next_step(one, evidence, Limits(), shop), Stop)
    step = next_step(two, evidence, Limits(), shop)
    assert isinstance(step, Ask)
    assert max(saved for _, saved in step.considered) <= 0
    both = replace(evidence, observations={"hums": "yes", "clicks": "yes"})
    assert isinstance(next_step(two, both, Limits(), shop), Try)


def test_a_dearer_text_stops_the_questions_sooner(machine: Appliance, shop: Shop) -> None:
    step = next_step(machine, NOTHING_DRAINS, NO_CHECKS, shop)
    later = next_step(machine, NOTHING_DRAINS, replace(NO_CHECKS, questions_used=2), shop)
    assert isinstance(step, Ask)
    assert isinstance(later, Ask)
    assert later.price > step.price
    priceless = {code: o.model_copy(update={"price": 10.0}) for code, o in machine.observations.items()}
    dear = machine.model_copy(update={"observations": priceless})
    assert not {*machine.observations} & {*every_step(dear, shop, NOTHING_DRAINS, NO_CHECKS)}


def test_a_question_few_can_answer_is_worth_less(machine: Appliance, shop: Shop) -> None:
    step = next_step(machine, NOTHING_DRAINS, NO_CHECKS, shop)
    assert isinstance(step, Ask)
    unsure = machine.observations[step.code].model_copy(update={"dont_know": 1.0})
    other = machine.model_copy(update={"observations": {**machine.observations, step.code: unsure}})
    assert step.code not in every_step(other, shop, NOTHING_DRAINS, NO_CHECKS)


def test_the_installers_forgotten_plug_is_looked_for_at_once(machine: Appliance, shop: Shop) -> None:
    evidence = Evidence(symptoms={"no_drain": True, "slow_drain": False}, facts={"after": "new_disposal"})
    step = next_step(machine, evidence, Limits(), shop)
    assert isinstance(step, Try)
    assert step.check == "ask_installer"
    assert step.chance > 0.3
    assert step.minutes == machine.checks["ask_installer"].minutes
    assert dict(step.considered)["ask_installer"] == max(dict(step.considered).values())


def test_a_check_done_declined_or_off_is_not_offered_again(machine: Appliance, shop: Shop) -> None:
    assert "clean_filter" in offered(machine, shop, SLOW)
    for result in ("not_fixed", "declined", "unable", "offered"):
        assert "clean_filter" not in offered(machine, shop, replace(SLOW, checks={"clean_filter": result}))
    assert "clean_filter" not in offered(machine, shop, replace(SLOW, facts={"tried": ("cleaned_filter",)}))
    assert "clean_filter" not in offered(machine, shop, SLOW, Limits(checks_off=frozenset({"clean_filter"})))
    own = {"dishwasher": {"clean_filter": CheckOverride(offered=False, why="we do it on the visit")}}
    assert "clean_filter" not in offered(machine, shop.model_copy(update={"checks": own}), SLOW)


def test_no_check_after_enough_of_them(machine: Appliance, shop: Shop) -> None:
    for limits in (Limits(checks_used=2), Limits(checks_allowed=False), Limits(checks_max=0)):
        assert not isinstance(next_step(machine, SLOW, limits, shop), Try)


def test_a_check_waits_for_its_symptom(machine: Appliance, shop: Shop) -> None:
    assert "ask_installer" not in offered(machine, shop, SLOW)
    assert "ask_installer" in offered(machine, shop, Evidence(symptoms={"no_drain": True}))


def test_a_check_unsafe_for_a_cause_waits_until_that_is_below_a_hundredth(machine: Appliance, shop: Shop) -> None:
    from service.diagnosis.belief import believe

    unsure = Evidence(symptoms={"noise": True}, observations={"sink_backs_up": "yes"})
    assert believe(machine, unsure).share("wiring") >= 0.01
    assert "run_tap" not in offered(machine, shop, unsure)
    assert believe(machine, SLOW).share("wiring") < 0.01
    assert "run_tap" in offered(machine, shop, SLOW)


def test_an_answer_that_forbids_a_check_does_so_at_any_belief(machine: Appliance, shop: Shop) -> None:
    evidence = Evidence(symptoms={"no_drain": True})
    assert "reset" in offered(machine, shop, evidence)
    wet = replace(evidence, observations={"wet_floor": "yes"}, hedged=frozenset({"wet_floor"}))
    assert "reset" not in offered(machine, shop, wet)


@pytest.mark.parametrize("never", ["noise", "after=storm", "sink_backs_up=no"])
def test_symptoms_facts_and_answers_can_forbid_a_check(machine: Appliance, shop: Shop, never: str) -> None:
    filter_check = machine.checks["clean_filter"].model_copy(update={"never_if": (never,)})
    other = machine.model_copy(update={"checks": {**machine.checks, "clean_filter": filter_check}})
    evidence = replace(
        SLOW, one_of=(("noise", "wet_load"),), facts={"after": ("storm",)}, observations={"sink_backs_up": "no"}
    )
    asked = Limits(asked=frozenset({"noise|wet_load"}))
    assert "clean_filter" in offered(machine, shop, evidence, asked)
    assert "clean_filter" not in offered(other, shop, evidence, asked)


def test_a_breaker_is_reset_one_time_only(machine: Appliance, shop: Shop) -> None:
    second = machine.checks["reset"].model_copy(update={"id": "reset_again", "done_if_tried": ()})
    other = machine.model_copy(update={"checks": {**machine.checks, "reset_again": second}})
    evidence = Evidence(symptoms={"no_drain": True})
    assert len({"reset", "reset_again"} & offered(other, shop, evidence)) == 1
    tried = replace(evidence, facts={"tried": ("reset_breaker",)})
    assert not {"reset", "reset_again"} & offered(other, shop, tried)
