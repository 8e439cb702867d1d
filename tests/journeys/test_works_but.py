"""“It works now, but …”: what is told behind the “but” is taken up, and nothing is closed."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def at_the_cap() -> Line:
    line = Line()
    line.text("stove top front right burner wont light just clicks, its gas")
    line.talk({"postal_code": "87110", "spilled": "no", "other_gas": "yes"}, until="check_result")
    assert line.state.asked is not None
    assert line.state.asked.code == "seat_cap"
    return line


@pytest.mark.parametrize(
    "text",
    [
        "the cap was crooked. put it back, it lights now but flame is kinda orange",
        "yes but the flame is orange now",
        "yes it lights but its orange",
        "it lights now. flame is yellow though",
        "that worked but the flame looks a little yellowish",
        "ya prende pero la flama sale amarilla",
        "si, ya prende pero anaranjado",
    ],
)
def test_a_yellow_flame_gets_its_caution_and_no_word_to_light_it_again(text: str) -> None:
    line = at_the_cap()
    line.text(text)
    assert line.ticket.open
    assert line.said.startswith(("WARNING: Turn it off and leave it off.", "ADVERTENCIA: Apague y deje apagado."))
    assert "carbon monoxide" in line.said or "gas venenoso" in line.said
    assert "Turn the knob" not in line.said
    assert "Gire" not in line.said
    assert line.ticket.observations.get("flame_look") == "yellow"


@pytest.mark.parametrize(
    "text",
    ["it works now but leaks a little", "works now but it clicks all the time", "ya funciona pero hace un ruido feo"],
)
def test_another_fault_behind_the_but_keeps_it_open(text: str) -> None:
    line = at_the_cap()
    line.text(text)
    assert line.ticket.open


@pytest.mark.parametrize(
    "text",
    [
        "it works now",
        "it works now but what was it",
        "ya funciona, gracias",
        "yes",
    ],
)
def test_no_fault_behind_it_closes_as_ever(text: str) -> None:
    line = at_the_cap()
    line.text(text)
    assert line.state.tickets[0].closed == "settled_by_owner"
