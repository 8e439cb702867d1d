"""Dangers mended by an electrician, asked of a day to come, of a truck or the laundry; and such words of what is at hand."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


def raised(text: str) -> set[str]:
    return {hazard.code for hazard in demo_reader().read(text).hazards}


@pytest.mark.parametrize(
    "text",
    [
        "electrician came tuesday and replaced the burnt outlet, washer still wont drain",
        "the outlet was burnt, the electrician swapped it, now the fridge is warm",
        "el contacto estaba quemado y el electricista lo cambio, la lavadora no tira agua",
        "will it burn up the wires if i keep running it",
        "my car leaks gas in the driveway so park on the street, washer wont spin",
        "the suv is smoking so i cant meet you at 3",
        "la ropa sale con mucha estatica que da toques, la secadora no seca bien",
        "blankets full of static that shocks you, dryer takes forever",
        "never once a spark, just dead",
        "the finish is smoke gray, range hood is weak",
    ],
)
def test_it_is_no_danger_at_hand(text: str) -> None:
    assert raised(text) == set()


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("hot_wiring", "electrician swapped the burnt outlet monday and its hot again"),
        ("hot_wiring", "electrician is coming tomorrow to replace the burnt outlet"),
        ("sparks", "electrician replaced the outlet and now it sparks"),
        ("hot_wiring", "el electricista cambio el breaker y ahora el contacto esta quemado"),
        ("shock", "electrician fixed it last week and it still shocks me"),
        ("gas_smell", "my truck is in the garage and the dryer out there leaks gas"),
        ("shock", "clothes full of static and the dryer zaps me when i touch the door"),
        ("hot_wiring", "will it catch? the wires are burnt already"),
        ("sparks", "not once but twice it sparked"),
        ("fire", "lint in back of the dryer is lit"),
        ("fire", "algo prendido atras del refri"),
        ("gas_smell", "smells like something rotten behind the range"),
        ("gas_smell", "huele a pedo junto a la estufa todo el dia"),
        ("gas_smell", "does gas linger? the gas was strong behind the stove and it hasnt gone"),
    ],
)
def test_it_is_told_as_at_hand(code: str, text: str) -> None:
    assert code in raised(text)
