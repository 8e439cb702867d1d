"""What technicians expect of the drinks cooler's rules, both ways. Common practice, no source."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence
from service.rulebook.loading import load_rulebook
from service.rulebook.schema.appliance import Appliance
from tests.conftest import RULES

BOXED_IN = {"stands_how": "cabinet", "door_gap": "no", "dusty": "no"}


@pytest.fixture(scope="module")
def cooler() -> Appliance:
    return load_rulebook(RULES, "demo").appliances["beverage_cooler"]


def shares(cooler: Appliance, *symptoms: str, **observations: str) -> dict[str, float]:
    belief = believe(cooler, Evidence(symptoms=dict.fromkeys(symptoms, True), observations=observations))
    return {item.cause: item.share for item in belief.likely}


@pytest.mark.parametrize(
    ("symptoms", "seen", "first", "ruled_out"),
    [
        (("not_cooling",), {"motor_sound": "click"}, "start_device_failed", "module_weak"),
        (("not_cooling",), {"motor_sound": "hum", "how_cold": "room"}, "module_weak", "start_device_failed"),
        (("temp_off",), {"door_gap": "yes"}, "door_ajar", "module_weak"),
        (("temp_off",), {"stands_how": "hot", "door_gap": "no"}, "room_too_warm", "no_air_built_in"),
        (("temp_off", "runs_nonstop"), BOXED_IN, "no_air_built_in", "room_too_warm"),
        (("frost", "leak"), {"door_gap": "yes"}, "door_ajar", "lamp_out"),
        (("too_cold",), {}, "set_wrong", "outer_fan_failed"),
        (("dead",), {"has_power": "no"}, "breaker_off", "control_board_failed"),
        (("noise",), {"how_cold": "as_set", "motor_sound": "hum"}, "normal_sounds", "start_device_failed"),
        (("light_out",), {"motor_sound": "hum"}, "lamp_out", "breaker_off"),
    ],
)  # fmt: skip
def test_the_cause_that_must_lead_leads_and_the_one_the_answers_speak_against_does_not(
    cooler: Appliance, symptoms: tuple[str, ...], seen: dict[str, str], first: str, ruled_out: str
) -> None:
    found = shares(cooler, *symptoms, **seen)
    assert max(found, key=lambda cause: found[cause]) == first
    assert found[ruled_out] < 0.1


def test_every_cause_is_shown_by_a_test_and_every_part_is_used_by_a_cause(cooler: Appliance) -> None:
    shown = {cause for test in cooler.tests.values() for cause in test.finds}
    assert set(cooler.causes) - shown <= {"breaker_off", "glass_or_rack_broken", "smell_inside"}
    assert {part for cause in cooler.causes.values() for part in cause.parts} == set(cooler.parts)
