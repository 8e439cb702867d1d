"""Plain answers to what is asked after a danger count, and are not met with the alarm again; its coming back is."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.journeys.line import Line

GAS, GAS_ES = "i smell gas in the kitchen near my stove", "la estufa huele a gas"
SPARKS, MELTED = "there are sparks coming from my dryer plug", "the outlet behind my dryer melted"
ALARM = ("DANGER", "WARNING", "PELIGRO", "ADVERTENCIA")


@pytest.mark.parametrize(
    ("first", "answer", "said"),
    [
        (GAS, "yeah we're outside, called the gas company they say its off now. it was only a small smell", "Stay out"),
        (GAS, "everyone is out and i called 911, its only a small smell", "Stay out"),
        (GAS_ES, "ya estamos afuera y le hablé al gas, era solo un olorcito", "No vuelvan a entrar"),
        (SPARKS, "no fire just sparks… its unplugged now", "A person takes it"),
        (SPARKS, "flipped the breaker", "A person takes it"),
        (MELTED, "ya lo apague. nobody is hurt", "person"),
        (MELTED, "ya lo desenchufé y estamos bien", "persona"),
        ("my washer shocked me", "breaker is off and im fine", "A person takes it"),
    ],
)
def test_an_answer_ends_it_and_nothing_told_later_brings_the_alarm_again(first: str, answer: str, said: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    assert said in line.said
    assert not line.said.startswith(ALARM)
    for text in ("can u come today porfa", "418 Maple St, Albuquerque 87106", "it was only a little bit"):
        line.text(text)
        assert not line.said.startswith(ALARM)


def test_told_how_it_was_long_after_is_no_alarm_but_told_as_back_is_one() -> None:
    line = Line()
    line.text(SPARKS)
    line.text("its unplugged now")
    line.now += timedelta(minutes=25)
    line.text("it was sparking from the plug")
    assert not line.said.startswith(ALARM)
    line.text("its sparking again")
    assert line.last.replies[0].kind == "danger"
    assert line.last.replies[0].text.startswith("WARNING")


@pytest.mark.parametrize(
    ("first", "answer", "then"),
    [
        (GAS, "we are out and called 911", "it smells again"),
        (GAS, "we are out and called 911", "i went back in and it smells like gas"),
        (GAS, "we are out and called 911", "it smells worse now"),
        (GAS_ES, "ya salimos y llamamos al 911", "ahora huele otra vez"),
        (GAS_ES, "ya salimos y llamamos al 911", "huele más fuerte"),
        (SPARKS, "unplugged it", "now theres smoke"),
        (SPARKS, "unplugged it", "my hand is burned"),
    ],
)
def test_back_worse_or_new_is_told_at_once(first: str, answer: str, then: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    line.text(then)
    assert line.last.replies[0].kind == "danger"
    assert line.last.replies[0].text.startswith(ALARM)


@pytest.mark.parametrize(
    ("first", "answer"),
    [
        (SPARKS, "i havent unplugged it"),
        (SPARKS, "should i have it unplugged?"),
        (SPARKS, "its unplugged and still sparking"),
        (SPARKS, "i unplugged it and its sparking"),
        (MELTED, "no la desenchufé"),
        ("my washer shocked me", "breaker is off"),
        (GAS, "we are all out and called the gas co. it smells worse now"),
        (GAS, "were out but my husband is inside, called 911"),
    ],
)
def test_what_is_not_done_or_goes_on_is_asked_about(first: str, answer: str) -> None:
    line = Line()
    line.text(first)
    line.text(answer)
    assert "Thank you" not in line.said
    assert "Stay out" not in line.said
    assert "?" in line.said or line.said.startswith(ALARM)
