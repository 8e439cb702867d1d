"""What people say they did about a danger is heard: all out, gas shut, help called or there; then no instruction again."""

from __future__ import annotations

import pytest

from tests.journeys.line import told

GAS, GAS_ES = "I smell gas by the stove", "huele a gas en la cocina"
FIRE, FIRE_ES = "my dryer is on fire", "se está quemando la secadora, hay llamas"
ALARM_CO, SMOKE = "my co alarm is going off and the gas oven is on", "smoke is coming out of the dishwasher"
SIGNALS = ("DANGER", "WARNING", "PELIGRO", "ADVERTENCIA")


@pytest.mark.parametrize(
    ("first", "answer"),
    [
        (GAS, "ok we are outside. fire dept came and shut the valve. what now"),
        (GAS, "firefighters are here, everybody got out"),
        (GAS, "we're out on the sidewalk, the gas company is here checking"),
        (GAS, "yes everyone is out, 911 came already"),
        (GAS, "the fire department just left, they turned the gas off at the meter. can we go back in?"),
        (GAS, "all of us are outside and the gas guy shut off the meter"),
        (GAS_ES, "ya estamos afuera, vinieron los bomberos y cerraron la llave. y ahora que hago"),
        (GAS_ES, "ya llegaron los del gas, todos estamos en la banqueta"),
        (GAS_ES, "aqui estan los bomberos, ya cerraron el gas"),
        (FIRE, "fire department came and put it out, we are all outside"),
        (FIRE, "the firemen are here now, everyones out"),
        (FIRE_ES, "ya vinieron los bomberos y lo apagaron, estamos afuera"),
        (ALARM_CO, "fire dept is here, we are all out in the yard"),
        (SMOKE, "everyone is out, fire department is here"),
        (SMOKE, "firefighters came and checked it, no fire"),
    ],
)
def test_who_tells_that_help_is_there_is_thanked_and_told_to_stay_out_and_what_comes_next(
    first: str, answer: str
) -> None:
    line = told(first, answer)
    assert not any(reply.text.startswith(SIGNALS) for reply in line.last.replies)
    assert line.said.startswith(("Thank you. Stay out until those who came", "Gracias. Quédense afuera"))
    assert line.state.danger is not None, "only a person clears it"
    if first in (GAS, GAS_ES):
        assert "licen" in line.said
    assert line.ticket.hazards == told(first).ticket.hazards, "those who came are no danger of their own"


def test_gas_shut_and_no_fire_and_all_out_told_one_after_another_are_each_heard() -> None:
    line = told(GAS, "no there is no fire. gas is off at the meter")
    assert line.said == "Is everyone out, and have you called 911 or the gas company?"
    line.text("yes everyone is out, 911 came already")
    assert line.said.startswith("Thank you. Stay out")
    line.text("no there is no fire. gas is off at the meter")
    assert not line.said.startswith(SIGNALS)


@pytest.mark.parametrize(
    "answer",
    [
        "yes everyone is out and we called 911, no fire just the smell",
        "everyone's out. 911 is on the way. should i do anything else?",
        "si, todos afuera y ya llame al 911, no hay fuego",
        "we all got out and my wife is on the phone with the fire department",
    ],
)
def test_out_and_called_is_heard_beside_a_denied_fire_or_a_question(answer: str) -> None:
    line = told(GAS, "ok", answer)
    assert not line.said.startswith(SIGNALS)
    assert "Stay out" in line.said or "No vuelvan a entrar" in line.said


def test_they_come_later_and_are_told_of_once() -> None:
    line = told(GAS, "we are out and called 911", "fire dept is here now")
    assert line.said.startswith("Thank you. Stay out until those who came")
    line.text("fire dept is here now with the gas company")
    assert "Thank you" not in line.said


@pytest.mark.parametrize(
    ("first", "answer"),
    [
        (GAS, "fire dept came but it smells again"),
        (GAS, "should i call the fire department?"),
        (GAS, "fire department hasnt come and my mom is still inside"),
        (GAS, "fire dept is here but my dad wont leave, hes inside"),
        (GAS, "i will call the gas company later, we are inside"),
        (GAS, "we are outside, the fire dept never came and nobody called"),
        (GAS_ES, "no han llegado los bomberos y mi mama esta adentro"),
        (GAS, "we arent outside"),
    ],
)
def test_what_is_not_done_or_back_is_told_again_source_h1(first: str, answer: str) -> None:
    line = told(first, answer)
    assert "Thank you" not in line.said
    assert "Stay out" not in line.said
    assert line.said.startswith(SIGNALS) or "?" in line.said


def test_a_fire_told_beside_those_who_came_is_a_fire() -> None:
    line = told(GAS, "fire dept came and now the stove is on fire")
    assert line.last.replies[0].text.startswith("DANGER")
    assert "fire" in line.ticket.hazards
