"""Hours told that the window does not keep lead to other windows, never to a plain thanks; "after 4" is 4 or later."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def offered() -> Line:
    line = Line()
    line.text("dishwasher wont drain, sink is fine, cleaned filter, 87110, 412 Alder Ct NE, just send someone")
    line.text("no")
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"
    return line


def booked(*then: str) -> Line:
    line = offered()
    line.text("2")
    for text in then:
        line.text(text)
    assert line.ticket.visit is not None
    return line


LATER = [
    "i cant do before 11 actually", "thanks, i cant do before 11 actually", "actually im only home after 4",
    "not home until 5 that day", "sorry i get off work after 3", "no puedo antes de las 11", "llego despues de las 4",
    "ese dia salgo despues de las 5",
]  # fmt: skip


@pytest.mark.parametrize("text", LATER)
@pytest.mark.parametrize("then", [(), ("Curtis Bell",), ("Curtis Bell", "no gate")])
def test_a_limit_the_booked_window_does_not_keep_brings_other_windows(text: str, then: tuple[str, ...]) -> None:
    line = booked(*then)
    line.text(text)
    assert "See you" not in line.said
    assert "could not make that out" not in line.said
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"
    assert "10 am to 12 pm" not in line.said or "Nothing is free" in line.said
    assert not any("11 actually" in note for note in line.state.contact.access)


@pytest.mark.parametrize(
    "text", ["gate locked after 5, code 1234", "dog is out back until 6", "im home until 3", "I'm home all day"]
)
def test_what_the_window_keeps_or_is_no_such_limit_moves_nothing(text: str) -> None:
    line = booked("Curtis Bell")
    line.text(text)
    assert line.state.asked is None or line.state.asked.kind != "offer"


@pytest.mark.parametrize(
    "text", ["i cant do before 11 actually", "tomorrow after 4", "only home after 4", "no puedo antes de las 11"]
)
def test_an_offer_is_not_taken_by_a_limit_it_does_not_keep(text: str) -> None:
    line = offered()
    line.text(text)
    assert line.visits == {}
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"
