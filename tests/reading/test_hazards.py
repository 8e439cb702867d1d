"""
Hazards are heard in every clause and on words as typed and as corrected; only a plain denial beside them denies them.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading.reader import Reader
from tests.reading.score import demo_reader

SURE = (
    ("i smell gas", "gas_smell"),
    ("huele a gas", "gas_smell"),
    ("there is smoke coming out of it", "smoke"),
    ("sale humo", "smoke"),
    ("it is on fire", "fire"),
    ("smells like burning", "burning_smell"),
    ("huele a quemado", "burning_smell"),
    ("i got shocked when i touched it", "shock"),
    ("the outlet is sparking", "sparks"),
)


def codes(reader: Reader, text: str) -> set[str]:
    return {h.code for h in reader.hazards(text)}


@pytest.mark.parametrize(("text", "code"), SURE)
def test_a_hazard_is_heard_inside_a_price_question(reader: Reader, text: str, code: str) -> None:
    assert code in codes(reader, f"how much do you charge to come out, {text}, its the dishwasher")


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("no smoke but i smell gas", "gas_smell"),
        ("wont start smells burnt", "burning_smell"),
        ("no and it also smells like burning", "burning_smell"),
    ],
)
def test_a_negation_of_something_else_does_not_deny_it(reader: Reader, text: str, code: str) -> None:
    assert code in codes(reader, text)


@pytest.mark.parametrize("text", ["i dont smell gas anymore", "ya no huele a gas"])
def test_a_hazard_that_is_over_stays_until_a_person_clears_it(reader: Reader, text: str) -> None:
    assert codes(reader, text) == {"gas_smell"}


@pytest.mark.parametrize("text", ["we dont smell any gas", "no huele a gas", "no gas smell"])
def test_a_plain_denial_is_recorded_as_one(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert reading.hazards == ()
    assert [h.code for h in reading.denied_hazards] == ["gas_smell"]


def test_a_denial_never_crosses_texts(reader: Reader) -> None:
    assert [h.code for h in reader.read_together(["no", "smell gas"]).hazards] == ["gas_smell"]


def test_a_hazard_broken_over_two_texts_is_heard(reader: Reader) -> None:
    assert [h.code for h in reader.read_together(["there is a strong smell of", "gas in the kitchen"]).hazards] == [
        "gas_smell"
    ]


@pytest.mark.parametrize("text", ["smeling gas", "i smel gas", "burnning smell from dryer", "theres smoak"])
def test_a_misspelt_hazard_is_heard(reader: Reader, text: str) -> None:
    assert codes(reader, text)


@pytest.mark.parametrize(
    "text",
    [
        "gas bill is too high",
        "shocked at the price",
        "smoke alarm needs a battery",
        "is it a gas or electric dryer",
        "fire up the grill",
    ],
)
def test_harmless_words_raise_nothing(reader: Reader, text: str) -> None:
    assert codes(reader, text) == set()


FILLER = st.lists(
    st.sampled_from(
        [
            "hello",
            "so",
            "my",
            "the",
            "dishwasher",
            "again",
            "today",
            "please",
            "and",
            "kitchen",
            "thanks",
            "tuesday",
            "ok",
        ]
    ),
    max_size=8,
)


@settings(max_examples=60, deadline=None)
@given(before=FILLER, after=FILLER, sure=st.sampled_from(SURE))
def test_filler_around_a_hazard_never_hides_it(before: list[str], after: list[str], sure: tuple[str, str]) -> None:
    text, code = sure
    assert code in codes(demo_reader(), " ".join([*before, ".", text, ".", *after]))


@pytest.mark.parametrize(
    ("text", "raised"),
    [
        ("gas smell last week but the gas company came and fixed it. now the dryer is cold", False),
        ("gas leak two weeks ago, the plumber repaired and it smells like eggs now", True),
        ("gas smell last week, gas company fixed it but it smells again", True),
        ("gas smell last week and the gas company has not fixed it", True),
        ("gas smell last week. the gas company fixed something", True),
        ("there was a gas smell last week", True),
    ],
)
def test_a_repair_settles_a_hazard_only_when_it_is_said_to_be_over(reader: Reader, text: str, raised: bool) -> None:
    assert ("gas_smell" in {hazard.code for hazard in reader.read(text).hazards}) is raised


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("la estufa huele a gas y no hay nada prendido", "gas_smell"),
        ("it puffed a little smoke out the back when it kicked on this morning", "smoke"),
        ("the neighbor lady came in and said your kitchen smells like gas", "gas_smell"),
        ("my neighbor stuck his hand in the disposal and cut two fingers", "injury"),
    ],
)
def test_words_beside_a_danger_that_deny_or_date_something_else_do_not_clear_it(
    reader: Reader, text: str, code: str
) -> None:
    assert code in {hazard.code for hazard in reader.hazards(text)}


def test_what_a_long_sign_ends_in_may_be_said_not_to_be(reader: Reader) -> None:
    reading = reader.read("wine cooler isnt cold at all. no hissing no chemical smell")
    assert reading.hazards == ()
    assert [hazard.code for hazard in reading.denied_hazards] == ["refrigerant_leak"]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the fridge shocked my son when he grabbed it", "shock"),
        ("me hace cosquillas en los dedos la puerta del refri", "shock"),
        ("washer water is creeping toward the power strip", "water_near_power"),
        ("el agua ya va llegando a la extension", "water_near_power"),
        ("smells like when they fill up the grill tank by our range", "gas_smell"),
        ("the CO monitor jumped from 0 to 60 when the oven came on", "carbon_monoxide"),
        ("grease flared up and i put a lid on, its out", "fire"),
        ("ya se fueron los bomberos, era el horno", "fire"),
        ("la clavija tiene una pata negra", "hot_wiring"),
        ("the outlet turned brown and droopy", "hot_wiring"),
        ("se me torcio la muñeca moviendo la lavadora", "injury"),
        ("no encuentro la llave y el agua sube y sube", "flooding"),
        ("the drinks cooler let a curl of smoke out of the back grille", "smoke"),
    ],
)
def test_a_danger_told_by_what_it_looks_like_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in codes(reader, text)


@pytest.mark.parametrize(
    "text",
    [
        "we live at 12 Smoke Tree Dr, washer wont spin",
        "calle del Fuego 200, el refri no enfria",
        "mr burns here, dryer drum wont turn",
        "smoke alarm goes off whenever i fry bacon, hood is weak",
        "la campana ya no jala el humo",
        "will it spark if i leave the foil on",
        "puedo meter papel aluminio o saca chispas",
        "hay incendio en el cerro, vengan mañana",
        "flash flood warning tonight, can we move it",
        "do i need a co detector for a gas range",
        "the handle broke off in my hand",
        "if the dryer ever did start smoking who do i call",
        "she checked, nobody hurt. the glass is cracked",
        "el microondas no echa humo nomas no calienta",
    ],
)
def test_names_idioms_questions_and_cooking_are_no_danger(reader: Reader, text: str) -> None:
    assert not codes(reader, text)
