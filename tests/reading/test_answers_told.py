"""
What a text answers besides yes and no: the other language's word for a choice, a check only begun, neither of two.
"""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

BREAKERS = (Choice("all", "All of them"), Choice("some", "Only some"), Choice("none", "None of them"))
SIDES = (Choice("front", "At the front"), Choice("back", "At the back"), Choice("under", "Underneath"))


@pytest.mark.parametrize(
    ("text", "choices", "value"),
    [("todos", BREAKERS, "all"), ("algunos", BREAKERS, "some"), ("enfrente", SIDES, "front"), ("atrás", SIDES, "back")],
)
def test_a_choice_sent_in_english_is_taken_in_spanish(
    reader: Reader, text: str, choices: tuple[Choice, ...], value: str
) -> None:
    answer = reader.read(text, asked=Asked("observation", "dryer", "burners_out", choices)).answer
    assert answer is not None
    assert (answer.kind, answer.value) == ("choice", value)


@pytest.mark.parametrize(
    "text", ["ok", "k", "ok will do", "sure", "bueno", "está bien", "ahorita lo hago", "ill do it tonight"]
)
def test_a_check_that_is_only_begun_has_no_result(reader: Reader, text: str) -> None:
    reading = reader.read(text, asked=Asked("check_result", "dishwasher", "clean_filter"))
    assert reading.answer is None or reading.answer.kind not in ("fixed", "not_fixed")
    assert "fixed" not in reading.intents


@pytest.mark.parametrize("text", ["did that, works now", "quedó, ya desagua bien"])
def test_a_check_that_helped_still_has_its_result(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("check_result", "dishwasher", "clean_filter")).answer
    assert answer is not None
    assert answer.kind == "fixed"


def test_neither_of_two_days_is_none_whatever_else_is_both(reader: Reader) -> None:
    answer = reader.read("neither, I work both days", asked=Asked("offer", offers=("Tue 8-12", "Wed 1-3"))).answer
    assert answer is not None
    assert answer.kind == "none"


@pytest.mark.parametrize(
    "text", ["sí, lo puso el plomero el viernes", "yea plumber did it friday", "si, lo instalaron la semana pasada"]
)
def test_who_did_it_and_when_is_a_yes(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("observation", "dishwasher", "new_disposal")).answer
    assert answer is not None
    assert answer.kind == "yes"


def test_breakers_that_are_all_on_have_not_tripped(reader: Reader) -> None:
    answer = reader.read("breakers are all on", asked=Asked("observation", "dryer", "breaker_tripped")).answer
    assert answer is not None
    assert answer.kind == "no"


def test_a_negation_inside_a_fault_denies_no_other(reader: Reader) -> None:
    reading = reader.read("wont do anything, full of water", about="washer")
    assert "no_drain" in {found.code for found in reading.symptoms}


def test_a_machine_named_as_the_occasion_is_not_the_one_complained_of(reader: Reader) -> None:
    reading = reader.read("the dishwasher fills with dirty water whenever i run the disposal")
    assert reading.appliances == ("dishwasher",)
