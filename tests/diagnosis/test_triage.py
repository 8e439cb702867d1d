"""Triage: the level and its reasons."""

from __future__ import annotations

import pytest

from service.diagnosis.model import Evidence
from service.diagnosis.triage import triage
from service.rulebook.schema.appliance import Appliance


def test_danger_is_now_and_says_which(machine: Appliance) -> None:
    found = triage(machine, Evidence(symptoms={"leak": True}, hazards=frozenset({"gas_smell"})), ["food_at_risk"])
    assert found.level == "now"
    assert found.reasons[0] == "danger named: gas smell"
    assert found.reasons[1:] == ("urgent: food at risk", "reported: leak")


@pytest.mark.parametrize("code", ["food_at_risk", "medicine_at_risk", "vulnerable_person", "active_leak"])
def test_urgency_is_today_even_without_a_machine(code: str) -> None:
    assert triage(None, Evidence(), [code]).level == "today"


def test_a_machine_not_to_be_used_is_today(machine: Appliance) -> None:
    assert triage(machine, Evidence(symptoms={"broken_glass": True}), ()).level == "today"
    wet = triage(machine, Evidence(observations={"wet_floor": "yes"}), ())
    assert wet.reasons == ("not to be used: wet_floor (yes)",)


def test_a_symptoms_own_level_counts_only_when_it_is_there(machine: Appliance) -> None:
    assert triage(machine, Evidence(symptoms={"leak": True}), ()).level == "soon"
    assert triage(machine, Evidence(symptoms={"leak": False}), ()).level == "routine"


def test_a_likely_pressing_cause_raises_the_level(machine: Appliance) -> None:
    wiring = machine.causes["wiring"].model_copy(update={"weight": 90.0})
    likely = machine.model_copy(update={"causes": {**machine.causes, "wiring": wiring}})
    found = triage(likely, Evidence(), ())
    assert found.level == "today"
    assert found.reasons[0].startswith("likely: wiring")
    assert triage(machine, Evidence(), ()).level == "routine"


def test_a_cause_unsafe_to_run_is_seen_soon(machine: Appliance) -> None:
    wiring = machine.causes["wiring"].model_copy(update={"weight": 90.0, "level": None, "stop_use": True})
    likely = machine.model_copy(update={"causes": {**machine.causes, "wiring": wiring}})
    assert triage(likely, Evidence(), ()).level == "soon"


def test_nothing_pressing_is_routine_without_reasons(machine: Appliance) -> None:
    assert triage(machine, Evidence(symptoms={"slow_drain": True}), ()) == triage(None, Evidence(), ())
