"""What replies and messages say besides: what helped or did not, days of the story, ages of people, names with a remark."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    "text",
    [
        "its working again, unplugged it 10 min and it came back",
        "ya la arreglo mi compadre y jala bien, ya no vengan",
        "my cousin fixed the dryer, cancel the visit please",
        "ya no vengan mañana mi hijo le cambio la manguera y ya no tira agua la lavadora",
    ],
)
def test_what_works_again_is_no_complaint(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert "fixed" in reading.intents
    assert "report_problem" not in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "breaker pops every time the dishwasher starts, reset it 4 times",
        "dryer takes three rounds, cleaned the vent out to the roof",
        "ya le movi al breaker y la campana no prende",
    ],
)
def test_what_was_tried_beside_the_fault_did_not_help(reader: Reader, text: str) -> None:
    assert "not_fixed" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "Your tech was here Monday and now the cooktop clicks",
        "lightning took out the power monday, now the oven display is blank",
        "u guys open saturdays?",
        "is the tech still coming today or what",
    ],
)
def test_a_day_of_the_story_is_no_wish(reader: Reader, text: str) -> None:
    assert reader.read(text).wish is None


def test_a_day_after_one_of_the_story_is_a_wish(reader: Reader) -> None:
    wish = reader.read("washer leaks, your guy was here monday can you come thursday").wish
    assert wish is not None
    assert wish.days_in == ("thu",)


@pytest.mark.parametrize("text", ["my 4 yr old broke the oven door", "my 3 yr old stuffed a toy in the dryer vent"])
def test_a_childs_age_is_not_the_machines(reader: Reader, text: str) -> None:
    assert "age_years" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Bev Hanratty, the house is my moms tho", "Bev Hanratty"),
        ("Lupe Carrillo pa servirle", "Lupe Carrillo"),
        ("Ramona Burns like the thing on a stove with an s", "Ramona Burns"),
        ("this is marcus. and the dryer started squealing too", "marcus"),
    ],
)
def test_a_name_with_a_remark(reader: Reader, text: str, name: str) -> None:
    assert reader.read(text, asked=Asked("name")).facts["name"] == name


@pytest.mark.parametrize(
    "text", ["the vent is on the roof", "the board meets tuesday", "la resistencia es por la calle 4"]
)
def test_a_parts_name_alone_is_no_complaint(reader: Reader, text: str) -> None:
    assert not reader.read(text).symptoms


@pytest.mark.parametrize("text", ["bad compressor", "i think the compressor is going out"])
def test_a_part_that_is_blamed_is_a_vague_complaint(reader: Reader, text: str) -> None:
    assert [found.code for found in reader.read(text).symptoms] == ["vague"]


@pytest.mark.parametrize(
    ("text", "index"),
    [("the early one", 0), ("la de en medio", 1), ("the last one", 2), ("what does it cost first", None)],
)
def test_a_window_by_its_place(reader: Reader, text: str, index: int | None) -> None:
    offers = ("Monday 8-10", "Tuesday 1-3", "Thursday 10-12")
    answer = reader.read(text, asked=Asked("offer", offers=offers)).answer
    assert (answer.index if answer else None) == index


def test_a_letter_typed_for_a_figure(reader: Reader) -> None:
    assert reader.read("871o8", asked=Asked("postal_code")).facts["postal_code"] == "87108"
