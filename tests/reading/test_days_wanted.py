"""A day or time wanted says that somebody is to come; a day on which something else is on says nothing of it."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader
from tests.reading.score import demo_reader


@pytest.fixture(scope="module")
def reader() -> Reader:
    return demo_reader()


@pytest.mark.parametrize(
    "text",
    [
        "my freezer quit on me, any chance friday before noon?",
        "Not mornings please, I teach. My dishwasher takes in no water.",
        "wife wants you here sunday, the microwave is dead",
        "tengo libre el jueves, la lavadora gotea",
        "have somebody come out saturday, the range is dead",
    ],
)
def test_a_day_wanted_is_a_visit_wanted(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert reading.wish is not None
    assert "wish" in reading.facts
    assert "book" in reading.intents


@pytest.mark.parametrize(
    "text", ["tuesday wont work for me, how about wednesday", "el martes no puedo, mejor el jueves"]
)
def test_another_day_is_another_time(reader: Reader, text: str) -> None:
    assert "reschedule" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "we have the baptism sunday and the fridge is warm",
        "my kid has a birthday party saturday, washer is dead",
        "used to squeal but stopped. today it wont heat",
        "la lavadora gotea, hay un charco cada mañana",
        "SALE smoke detectors 60% off this weekend only",
        "i come down in the morning and the dishes are soaking wet",
    ],
)
def test_a_day_of_something_else_is_no_wish(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert "wish" not in reading.facts
    assert "book" not in reading.intents


def test_the_hour_asked_for_is_the_wish(reader: Reader) -> None:
    assert reader.read("sorry no puedo at 9, can we do a las 11?").facts.get("wish")


@pytest.mark.parametrize(
    "text", ["🛑🛑🛑", "⛔ ", "para los mensajes please", "Cease all further messages", "no more robot messages"]
)
def test_a_stop_is_heard(reader: Reader, text: str) -> None:
    assert reader.consent(text) == "out"


@pytest.mark.parametrize(
    "text",
    [
        "i want a supervisor not another text",
        "can u call her she hates texts",
        "stop telling me to check the plug",
        "ya no quiero nada, no vengan",
        "i moved the washer and it wont stop",
        "🛑 the water wont stop",
    ],
)
def test_no_stop_is_heard(reader: Reader, text: str) -> None:
    assert reader.consent(text) is None


@pytest.mark.parametrize("text", ["lkjdf sdfk wpq", "mfff lq ue at s dnl", "ñsdf kkkk 7"])
def test_what_no_word_says_is_unreadable(reader: Reader, text: str) -> None:
    assert reader.read(text).intents == ("unreadable",)


@pytest.mark.parametrize("text", ["much obliged", "k", "87106", "gracias crack", "disposals busted"])
def test_short_words_are_readable(reader: Reader, text: str) -> None:
    assert "unreadable" not in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "got her going again, it was the plug. much obliged",
        "Oven is fine again after I reset the clock",
        "mi cuñado ya la arregló, gracias",
        "jk it works now, my roommate had the breaker off",
        "ahora si enfria, gracias",
    ],
)
def test_what_works_again_is_fixed(reader: Reader, text: str) -> None:
    intents = reader.read(text).intents
    assert "fixed" in intents
    assert "report_problem" not in intents


def test_who_pays_is_told_and_not_asked(reader: Reader) -> None:
    payer = Asked("payer")
    assert "ask_warranty" not in reader.read("tengo home warranty, they pay", asked=payer).intents
    assert "ask_warranty" not in reader.read("The seller has a home warranty plan, bill them.", asked=payer).intents
    assert "ask_warranty" in reader.read("is it covered by the home warranty?", asked=payer).intents


def test_a_fault_told_instead_of_the_choices_is_reported(reader: Reader) -> None:
    assert (
        "report_problem"
        in reader.read("none of those, the washer door wont shut", asked=Asked("symptom", "washer")).intents
    )
