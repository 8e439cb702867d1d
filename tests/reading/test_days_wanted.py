"""A day or time wanted says that somebody is to come; a day on which something else is on says nothing of it."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
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
        "got her going again, it was the timer. much obliged",
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
    choices = (Choice("no_drain", "does not drain"), Choice("no_spin", "does not spin"))
    asked = Asked("symptom", "washer", choices=choices)
    assert "report_problem" in reader.read("none of those, the washer door wont shut", asked=asked).intents
    assert "report_problem" not in reader.read("none of those", asked=asked).intents


@pytest.mark.parametrize(
    ("text", "fuel"),
    [
        ("gas creo, no wait its electrica", "electric"),
        ("Disculpe, le dije secadora de gas y no, es eléctrica. El tambor no gira.", "electric"),
        ("electric range, no it's gas, one burner wont light", "gas"),
        ("la estufa no es eléctrica, es de gas, no prende", "gas"),
    ],
)
def test_a_fuel_set_right(reader: Reader, text: str, fuel: str) -> None:
    assert reader.read(text).facts.get("fuel") == fuel


@pytest.mark.parametrize(
    "text",
    [
        "you guys were here last week and the oven is still off by 60",
        "lo que arreglaron el viernes no quedó, la lavadora sigue sin exprimir",
        "ya van tres visitas y el refri sigue goteando",
        "your young man put in a part and the fridge is still warm",
    ],
)
def test_a_repair_before(reader: Reader, text: str) -> None:
    assert "repair" in reader.read(text).facts.get("after", ())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("no ice out of the undercounter ice machine in 4 days", True),
        ("fridge is warm, three days", True),
        ("dishwasher leaks, started after the movers came", True),
        ("not home til friday, the dryer squeals", False),
        ("wife wants you here after church sunday, microwave is dead", False),
    ],
)
def test_when_it_began(reader: Reader, text: str, told: bool) -> None:
    assert ("since" in reader.read(text).facts) is told
