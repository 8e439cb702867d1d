"""Water that comes from the floor above: the first reply says how to shut it, before any question."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize(
    "text",
    [
        "water is coming through the ceiling under the washer",
        "urgent leak upstairs dishwasher",
        "my dishwasher upstairs is leaking right now and its dripping into the garage",
        "the downstairs neighbor says water is dripping through their ceiling, its my washer, still running",
        "washer on the second floor leaking, ceiling below is wet",
        "fridge line upstairs is leaking down to the kitchen",
        "se esta pasando el agua al piso de abajo por la lavadora",
        "gotea agua del techo, la lavadora de arriba",
        "urgente, fuga en el segundo piso, el lavaplatos",
        "sale agua de la lavadora y ya le llego a la vecina de abajo",
    ],
)
def test_how_to_shut_the_water_comes_before_any_question(text: str) -> None:
    line = Line()
    line.text(text)
    said = line.said
    at = max(said.find("shut the water"), said.find("cierre"))
    assert at >= 0
    assert "main" in said or "llave principal" in said
    assert said.find("?") == -1 or at < said.find("?")


def test_it_is_said_once() -> None:
    line = Line()
    line.text("urgent leak upstairs dishwasher")
    line.text("from under it, its still leaking upstairs")
    assert "shut the water" not in line.said


@pytest.mark.parametrize(
    "text",
    [
        "washer upstairs leaked last month, now it wont spin",
        "dryer upstairs wont heat",
        "no leak, the upstairs dishwasher just wont drain",
    ],
)
def test_what_was_once_or_is_no_water_gets_no_such_word(text: str) -> None:
    line = Line()
    line.text(text)
    assert "shut the water" not in line.said
