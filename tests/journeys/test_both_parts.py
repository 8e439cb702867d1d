"""Texts that answer and tell more: a window and a name, a time beside a question, a kind with a price asked."""

from __future__ import annotations

from datetime import time

import pytest

from tests.journeys.line import Line
from tests.journeys.test_times import offered


@pytest.mark.parametrize(
    ("text", "name"), [("ok 10 to noon. Priya N.", "Priya N"), ("fine the tues one. its under Deshawn", "Deshawn")]
)
def test_a_window_and_a_name(text: str, name: str) -> None:
    line = offered("dishwasher wont drain")
    line.text(text)
    assert line.ticket.visit is not None
    assert line.state.contact.name == name
    assert line.state.asked is not None
    assert line.state.asked.kind == "access"


def test_after_work() -> None:
    line = offered()
    line.text("gotta be at work til 3. anything after 3?")
    assert "Nothing is free" not in line.replies[-1].text
    assert "3 to 5 pm" in line.ticket.offers[0].say


@pytest.mark.parametrize("text", ["wednesday around 4 would be best, if someone has to come", "wed at 4 like i said"])
def test_a_time_told_too_soon_is_kept_for_the_offer(text: str) -> None:
    line = Line()
    line.text("my fridge is warm 87106")
    line.text(text)
    assert "could not make that out" not in line.replies[-1].text
    assert line.ticket.wish is not None
    assert line.ticket.wish.start == time(16)
    line.text("5 Ivy ct")
    said = line.ticket.offers[0].say
    assert "Wed" in said
    assert said.endswith("3 to 5 pm")


@pytest.mark.parametrize("text", ["no its induction and nobody touched it. how much for new glass", "es de induccion"])
def test_a_kind_told_answers(text: str) -> None:
    line = Line()
    line.text("my range wont heat 87106")
    assert line.state.asked is not None
    assert line.state.asked.code == "cook_kind"
    line.text(text)
    assert line.ticket.observations["cook_kind"] == "induction"
    assert line.state.asked is not None
    assert line.state.asked.code != "cook_kind"
