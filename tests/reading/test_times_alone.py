"""A text that is nothing but a time is the wish; an hour named with a day or to open windows is an hour of the afternoon."""

from __future__ import annotations

from datetime import time

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

WINDOWS = ("Thu 26 Nov, 8 to 10 am", "Thu 26 Nov, 1 to 3 pm", "Fri 27 Nov, 10 am to 12 pm")
OFFER = Asked("offer", "dryer", None, (), WINDOWS)


@pytest.mark.parametrize("kind", ["yes_no", "check_result", "variant", "name", "symptom", "fuel", "offer"])
@pytest.mark.parametrize("text", ["TOMORROW MORNING", "saturday?", "friday", "el sábado", "saturday works"])
def test_a_lone_time_is_the_wish_whatever_was_asked(reader: Reader, kind: str, text: str) -> None:
    reading = reader.read(text, asked=Asked(kind, "dryer", "no_heat"))
    assert reading.wish is not None
    assert reading.facts["wish"] == reading.wish.words
    assert "name" not in reading.facts


@pytest.mark.parametrize("kind", ["yes_no", "check_result", "name"])
def test_a_day_that_works_agrees_to_nothing_else(reader: Reader, kind: str) -> None:
    assert reader.read("saturday works", asked=Asked(kind, "dryer", "vent_check")).answer is None


def test_a_yes_before_the_day_is_still_a_yes(reader: Reader) -> None:
    reading = reader.read("yes, saturday", asked=Asked("yes_no", "dryer", "no_heat"))
    assert reading.answer is not None
    assert (reading.answer.kind, reading.facts["wish"]) == ("yes", "saturday")


@pytest.mark.parametrize("text", ["since saturday", "it stopped friday"])
def test_when_the_trouble_began_is_no_wish(reader: Reader, text: str) -> None:
    assert "wish" not in reader.read(text, asked=Asked("yes_no", "dryer", "no_heat")).facts


def test_a_time_that_is_one_of_the_choices_is_the_answer(reader: Reader) -> None:
    choices = (Choice("new", "This week"), Choice("old", "Longer ago"))
    reading = reader.read("this week", asked=Asked("observation", "dryer", "how_long", choices))
    assert reading.answer is not None
    assert (reading.answer.value, "wish" in reading.facts) == ("new", False)


@pytest.mark.parametrize(
    ("text", "hour"),
    [
        ("tomorrow at 1 is fine", 13),
        ("tomorrow at 1", 13),
        ("the 1 pm one tomorrow", 13),
        ("mañana a la 1", 13),
        ("at 4 tomorrow", 16),
        ("tomorrow 1ish", 13),
        ("friday at 10", 10),
        ("mañana a las 2 está bien", 14),
    ],
)
def test_an_hour_with_a_day_is_the_hour_wished_for(reader: Reader, text: str, hour: int) -> None:
    for asked in (None, OFFER):
        wish = reader.read(text, asked=asked).wish
        assert wish is not None
        assert wish.start == time(hour)


@pytest.mark.parametrize("text", ["tomorrow at 4 Garrow", "tomorrow for 2 hours", "tomorrow, unit 3"])
def test_a_number_that_is_no_hour_binds_no_hour(reader: Reader, text: str) -> None:
    wish = reader.read(text, asked=OFFER).wish
    assert wish is not None
    assert wish.start is None


@pytest.mark.parametrize(
    ("text", "place"),
    [("thursday at 2", 1), ("thursday at 8", 0), ("at 10 works", 2), ("el jueves a la 1", 1), ("2", 1), ("la 1", 0)],
)
def test_an_hour_takes_the_window_that_holds_it_and_a_number_alone_its_place(
    reader: Reader, text: str, place: int
) -> None:
    answer = reader.read(text, asked=OFFER).answer
    assert answer is not None
    assert (answer.kind, answer.index) == ("choice", place)


@pytest.mark.parametrize("text", ["mañana a la 1", "tomorrow at 1", "friday at 1", "thursday at 4"])
def test_an_hour_never_takes_a_window_that_does_not_hold_it(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=OFFER).answer
    assert answer is not None
    assert answer.kind != "choice"
