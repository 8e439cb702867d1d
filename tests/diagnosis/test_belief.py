"""Belief: what each kind of evidence does to it, and what must never change it."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.diagnosis.belief import believe
from service.diagnosis.model import SOMETHING_ELSE, Belief, Evidence
from service.rulebook.schema.appliance import Appliance
from tests.diagnosis.drain_machine import appliance, cause, keyed, symptom

SYMPTOMS = ["no_drain", "slow_drain", "leak", "noise", "poor_clean", "wet_load", "broken_glass"]
VALUES = [("hums", "yes"), ("hums", "no"), ("sink_backs_up", "yes"), ("sink_backs_up", "no"), ("new_disposal", "yes"),
          ("drain_type", "valve"), ("drain_type", "pump"), ("drain_type", "unknown"), ("wet_floor", "no")]  # fmt: skip

evidences = st.builds(
    Evidence,
    symptoms=st.dictionaries(st.sampled_from(SYMPTOMS), st.booleans()),
    one_of=st.lists(st.lists(st.sampled_from(SYMPTOMS), min_size=2, max_size=3).map(tuple), max_size=2).map(tuple),
    observations=st.lists(st.sampled_from(VALUES)).map(dict),
    hedged=st.frozensets(st.sampled_from([*SYMPTOMS, "hums", "drain_type"])),
    checks=st.dictionaries(
        st.sampled_from(["clean_filter", "reset"]), st.sampled_from(["fixed", "not_fixed", "declined", "unable"])
    ),
    facts=st.fixed_dictionaries({}, optional={"tried": st.just(("cleaned_filter",)), "age_years": st.integers(0, 30)}),
    theories=st.sampled_from([(), ("pump",), ("seal", "filter")]),
)


def shares(belief: Belief) -> dict[str, float]:
    return {item.cause: item.share for item in belief.likely}


def about(machine: Appliance, **evidence: Any) -> dict[str, float]:
    return shares(believe(machine, Evidence(**evidence)))


@given(evidence=evidences)
def test_shares_sum_to_one_are_sorted_and_never_certain(machine: Appliance, evidence: Evidence) -> None:
    likely = believe(machine, evidence).likely
    assert sum(item.share for item in likely) == pytest.approx(1, abs=1e-12)
    assert all(0 < item.share < 1 for item in likely)
    told = [round(item.share, 12) for item in likely]  # what differs less is a tie, in file order
    assert told == sorted(told, reverse=True)
    assert {item.cause for item in likely} == {*machine.causes, SOMETHING_ELSE}


@given(evidence=evidences, seed=st.integers())
def test_the_order_in_which_things_were_said_does_not_matter(machine: Appliance, evidence: Evidence, seed: int) -> None:
    def shuffled(said: Any) -> Any:
        items = list(said.items())
        random.Random(seed).shuffle(items)
        return dict(items)

    other = replace(
        evidence,
        symptoms=shuffled(evidence.symptoms),
        observations=shuffled(evidence.observations),
        checks=shuffled(evidence.checks),
        one_of=evidence.one_of[::-1],
    )
    assert believe(machine, other) == believe(machine, evidence)


@given(evidence=evidences)
def test_not_knowing_and_codes_the_rules_do_not_know_change_nothing(machine: Appliance, evidence: Evidence) -> None:
    unknown = {"hums": "dont_know"} if "hums" not in evidence.observations else {}
    other = replace(
        evidence,
        observations={**evidence.observations, **unknown, "gone_from_the_rules": "yes"},
        symptoms={**evidence.symptoms, "not_cooling": True},
        theories=(*evidence.theories, "retired_cause"),
    )
    assert believe(machine, other) == believe(machine, evidence)


@given(evidence=evidences)
def test_an_answer_equally_likely_under_every_cause_changes_nothing(machine: Appliance, evidence: Evidence) -> None:
    said = {code: value for code, value in evidence.observations.items() if code != "wet_floor"}
    without = about(machine, **{**_fields(evidence), "observations": said})
    with_it = about(machine, **{**_fields(evidence), "observations": {**said, "wet_floor": "yes"}})
    assert with_it == pytest.approx(without, abs=1e-9)


def _fields(evidence: Evidence) -> dict[str, Any]:
    return {name: getattr(evidence, name) for name in Evidence.__dataclass_fields__}


def test_a_doubtful_yes_moves_less_than_a_plain_one(machine: Appliance) -> None:
    before = about(machine)["line"]
    doubtful = about(machine, observations={"sink_backs_up": "yes"}, hedged=frozenset({"sink_backs_up"}))["line"]
    plain = about(machine, observations={"sink_backs_up": "yes"})["line"]
    assert before < doubtful < plain


def test_a_doubtful_choice_spreads_over_the_other_answers(machine: Appliance) -> None:
    plain = about(machine, observations={"drain_type": "valve"})
    doubtful = about(machine, observations={"drain_type": "valve"}, hedged=frozenset({"drain_type"}))
    assert about(machine)["seal"] < doubtful["seal"] < plain["seal"]


def test_a_denied_symptom_speaks_against_its_causes(machine: Appliance) -> None:
    assert about(machine, symptoms={"no_drain": False})["knockout"] < about(machine)["knockout"]


def test_one_of_two_symptoms_counts_less_than_either_alone(machine: Appliance) -> None:
    grouped = about(machine, one_of=(("slow_drain", "noise"),))["filter"]
    assert about(machine)["filter"] < grouped < about(machine, symptoms={"slow_drain": True})["filter"]


def test_a_group_counts_no_more_once_one_of_it_is_known(machine: Appliance) -> None:
    told = about(machine, symptoms={"slow_drain": True}, one_of=(("slow_drain", "no_drain"),))
    assert told == about(machine, symptoms={"slow_drain": True})


def test_a_group_with_one_left_is_that_symptom(machine: Appliance) -> None:
    group = (("slow_drain", "no_drain"),)
    left = about(machine, symptoms={"no_drain": False}, one_of=group)
    assert left == pytest.approx(about(machine, symptoms={"no_drain": False, "slow_drain": True}))


def test_what_happened_before_answers_an_observation(machine: Appliance) -> None:
    by_fact = about(machine, facts={"after": ("moved", "new_disposal")})
    assert by_fact == about(machine, observations={"new_disposal": "yes"})
    assert by_fact["knockout"] > 3 * about(machine)["knockout"]


def test_an_answer_given_goes_before_a_fact(machine: Appliance) -> None:
    said = about(machine, observations={"new_disposal": "no"}, facts={"after": "new_disposal"})
    assert said == about(machine, observations={"new_disposal": "no"})


@pytest.mark.parametrize("age", [12, "12", 12.0])
def test_an_age_counts_however_it_is_written(machine: Appliance, age: object) -> None:
    assert believe(machine, Evidence(facts={"age_years": age})) == believe(
        machine, Evidence(observations={"old": "yes"})
    )


def test_a_check_that_did_not_help_weakens_what_it_would_have_settled(machine: Appliance) -> None:
    asked = about(machine, checks={"clean_filter": "not_fixed"})
    prior = about(machine)
    left = prior["filter"] * (1 - 0.83)
    assert asked["filter"] == pytest.approx(left / (1 - prior["filter"] * 0.83))
    assert about(machine, facts={"tried": ("cleaned_filter",)}) == pytest.approx(asked)


def test_what_was_tried_before_and_again_with_us_counts_once(machine: Appliance) -> None:
    both = about(machine, facts={"tried": "cleaned_filter"}, checks={"clean_filter": "not_fixed"})
    assert both == about(machine, checks={"clean_filter": "not_fixed"})


@pytest.mark.parametrize("result", ["declined", "unable", "offered"])
def test_a_check_not_done_says_nothing(machine: Appliance, result: str) -> None:
    assert about(machine, checks={"clean_filter": result}) == about(machine)


def test_a_check_that_settled_it_points_at_its_cause(machine: Appliance) -> None:
    assert about(machine, checks={"clean_filter": "fixed"})["filter"] > 0.95


def test_a_theory_lifts_its_cause_a_little(machine: Appliance) -> None:
    before, after = about(machine)["pump"], about(machine, theories=("pump",))["pump"]
    assert after / (1 - after) == pytest.approx(1.5 * before / (1 - before))


def test_reasons_are_named_most_telling_first(machine: Appliance) -> None:
    evidence = Evidence(symptoms={"no_drain": True}, observations={"new_disposal": "yes", "sink_backs_up": "no"})
    likely = {item.cause: item for item in believe(machine, evidence).likely}
    assert likely["knockout"].because[0] == "new_disposal"
    assert "no_drain" in likely["knockout"].because
    assert "new_disposal" in likely["pump"].against
    assert likely["line"].against[0] == "sink_backs_up"


def test_a_more_exact_symptom_replaces_the_general_one() -> None:
    two = appliance(
        symptoms=keyed(symptom("no_drain"), symptom("slow_drain", over=["no_drain"])),
        causes=keyed(cause("a", 1, {"slow_drain": "often"}), cause("b", 1, {"no_drain": "often"})),
    )
    assert about(two, symptoms={"slow_drain": True, "no_drain": True}) == about(two, symptoms={"slow_drain": True})


def test_what_is_not_listed_keeps_a_twentieth() -> None:
    sure = appliance(
        symptoms=keyed(symptom("no_drain")),
        causes=keyed(cause("a", 1000, {"no_drain": "always"})),
        something_else=0.001,
    )
    assert about(sure)[SOMETHING_ELSE] == pytest.approx(0.05)


def test_evidence_that_grew_since_it_was_weighed_is_weighed_again(machine: Appliance) -> None:
    observations: dict[str, str] = {}
    evidence = Evidence(symptoms={"slow_drain": True}, observations=observations)
    before = believe(machine, evidence)
    assert believe(machine, Evidence(symptoms={"slow_drain": True})) == before
    observations["sink_backs_up"] = "yes"
    assert believe(machine, evidence) != before
    assert believe(machine, Evidence(symptoms={"slow_drain": True})) == before
