"""A name told plainly is taken, whatever was asked, and not asked for again; who is thanked is not the customer."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line

FIRST = "dishwasher wont drain, sink is fine, cleaned filter, just send someone"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("this is Curtis Bell", "Curtis Bell"),
        ("Hi, this is Curtis Bell.", "Curtis Bell"),
        ("its under Marcus Oyelaran", "Marcus Oyelaran"),
        ("Marcus Oyelaran here, 412 Alder Ct NE", "Marcus Oyelaran"),
        ("Hector Salas, 412 Alder Ct NE 87106", "Hector Salas"),
        ("Hector Salas 412 Alder Ct NE 87106", "Hector Salas"),
        ("soy Hector Salas", "Hector Salas"),
        ("me llamo Rosa Luna, 412 Alder Ct NE", "Rosa Luna"),
        ("My name's Dana Whitfield", "Dana Whitfield"),
    ],
)
@pytest.mark.parametrize("before", [(), ("no",), ("no", "87110")])
def test_a_name_told_plainly_is_taken_whatever_was_asked(text: str, name: str, before: tuple[str, ...]) -> None:
    line = Line()
    for words in (FIRST, *before, text):
        line.text(words)
    assert line.state.contact.name == name
    line.talk({"postal_code": "87110", "address": "412 Alder Ct NE"}, until="offer")
    line.text("1")
    assert line.state.asked is None or line.state.asked.kind != "name"


@pytest.mark.parametrize("text", ["thank you Maria", "ok thanks Maria!", "gracias Maria", "Thanks so much Maria"])
def test_who_is_thanked_is_not_the_customer(text: str) -> None:
    line = Line()
    line.text(FIRST)
    line.text(text)
    assert line.state.contact.name is None


@pytest.mark.parametrize("text", ["its a Maple Ridge machine", "412 Alder Ct NE, Orra Flats", "It's Monday Morning"])
def test_other_capitals_are_no_name(text: str) -> None:
    line = Line()
    line.text(FIRST)
    line.text(text)
    assert line.state.contact.name is None
