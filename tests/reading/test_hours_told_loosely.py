"""Hours as people tell them in haste: a span that ends at noon, “11ish”, an obligation that ends when they are free."""

from __future__ import annotations

from datetime import time

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

OFFER = Asked("offer", offers=("today, Tue 1 Dec, 8 to 10 am", "today, Tue 1 Dec, 1 to 3 pm", "Mon 7 Dec, 8 to 10 am"))
SOUND = Asked(
    "observation",
    appliance="fridge",
    code="compressor_sound",
    choices=(
        Choice("hum", "A steady hum"),
        Choice("click", "A click"),
        Choice("none", "No sound"),
        Choice("loud", "Loud"),
    ),
)


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("10 to noon today please", 10, 12),
        ("ok 10 to noon. Priya N.", 10, 12),
        ("from 10 til noon", 10, 12),
        ("10-noon", 10, 12),
        ("10 til 12", 10, 12),
        ("ten to noon", 10, 12),
        ("between 10 and noon", 10, 12),
        ("entre 10 y mediodía", 10, 12),
        ("de las 10 al mediodía", 10, 12),
        ("de 10 a 12", 10, 12),
        ("noon to 3", 12, 15),
        ("before noon", None, 12),
        ("11ish today", 11, None),
        ("11 today", 11, None),
        ("like 11ish", 11, None),
        ("around 11", 11, None),
        ("a eso de las 11", 11, None),
        ("at noon", 12, None),
    ],
)
def test_hours(reader: Reader, text: str, start: int | None, end: int | None) -> None:
    wish = reader.read(text, asked=OFFER).wish
    assert wish is not None
    assert wish.start == (time(start) if start is not None else None)
    assert wish.end == (time(end) if end is not None else None)


@pytest.mark.parametrize(
    "text",
    [
        "gotta be at work til 3. anything after 3?",
        "have to be at work until 3, after 3 works",
        "kids til 3 so after 3",
        "im at work til 3",
        "salgo a las 3, después de las 3",
        "trabajo hasta las 3, algo después de las 3?",
    ],
)
def test_an_obligation_is_no_end(reader: Reader, text: str) -> None:
    wish = reader.read(text, asked=OFFER).wish
    assert wish is not None
    assert (wish.start, wish.end, wish.point) == (time(15), None, False)


@pytest.mark.parametrize("text", ["it ran from 10 to noon and died", "noon and 3 kids here", "3 burners out today"])
def test_a_story_has_no_hours(reader: Reader, text: str) -> None:
    wish = reader.read(text).wish
    assert wish is None or (wish.start is None and wish.end is None)


@pytest.mark.parametrize(
    "text",
    [
        "wednesday around 4 would be best, if someone has to come",
        "wed at 4 like i said",
        "ok wednesday at 4 like i said",
        "el miércoles como a las 4 sería mejor",
        "miércoles a las 4 como le dije",
    ],
)
def test_a_time_answers_no_question_of_the_machine(reader: Reader, text: str) -> None:
    found = reader.read(text, asked=SOUND)
    assert found.wish is not None
    assert (found.wish.days_in, found.wish.start) == (("wed",), time(16))
    assert found.answer is None


@pytest.mark.parametrize("text", ["it stopped wednesday around 4", "since wednesday at 4", "a loud buzz", "4"])
def test_when_it_began_is_no_wish(reader: Reader, text: str) -> None:
    assert reader.read(text, asked=SOUND).wish is None


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("ok 10 to noon. Priya N.", "Priya N"),
        ("the first one. Deshawn Moss", "Deshawn Moss"),
        ("fine the tues one. its under Deshawn", "Deshawn"),
        ("the first one, im Deshawn", "Deshawn"),
        ("la primera, soy Rosa", "Rosa"),
        ("the first one. Thanks", None),
        ("great, 8 to 10. Sounds Good", None),
        ("the first one, Tuesday", None),
        ("the first one. its under warranty", None),
        ("the first one, Im Free", None),
        ("the first one. Gate Code", None),
    ],
)
def test_who_takes_the_window(reader: Reader, text: str, name: str | None) -> None:
    assert reader.read(text, asked=OFFER).facts.get("name") == name
