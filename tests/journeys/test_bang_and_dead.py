"""A microwave that banged or popped and died: not to be used, once, beside the question that follows."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize(
    "text",
    [
        "microwave went bang and now its dead",
        "microwave popped and died",
        "microwave made a loud pop and wont turn on now",
        "there was a big bang and the microwave quit",
        "microwave died with a loud bang",
        "el microondas trono y ya no prende",
        "mi micro reventó y se murió",
        "el microondas explotó y ya no hace nada",
    ],
)
def test_it_is_not_to_be_used_and_stays_unplugged_and_is_said_once_source_h14(text: str) -> None:
    line = Line()
    line.text(text)
    if line.state.danger is not None:
        return  # told as sparks, and that instruction says no less
    signal, case = (
        ("CUIDADO", "Nunca abra su caja") if line.state.language == "es" else ("CAUTION", "Never open its case")
    )
    assert f"{signal}: " in line.said
    assert case in line.said
    assert "unplug" in line.said or "descon" in line.said
    line.text("idk" if line.state.language == "en" else "no sé")
    assert case not in line.said


def test_a_question_follows_beside_the_caution_and_the_word_stays_until_the_visit() -> None:
    line = Line()
    line.text("microwave went bang and now its dead")
    assert "CAUTION: Do not use it." in line.said
    assert line.state.asked is not None
    line.talk({"postal_code": "87110", "address": "1450 Rio Grande Blvd NW"}, until="offer")
    line.text("1")
    assert "do not use the microwave" in line.said
    assert line.ticket.checks == {}


@pytest.mark.parametrize(
    "text", ["microwave popped the breaker and now its dead", "the microwave door bangs shut", "microwave is dead"]
)
def test_what_only_sounds_like_it_gets_no_such_word(text: str) -> None:
    line = Line()
    line.text(text)
    assert "CAUTION: Do not use it." not in line.said
