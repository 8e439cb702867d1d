"""Answers about a danger without a plain yes or no: told of before it stands, a safe state or a harmless cause denies it."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Reading
from tests.reading.score import demo_reader


def answered(code: str, text: str) -> Reading:
    appliance = "range" if code in ("gas_smell", "smoke", "burning_smell", "sparks", "fire") else "washer"
    return demo_reader().read(text, asked=Asked("yes_no", appliance=appliance, code=code))


def kind_of(reading: Reading) -> str | None:
    return None if reading.answer is None else reading.answer.kind


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("gas_smell", "not this minute, half an hour ago it did yeah"),
        ("gas_smell", "real strong this morning, we opened every window"),
        ("gas_smell", "only a whiff when we walked in"),
        ("gas_smell", "ahorita no, hace como una hora sí"),
        ("smoke", "ya no, pero hace un ratito sí echaba"),
        ("smoke", "no but earlier yes"),
        ("sparks", "just the once, about ten minutes ago"),
        ("hot_wiring", "it was hot an hour ago, cool now"),
        ("burning_smell", "hoy no, anoche sí olía fuerte"),
        ("shock", "buzzed me twice yesterday, not today"),
        ("smoke", "a puff came out when i turned it on, not since"),
        ("gas_smell", "hace ratito olía, ya no tanto"),
    ],
)
def test_told_of_before_it_stands(code: str, text: str) -> None:
    told = answered(code, text)
    assert kind_of(told) == "yes"
    assert code in [h.code for h in told.hazards]
    assert code not in [h.code for h in told.denied_hazards]


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("gas_smell", "no, never did, we checked an hour ago"),
        ("smoke", "no hubo nada anoche"),
        ("sparks", "nope, not yesterday either"),
        ("gas_smell", "turned it off an hour ago"),
        ("smoke", "i plugged it in this morning"),
    ],
)
def test_what_was_done_or_denied_before_is_no_yes(code: str, text: str) -> None:
    assert kind_of(answered(code, text)) != "yes"


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("smoke", "theres some but its from the bacon im frying"),
        ("smoke", "puro vapor de la olla de frijoles"),
        ("gas_smell", "just smells like the onions im frying"),
        ("burning_smell", "nomas huele al chile que estoy asando"),
        ("water_near_power", "the outlet is way up high and the floor is dry"),
        ("water_near_power", "el piso está seco y el contacto está arriba"),
        ("hot_wiring", "felt the plug, room temperature"),
        ("hot_wiring", "está fría y como nueva"),
        ("sparks", "only the usual click from the igniter"),
        ("sparks", "que yo haya visto ninguna"),
        ("fire", "just the glow of the element like always"),
        ("injury", "everybody's okay"),
        ("flooding", "floor's bone dry"),
        ("smoke", "humo si pero del chile que toste, de la estufa nada"),
        ("shock", "a mi no, y eso que la agarro descalza"),
        ("injury", "los niños y yo bien, gracias"),
        ("carbon_monoxide", "it chirped, swapped the 9 volt, quiet ever since"),
    ],
)
def test_a_safe_state_or_a_harmless_cause_is_a_no(code: str, text: str) -> None:
    told = answered(code, text)
    assert kind_of(told) == "no"
    assert code not in [h.code for h in told.hazards]


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("smoke", "theres smoke from the bacon but the plug smokes too"),
        ("smoke", "steam from the motor, gray"),
        ("gas_smell", "smells like rotten onions"),
        ("gas_smell", "like eggs, nobody is cooking"),
        ("burning_smell", "maybe its the toast"),
        ("water_near_power", "floor's dry but the outlet is wet"),
        ("water_near_power", "the outlet is up high, water is dripping down to it"),
        ("hot_wiring", "plug looks new but its hot"),
        ("hot_wiring", "se ve bien pero está tibia"),
        ("sparks", "just a tick and a flash at the outlet"),
        ("injury", "everyone's ok except my son cut his hand"),
        ("flooding", "not dry at all"),
        ("flooding", "its almost dry"),
        ("carbon_monoxide", "everyone's ok just a headache"),
    ],
)
def test_a_danger_beside_or_a_doubt_is_no_no(code: str, text: str) -> None:
    assert kind_of(answered(code, text)) != "no"


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("flooding", "not dry at all"),
        ("flooding", "el piso no está seco"),
        ("injury", "we are not ok"),
        ("hot_wiring", "isnt cool"),
    ],
)
def test_a_safe_state_denied_is_a_yes(code: str, text: str) -> None:
    assert kind_of(answered(code, text)) == "yes"
