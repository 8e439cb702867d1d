"""Dangers told beside their own denial: what was not so once and is so now, and what is there instead."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("no sparks before but tonight yes, a big blue one at the washer", "sparks"),
        ("antes no daba toques, ahora si", "shock"),
        ("no habia chispas ayer pero hoy si", "sparks"),
        ("no smoke yesterday. today yes", "smoke"),
        ("used to smell gas sometimes, not anymore. ok yes a little today", "gas_smell"),
        ("it doesnt smell like gas it smells like burnt plastic", "burning_smell"),
        ("not a gas smell it smells like rotten eggs near the stove", "gas_smell"),
        ("no flames, sparks only", "sparks"),
        ("i left the back burner on without flame for an hour", "gas_smell"),
        ("washer overflowed into the breaker panel", "water_near_power"),
    ],
)
def test_a_denial_does_not_hide_what_is_there(text: str, code: str) -> None:
    assert code in [found.code for found in demo_reader().hazards(text)]


@pytest.mark.parametrize(
    "text",
    [
        "no huele a gas, ahora si diganme cuando vienen",
        "no gas smell no smoke it smells fine",
        "no hay humo ni huele a quemado",
        "no smell of gas but now i need it fixed yes",
        "no se oye silbido ni huele a quimico, el refri nomas no enfria",
        "front left burner on the stove wont light, other three are fine",
    ],
)
def test_and_none_is_made_up(text: str) -> None:
    assert demo_reader().hazards(text) == ()
