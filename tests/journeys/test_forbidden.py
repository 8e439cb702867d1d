"""“Can I …” of what no owner may do gets no and why, then the open question; what only sounds like it does not."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line

CLICKS = "stove top front right burner wont light just clicks, its gas"
ICE = "fridge freezer is full of ice"
JAM = "garbage disposal is jammed just hums"


@pytest.mark.parametrize(
    ("first", "asked", "no"),
    [
        (CLICKS, "can i just light it with a match", "flash"),
        (CLICKS, "is it ok to use a lighter", "flash"),
        (CLICKS, "what if i hold a match to it", "flash"),
        ("la estufa de gas no prende nomas hace clic", "la puedo prender con un cerillo", "de golpe"),
        ("la estufa de gas no prende nomas hace clic", "y si le acerco... con encendedor?", "de golpe"),
        (ICE, "can i chip the ice off with a screwdriver", "sharp"),
        (ICE, "should i use a knife to get the ice out", "sharp"),
        ("mi congelador tiene mucho hielo", "le puedo quitar el hielo con un cuchillo?", "filoso"),
        (JAM, "can i reach in and grab it", "hands"),
        (JAM, "ok to put my hand in there if its off", "hands"),
        ("el triturador esta atorado, zumba nomas", "la saco yo con la mano?", "mano"),
    ],
)
def test_it_is_no_and_why_and_the_open_question_stays(first: str, asked: str, no: str) -> None:
    line = Line()
    line.text(first)
    before = line.state.asked
    line.text(asked)
    assert ": No. " in line.said
    assert no in line.said
    assert before is not None
    assert line.state.asked is not None
    assert (line.state.asked.kind, line.state.asked.code) == (before.kind, before.code)


def test_it_is_answered_in_a_first_text_too() -> None:
    line = Line()
    line.text("gas stove burner just clicks wont light, can i just light it with a match?")
    assert "WARNING: No. " in line.said
    assert line.ticket.appliance in ("range", "cooktop")


@pytest.mark.parametrize(
    ("first", "text"),
    [
        (CLICKS, "can i get somebody out today"),
        (CLICKS, "my son lit it with a match once, that was last year"),
        (ICE, "the door handle needs a screwdriver"),
        (JAM, "can i get someone today? i am busy all week and i do the dishes at work by hand"),
        ("dishwasher wont drain", "can i scoop the water out by hand"),
        ("la lavadora no exprime", "la puedo exprimir a mano?"),
    ],
)
def test_what_is_something_else_gets_no_such_no(first: str, text: str) -> None:
    line = Line()
    line.text(first)
    line.text(text)
    assert ": No. " not in line.said
