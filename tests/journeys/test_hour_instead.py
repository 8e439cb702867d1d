"""A bare hour in place of the booked one is of the visit's own day."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize("words", ["can u come 9 instead", "pueden venir a las 9 mejor"])
def test_another_hour_of_the_booked_day_comes_first(words: str) -> None:
    line = Line()
    line.text("washer wont spin 87109, send someone")
    line.text("nothing")
    line.text("211 Garrow se apt 12")
    line.text("wed at 10")
    line.text("1")
    day = line.day_of_visit()
    line.text(words)
    first = line.ticket.offers[0].start.astimezone(line.book.start.tzinfo)
    assert (first.date(), first.astimezone().minute) == (day, 0)
    assert "8" in line.ticket.offers[0].say
