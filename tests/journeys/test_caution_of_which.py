"""Where complaints of several machines stand, a caution names its machine."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize(
    ("texts", "caution"),
    [
        (["my washer leaks from under it", "also the stove flame is yellow"], "WARNING: Range: Turn it off"),
        (["la lavadora tira agua", "la estufa de gas saca flama amarilla"], "ADVERTENCIA: Estufa: Apague"),
    ],
)
def test_a_warning_names_its_machine(texts: list[str], caution: str) -> None:
    line = Line()
    for text in texts:
        line.text(text)
    assert line.said.startswith(caution)


def test_one_machine_needs_no_name() -> None:
    line = Line()
    line.text("the stove flame is yellow")
    assert "WARNING: Turn it off" in line.said


def test_a_check_and_its_caution_name_their_machine() -> None:
    line = Line()
    line.text("washer wont fill and the dryer squeals")
    line.talk({"postal_code": "87110"}, until="check_result")
    machine = {"washer": "Washer", "dryer": "Dryer"}[line.ticket.appliance]
    said = " ".join(reply.text for reply in line.steps[-1].replies)
    assert f"quick look. {machine}: " in said


def test_what_helps_the_food_is_said_once() -> None:
    line = Line()
    line.text("my fridge milk is warm and the dryer squeals")
    assert " ".join(r.text for r in line.replies).count("Keep the doors shut") == 1


@pytest.mark.parametrize(
    ("text", "machine"),
    [
        ("washer leaks a little and i see smoke coming from the dryer", "dryer"),
        ("la lavadora tira agua y la secadora huele a quemado", "dryer"),
    ],
)
def test_a_danger_stands_on_its_own_machines_ticket(text: str, machine: str) -> None:
    line = Line()
    line.text(text)
    stands = {ticket.appliance: bool(ticket.hazards) for ticket in line.state.tickets}
    assert stands == {machine: True, "washer": False}
