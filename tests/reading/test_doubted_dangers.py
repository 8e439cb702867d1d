"""Dangers that a phrase raised in words that customers mostly use of none: doubted, not raised; plain ones never are."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from service.reading.dangers.alarming import alarmed
from service.reading.dangers.hazards import Screened
from service.reading.model import Asked
from service.reading.opinion.second_opinion import NOTHING, Opinion
from service.reading.reader import Reader

HERE = Path(__file__).parent


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("we burn mesquite in the wood stove so yes youll smell smoke, come on in. fridge is too warm", "smoke"),
        ("my abuela prende sus veladoras right by the stove so the house siempre huele a cera lol. the oven door no cierra",
         "burning_smell"),
        ("my lab partner says a fridge can leak freon and kill you?? ours is just loud, like buzzing", "refrigerant_leak"),
    ],
)  # fmt: skip
def test_in_such_words_it_is_doubted(reader: Reader, text: str, code: str) -> None:
    reading = reader.read(text)
    assert reading.hazards == ()
    assert [found.code for found in reading.doubted_hazards] == [code]
    assert any("is asked about" in note for note in reading.notes)


@pytest.mark.parametrize(
    "text",
    [
        "smoke", "there is smoke coming out of the dryer", "sparks flew out of the plug when i pushed it in",
        "my stove smells like gas and the burners are off", "sale humo de la secadora", "me dio toques la lavadora",
        "se ve una chispa en el enchufe del refri cada vez que arranca",
    ],
)  # fmt: skip
def test_a_plain_danger_is_never_doubted(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert reading.hazards
    assert reading.doubted_hazards == ()


def test_an_answer_about_a_danger_is_never_doubted(reader: Reader) -> None:
    text = "we burn mesquite in the wood stove so yes youll smell smoke, come on in. fridge is too warm"
    asked = Asked("yes_no", appliance="refrigerator", code="smoke")
    assert reader.read(text, asked=asked).doubted_hazards == ()


def test_of_two_dangers_none_is_doubted(reader: Reader) -> None:
    text = "we burn mesquite in the wood stove so yes youll smell smoke, come on in. and the washer gave me a shock"
    reading = reader.read(text)
    assert {found.code for found in reading.hazards} == {"smoke", "shock"}
    assert reading.doubted_hazards == ()


def test_on_arrival_a_doubted_danger_does_not_rest(reader: Reader) -> None:
    text = "we burn mesquite in the wood stove so yes youll smell smoke, come on in. fridge is too warm"
    assert [found.code for found in reader.hazards(text)] == ["smoke"]


def test_hardly_a_true_danger_is_doubted(reader: Reader) -> None:
    """Of the labelled texts that hold a danger, next to none is asked about instead of told at once."""
    told = asked = 0
    for file in sorted((HERE / "texts").glob("dangers_told_*.jsonl")):
        for line in file.read_text(encoding="utf-8").splitlines()[::2]:
            text = json.loads(line)
            if text["expected"]["hazards"] and "asked" not in text:
                reading = reader.read(text["text"])
                told += bool(reading.hazards)
                asked += bool(reading.doubted_hazards)
    assert told > 500
    assert asked <= told / 200


NONE = Screened((), (), (), ())
LEAKS = "when i get home from work there is always water standing on the tiles by the washer and it runs"


@pytest.mark.parametrize(("margin", "raised"), [(0.4, True), (0.12, True), (0.05, False), (-0.3, False)])
def test_what_words_tell_a_little_is_asked_about_first(reader: Reader, margin: float, raised: bool) -> None:
    opinion = Opinion("flooding", {"flooding": 0.2, NOTHING: 0.2 - margin})
    found = alarmed(NONE, opinion, reader.hearer.normaliser.words(LEAKS))
    assert [bool(found.raised), bool(found.doubted)] == [raised, not raised]


def test_few_words_and_answers_about_a_danger_are_not_asked_about(reader: Reader) -> None:
    opinion = Opinion("flooding", {"flooding": 0.2, NOTHING: 0.3})
    few = reader.hearer.normaliser.words("water standing by the washer and it runs")
    assert alarmed(NONE, opinion, few).raised
    asked = Asked("yes_no", appliance="washer", code="flooding")
    assert alarmed(NONE, opinion, reader.hearer.normaliser.words(LEAKS), asked).raised


@pytest.mark.parametrize(
    "text",
    [
        "Nothing's smoking, sparking, leaking or on fire, its only ugly: the rack has rusted through",
        "Relax nothing's on fire. the dishwasher door drops when I unlatch it",
    ],
)
def test_nothing_that_is_listed_is_so(reader: Reader, text: str) -> None:
    assert reader.read(text).hazards == ()


def test_it_does_nothing_and_it_burns_is_a_danger(reader: Reader) -> None:
    assert reader.read("i push start, it does nothing, smells burnt").hazards
