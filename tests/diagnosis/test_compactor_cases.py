"""What technicians expect of the trash compactor's rules, both ways. Common practice, no source."""

from __future__ import annotations

import pytest

from service.diagnosis.belief import believe
from service.diagnosis.model import Ask, Evidence, Limits, Try
from service.diagnosis.questions import next_step
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from tests.conftest import RULES


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


def likeliest(rulebook: Rulebook, **evidence: object) -> list[str]:
    belief = believe(rulebook.appliances["trash_compactor"], Evidence(**evidence))
    return [item.cause for item in belief.likely[:3]]


def test_a_machine_that_will_not_start_is_the_drawer_the_key_or_its_switch_before_the_motor(rulebook: Rulebook) -> None:
    found = likeliest(rulebook, symptoms={"no_start": True})
    assert set(found) == {"drawer_not_home", "drawer_switch_failed", "key_or_lock_off"}
    shut = {"drawer_home": "yes", "key_on": "yes", "start_sound": "nothing"}
    assert likeliest(rulebook, symptoms={"no_start": True}, observations=shut)[0] == "drawer_switch_failed"


def test_a_hum_with_the_plate_down_is_a_wedge_and_a_run_with_the_plate_up_is_the_drive(rulebook: Rulebook) -> None:
    hum = likeliest(rulebook, symptoms={"jammed": True}, observations={"start_sound": "hums", "ram_where": "down"})
    run = likeliest(rulebook, symptoms={"jammed": True}, observations={"start_sound": "runs", "load_level": "some"})
    assert hum[0] == "bottle_wedged"
    assert run[0] == "drive_broken"


def test_a_smell_or_a_drip_is_the_bag_and_the_filter_and_nobody_is_asked_whether_it_is_dead(rulebook: Rulebook) -> None:
    assert likeliest(rulebook, symptoms={"odor": True})[0] == "filter_or_bag_due"
    assert likeliest(rulebook, symptoms={"leak": True})[0] == "bag_torn"
    limits = Limits(
        questions_used=0, questions_max=5, checks_used=0, checks_max=2, asked=frozenset(), declined=frozenset(),
        checks_off=frozenset(), checks_allowed=True,
    )  # fmt: skip
    step = next_step(rulebook.appliances["trash_compactor"], Evidence(symptoms={"odor": True}), limits, rulebook.shop)
    assert not (isinstance(step, Ask) and step.code in ("dead", "no_start"))
    assert isinstance(step, Ask | Try)


def test_a_second_trip_points_to_cord_or_motor(rulebook: Rulebook) -> None:
    found = likeliest(rulebook, symptoms={"trips_breaker": True}, observations={"trips_again": "yes"})
    assert set(found[:2]) == {"cord_damaged", "motor_failed"}


def test_a_squeal_is_dry_screws_and_a_bang_is_stripped_nuts_or_the_drive(rulebook: Rulebook) -> None:
    assert likeliest(rulebook, symptoms={"noise": True}, observations={"noise_kind": "squeal"})[0] == "screws_dry"
    banging = likeliest(rulebook, symptoms={"noise": True}, observations={"noise_kind": "grind"})
    assert set(banging[:2]) == {"nuts_stripped", "drive_broken"}
