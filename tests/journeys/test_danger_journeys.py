"""Danger in whole conversations: stop, breaker, person; nobody is left mute; both languages; understatement."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def test_burning_smell_and_brown_plug_the_third_conversation() -> None:
    line = Line()
    first = line.text("dryer stopped and there is a hot plastic smell and the plug looks brown")
    assert first[0].startswith("WARNING:")
    assert "911" in first[0]
    assert "breaker" in first[0]
    assert "Tarnwick" not in first[0]
    assert line.ticket.level == "now"
    assert [a.kind for a in line.alarms] == ["danger"]
    assert line.alarms[0].on_call
    line.text("ok breaker is off")
    assert line.said.startswith("Thank you. A person")
    assert "breaker" not in line.said
    line.text("yes everyone is fine")
    assert "505-555-0101" in line.text("so what now")[0]
    assert [a.kind for a in line.alarms] == ["danger", "person"]
    assert line.visits == {}
    assert line.ticket.checks == {}


def test_burning_smell_in_the_middle_of_an_owner_check_ends_it() -> None:
    line = Line()
    line.text("dishwasher leaves grit on the dishes")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    line.text("now it smells like burning")
    assert line.last.replies[0].kind == "danger"
    assert line.state.asked is None
    assert line.ticket.unsafe


@pytest.mark.parametrize(
    "text",
    [
        "dishwasher is leaking and the water is almost at the outlet",
        "there is water around the plug of the dishwasher",
    ],
)
def test_water_near_an_outlet_stops_everything_and_never_says_unplug_source_h6(text: str) -> None:
    line = Line()
    first = line.text(text)
    assert line.last.replies[0].kind == "danger"
    assert first[0].startswith("DANGER:")
    assert "nplug" not in first[0]
    assert "water_near_power" in line.ticket.hazards


def test_water_near_an_outlet_in_spanish() -> None:
    line = Line()
    first = line.text("el lavaplatos tira agua y está llegando al enchufe")
    assert first[0].startswith("PELIGRO:")
    assert line.state.language == "es"
    assert line.ticket.level == "now"


def test_burning_smell_in_spanish() -> None:
    line = Line()
    first = line.text("la secadora huele a quemado")
    assert first[0].startswith(("ADVERTENCIA:", "PELIGRO:"))
    line.text("ya bajé el breaker")
    assert "persona" in line.said
    line.text("sí, todos bien")
    assert "505-555-0101" in line.text("y ahora?")[0]


def test_gas_is_told_to_leave_first_source_h1() -> None:
    line = Line()
    first = line.text("I smell gas near the stove")
    assert first[0].startswith("DANGER: Leave")
    assert "911" in first[0]
    assert "gas company" in first[0]
    assert "?" not in first[0]


def test_three_texts_for_one_danger_are_one_turn_and_a_no_in_one_does_not_deny_the_next() -> None:
    line = Line()
    line.text("no", "smell gas", "in the kitchen")
    assert line.last.replies[0].wording == ("danger.gas_smell",)


def test_after_stop_a_danger_is_still_answered() -> None:
    line = Line()
    line.text("STOP")
    assert line.text("dishwasher leaks") == []
    said = line.text("there is smoke coming out of the dishwasher")
    assert len(said) == 1
    assert line.last.replies[0].kind == "danger"


def test_nobody_answers_and_the_office_hears_of_it() -> None:
    line = Line()
    line.text("I smell gas")
    line.wait(minutes=11)
    assert [a.kind for a in line.alarms] == ["danger", "danger"]
    assert line.last.replies == ()


@pytest.mark.parametrize(
    "text",
    [
        "stop texting me. i smell gas",
        "i smell gas stop texting me",
        "huele a gas, ya no me manden mensajes",
        "take me off your list, the dryer is smoking",
    ],
)
def test_who_wants_no_more_texts_is_told_of_the_danger_in_the_same_text(text: str) -> None:
    line = Line()
    line.text(text)
    assert [reply.kind for reply in line.last.replies] == ["danger", "consent"]
    assert line.state.consent == "out"
    assert line.ticket.unsafe
