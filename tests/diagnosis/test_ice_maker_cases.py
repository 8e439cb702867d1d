"""What technicians expect of the ice maker's rules, both ways. Common practice, no source."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits, Stop, Try
from service.diagnosis.questions import next_step
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import RULES


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def likeliest(rulebook: Rulebook, **evidence: object) -> list[str]:
    belief = believe(rulebook.appliances["ice_maker"], Evidence(**evidence))
    return [item.cause for item in belief.likely[:3]]


def next_of(rulebook: Rulebook, **evidence: object) -> object:
    limits = Limits(
        questions_used=0, questions_max=5, checks_used=0, checks_max=2, asked=frozenset(), declined=frozenset(),
        checks_off=frozenset(), checks_allowed=True,
    )  # fmt: skip
    return next_step(rulebook.appliances["ice_maker"], Evidence(**evidence), limits, rulebook.shop)


def test_no_ice_with_a_full_bin_is_the_sensor_covered_and_running_on_with_a_full_bin_is_the_sensor_dead(
    rulebook: Rulebook,
) -> None:
    full = {"bin_full": "yes"}
    assert likeliest(rulebook, symptoms={"no_ice": True}, observations=full)[0] == "bin_sensor_blocked"
    step = next_of(rulebook, symptoms={"no_ice": True}, observations=full)
    assert isinstance(step, Try)
    assert step.check == "free_sensor"
    assert likeliest(rulebook, symptoms={"runs_nonstop": True}, observations=full)[0] == "bin_sensor_failed"


def test_no_water_is_the_shut_valve_where_it_is_plumbed_and_the_tank_where_it_is_filled_by_hand(
    rulebook: Rulebook,
) -> None:
    plumbed = likeliest(rulebook, symptoms={"no_fill": True}, observations={"kind": "plumbed", "water_in": "none"})
    assert plumbed[:2] == ["water_shut", "inlet_valve_failed"]
    tank = likeliest(rulebook, symptoms={"no_fill": True}, observations={"kind": "tank"})
    assert tank[0] == "tank_low_or_airlock"
    assert "water_shut" not in tank


@pytest.mark.parametrize(
    ("look", "cause"),
    [
        ("slabs", "cutter_grid_failed"),
        ("dirty", "scaled_or_slimed"),
        ("thin", "filter_clogged"),
        ("wet", "bin_melts"),
    ],
)
def test_the_look_of_the_ice_names_its_cause(rulebook: Rulebook, look: str, cause: str) -> None:
    assert likeliest(rulebook, symptoms={"bad_ice": True}, observations={"ice_look": look})[0] == cause


def test_less_ice_in_a_hot_spot_is_the_air_and_in_a_cool_one_the_coil_before_the_charge(rulebook: Rulebook) -> None:
    hot = likeliest(rulebook, symptoms={"no_ice": True}, observations={"how_much": "less", "hot_spot": "yes"})
    assert hot[0] == "no_air_or_hot_room"
    seen = {"how_much": "less", "hot_spot": "no", "water_in": "full", "last_clean": "yes", "bin_full": "no"}
    cool = likeliest(rulebook, symptoms={"no_ice": True}, observations=seen)
    assert cool[:2] == ["condenser_dirty", "sealed_system_low"]


def test_water_from_the_line_is_the_line_and_a_second_trip_ends_every_check(rulebook: Rulebook) -> None:
    assert likeliest(rulebook, symptoms={"leak": True}, observations={"water_where": "line"})[0] == "supply_leak"
    assert likeliest(rulebook, symptoms={"leak": True}, observations={"water_where": "bottom"})[0] == "trough_cracked"
    again = next_of(rulebook, symptoms={"trips_breaker": True}, observations={"trips_again": "yes"})
    assert isinstance(again, Stop)
    assert again.why == "stop_use"
    assert not isinstance(next_of(rulebook, symptoms={"no_ice": True}), Stop)
