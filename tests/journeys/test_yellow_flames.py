"""A flame of the wrong colour, told beside or after another complaint: its own warning goes out, and nothing else is lost."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line

WARNINGS = ("WARNING: ", "ADVERTENCIA: ")


@pytest.mark.parametrize(
    "first", ["my washer wont drain", "my fridge is warm", "mi lavadora no desagua", "mi refri no enfria"]
)
@pytest.mark.parametrize(
    ("second", "machine"),
    [
        ("la flama de la estufa sale amarilla", "range"),
        ("ah y las flamas de mi estufa salen anaranjadas", "range"),
        ("la flama del horno sale amarilla", "range"),
        ("la flama de la parrilla se ve naranja", "cooktop"),
        ("las hornillas de la estufa queman amarillo", "range"),
        ("la flama de la estufa ya no sale azul, sale naranja", "range"),
        ("y la flama sale naranja", "range"),
        ("also the flame is orange", "range"),
        ("stove flame looks kind of yellow too", "range"),
        ("the burners on the stove burn orange", "range"),
        ("flames are yellow on one burner of the cooktop", "cooktop"),
        ("la flama de la secadora es amarilla", "dryer"),
    ],
)
def test_a_flame_of_the_wrong_colour_told_second_gets_its_warning(first: str, second: str, machine: str) -> None:
    line = Line()
    line.text(first)
    said = " ".join(line.text(second))
    assert any(warning in said for warning in WARNINGS)
    assert [(t.appliance, t.unsafe) for t in line.state.tickets][1:] == [(machine, True)]
    assert not line.state.tickets[0].unsafe


def test_it_gets_its_warning_while_windows_stand_open() -> None:
    line = Line()
    for text in ("lavadora no exprime, manden a alguien. 418 Cholla Wren Ln NE 87110", "1"):
        line.text(text)
    assert "ADVERTENCIA: Estufa" in " ".join(line.text("la flama de la estufa ya no sale azul, sale naranja"))


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("Washer leaks and my gas stove burner flame is orange", {"leak", "weak_flame"}),
        ("my dishwasher leaks. oh and the oven flame is yellow", {"leak", "weak_flame"}),
        ("mi lavadora no desagua y la flama de la estufa sale amarilla", {"no_drain", "weak_flame"}),
        ("la flama de la estufa sale naranja y la lavadora gotea", {"leak", "weak_flame"}),
        ("la flama sale naranja y la lavadora gotea", {"leak", "weak_flame"}),
    ],
)
def test_both_complaints_of_one_text_stand_and_the_flame_is_warned_of(text: str, codes: set[str]) -> None:
    line = Line()
    said = " ".join(line.text(text))
    assert any(warning in said for warning in WARNINGS)
    assert {code for t in line.state.tickets for code, told in t.symptoms.items() if told} == codes


@pytest.mark.parametrize("text", ["la flama sale amarilla", "the flame is orange", "la lumbre se ve toda amarilla"])
def test_a_flame_of_no_machine_is_warned_of_before_the_machine_is_asked_for(text: str) -> None:
    line = Line()
    said = " ".join(line.text(text))
    assert any(warning in said for warning in WARNINGS)
    again = " ".join(line.text("la estufa"))
    assert not any(warning in again for warning in WARNINGS)
    assert (line.ticket.appliance, line.ticket.unsafe) == ("range", True)
    assert line.ticket.observations == {"flame_look": "yellow"}


@pytest.mark.parametrize(
    "text", ["la flama no se ve amarilla", "the stove flame isnt yellow anymore its blue", "the knob light is orange"]
)
def test_a_flame_as_it_should_be_is_warned_of_nowhere(text: str) -> None:
    line = Line()
    line.text("my washer wont drain")
    assert not any(warning in " ".join(line.text(text)) for warning in WARNINGS)
