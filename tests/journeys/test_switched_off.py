"""After a danger that a switch or a plug ends: who says that it is off is not asked again whether it is."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line

BURNING, BURNING_ES = "there is a burning smell from my dryer", "huele a quemado mi secadora"
MELTED, SHOCK, SHOCK_ES = "my dryer plug is melted", "my washer shocked me", "la lavadora me dio toques"
SMOKE, SMOKE_ES = "smoke is coming out of my dryer", "sale humo de la secadora"


@pytest.mark.parametrize(
    ("first", "answer"),
    [
        (BURNING, "breaker off now"),
        (BURNING, "ok unplugged it"),
        (BURNING, "its unplugged and the breakers off"),
        (BURNING, "turned the breaker off, no smoke"),
        (BURNING, "I flipped the breaker for it"),
        (BURNING, "done, power is off to it"),
        (BURNING_ES, "ya apague el breaker, no hay humo"),
        (BURNING_ES, "ya la desconecte"),
        (BURNING_ES, "listo, baje la pastilla"),
        (BURNING_ES, "ya baje el breaker y esta desconectada"),
        (MELTED, "breaker off now"),
        (MELTED, "ok unplugged it"),
        (SMOKE, "smoke stopped and i turned the breaker off"),
        (SMOKE_ES, "ya apague el breaker, no hay humo"),
    ],
)
def test_who_says_it_is_off_is_thanked_and_goes_on(first: str, answer: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    assert line.said.startswith(("Thank you", "Gracias"))
    assert "breaker" not in line.said
    assert line.state.asked is not None
    assert line.state.asked.kind == "postal_code"


@pytest.mark.parametrize(("first", "answer", "asked"), [
    (SHOCK, "breaker off now", "Does everyone feel all right?"), (SHOCK, "ok its unplugged", "Does everyone feel"),
    (SHOCK_ES, "ya baje el breaker", "se sienten bien?"),
])  # fmt: skip
def test_after_a_shock_only_how_people_feel_is_asked(first: str, answer: str, asked: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    assert asked in line.said
    assert "breaker" not in line.said
    line.text("yes" if line.state.language == "en" else "si")
    assert line.said.startswith(("Thank you", "Gracias"))


@pytest.mark.parametrize(
    ("first", "answer"),
    [
        (SMOKE, "breaker off now"), (BURNING, "i cant reach the breaker"), (BURNING, "should i unplug it"),
        (BURNING, "turned it off but my son feels dizzy"), (BURNING_ES, "no encuentro el breaker"),
        (BURNING, "breaker is off and it still smells"), (SHOCK, "breaker off, my hand is burned"),
    ],
)  # fmt: skip
def test_what_is_open_still_is_asked_or_told_again(first: str, answer: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    assert not line.said.startswith(("Thank you", "Gracias"))
