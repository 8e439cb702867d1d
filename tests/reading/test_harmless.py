"""Danger words that tell of no danger: asked in general, gone by, set right, said not to be, or as it should be."""

import pytest

from tests.reading.score import demo_reader


def _read(text: str) -> tuple[set[str], set[str]]:
    found = demo_reader().read(text)
    return {hazard.code for hazard in found.hazards}, {hazard.code for hazard in found.denied_hazards}


@pytest.mark.parametrize(
    "text",
    [
        "do dishwashers ever shock people? my aunt says so",
        "odds of a dryer catching fire if the vent is clogged? mine is fine",
        "puede dar toques una lavadora si esta en piso mojado?",
        "how would i know if my stove had a gas leak, never smelled anything",
        "what does carbon monoxide smell like",
        "i see the spark when i turn the knob and it lights. the oven light is out tho",
        "el chispero de la estufa echa chispa y prende bien, lo que no sirve es el horno",
        "they fixed the gas leak out in the street, we're good here, ice maker quit",
        "got shocked by a fridge as a kid so i dont touch plugs. dryer is dead",
        "water everywhere and its the dogs bowl lol. ice maker quit tho",
        "se inundo el patio con la lluvia, la secadora esta bien pero no calienta",
        "co detector has been quiet, stove burner just wont light",
        "la ropa sale que quema los dedos, no seca",
        "sale frio el aire, es de gas la secadora",
    ],
)
def test_no_danger_is_told(text: str) -> None:
    assert _read(text)[0] == set()


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("my brother in law looked for sparks, there arent any", "sparks"),
        ("chispas esperaba ver pero ni una", "sparks"),
        ("mother says its smoke. its steam, it fogs my glasses", "smoke"),
        ("la vecina juraba que olia a gas y era su perro", "gas_smell"),
        ("if theres a gas smell do i call you? not now, just asking", "gas_smell"),
        ("humo? para nada. nomas no calienta", "smoke"),
        ("le vi el cable completito y frio, no prende", "hot_wiring"),
        ("huele a humedad, nada de quemado ni gas", "gas_smell"),
        ("no injuries unless you count my pride. oven bulb died", "injury"),
    ],
)
def test_a_danger_is_denied(text: str, code: str) -> None:
    hazards, denied = _read(text)
    assert code in denied
    assert not hazards


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("do microwaves spark? mine did last night", "sparks"),
        ("can you fix a stove that sparks", "sparks"),
        ("is it common for the fridge to shock me", "shock"),
        ("it never sparked before tonight", "sparks"),
        ("the dryer never smoked until today", "smoke"),
        ("co detector wont stop beeping", "carbon_monoxide"),
        ("co alarm never went off but we all have headaches", "carbon_monoxide"),
        ("they fixed the gas leak in the street but i still smell it", "gas_smell"),
        ("i see a spark at the plug and then it lights up", "sparks"),
        ("kid said it smelled like gas but it was the oven pilot", "gas_smell"),
        ("he thought it was smoke but it was worse, flames", "fire"),
        ("smoke came out, no hay luz", "smoke"),
        ("a mi nina le dio un calambrazo el lavatrastes", "shock"),
        ("its not gas its electric, smells like rotten eggs by the wall and hissing", "gas_smell"),
        ("me quema la mano cuando agarro el enchufe", "injury"),
    ],
)
def test_a_danger_stays(text: str, code: str) -> None:
    assert code in _read(text)[0]
