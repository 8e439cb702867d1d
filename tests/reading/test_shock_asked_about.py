"""A question whether something would give a shock tells of none; a shock that somebody got or gets is heard."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


@pytest.mark.parametrize(
    "text",
    [
        "oiga y si le quito el agua con cubeta ta bien o me da toques",
        "si le quito el agua me da toques o no",
        "puedo sacar el agua o me da toques",
        "la puedo desconectar yo o me va a dar toques",
        "no me va a dar toques?",
        "would i get shocked if i scoop the water out",
        "can i unplug it or will it shock me",
    ],
)
def test_asked_about_is_no_shock(text: str) -> None:
    assert "shock" not in {h.code for h in demo_reader().read(text).hazards}


@pytest.mark.parametrize(
    "text",
    [
        "me da toques",
        "me dio toques ayer, es normal?",
        "si la toco me da toques",
        "si la toco me da toques?",
        "si le pongo la mano me da toques, es normal?",
        "a veces prende o me da toques",
        "la puedo usar? me da toques",
        "puedo usarla aunque me da toques",
        "me va a dar toques otra vez?",
        "cada que abro la puerta me da toques",
        "can i keep using it? it shocked me",
        "is it ok that i get shocked when i touch it",
        "can i use it if i get a shock from the door",
        "it shocks me or the kids every time",
    ],
)
def test_told_is_heard(text: str) -> None:
    assert "shock" in {h.code for h in demo_reader().read(text).hazards}
