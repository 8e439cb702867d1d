"""Which machine a complaint tells of that names none, and which tell of no machine in particular."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "machine", "code"),
    [
        ("fills up then just... meditates. no swish no slosh. my clothes sit in there like tea", "washer", "no_agitate"),
        ("stuffed a king comforter in and now come spin time the basket won't budge", "washer", "no_spin"),
        ("I put wet sneakers in and now it goes thump thump, dries great, just THUMP", "dryer", "noise"),
        ("Cycle ended, opened it, steam in my face. soap still sitting in its little cup", "dishwasher", "no_detergent"),
    ],
)  # fmt: skip
def test_a_machine_that_any_tradesperson_would_know(reader: Reader, text: str, machine: str, code: str) -> None:
    read = reader.read(text)
    assert read.appliances == (machine,)
    assert (machine, code) in {(found.appliance, found.code) for found in read.symptoms}


@pytest.mark.parametrize(
    "text",
    [
        "it just quit on me yesterday, do you have anyone tomorrow",
        "what do you charge to come out and look at something",
        "hola, necesito que venga alguien a ver un aparato que no jala",
        "my neighbor says you did a great job over there, are you taking new people",
    ],
)
def test_no_machine_where_none_is_told(reader: Reader, text: str) -> None:
    assert reader.read(text).appliances == ()


def test_the_machine_under_discussion_is_not_guessed_away(reader: Reader) -> None:
    text = "I put wet sneakers in and now it goes thump thump, dries great, just THUMP"
    assert {found.appliance for found in reader.read(text, about="washer").symptoms} <= {"washer"}
    asked = reader.read("no swish no slosh, clothes sit in there like tea", asked=Asked("symptom", "washer"))
    assert {found.appliance for found in asked.symptoms} <= {"washer"}
