"""A danger told in words that customers mostly use of none is asked about first; a yes, or not knowing, counts as one."""

from __future__ import annotations

import pytest

from service.conversation.state import State
from tests.journeys.line import Line

MESQUITE = "we burn mesquite in the wood stove so yes youll smell smoke, come on in. fridge is too warm, freezer ok"
ASADA = "los del piso de arriba estan asando carne en el balcon y todo el humo para aca. mi lavaplatos deja los trastes mojados"


def doubtful(text: str = MESQUITE) -> Line:
    line = Line()
    line.text(text)
    assert line.state.danger is None
    assert line.state.asked is not None
    assert (line.state.asked.kind, line.state.asked.code) == ("yes_no", "smoke")
    return line


@pytest.mark.parametrize("text", [MESQUITE, ASADA])
def test_it_is_asked_before_anything_else_and_the_complaint_is_kept(text: str) -> None:
    line = doubtful(text)
    assert len(line.state.tickets) == 1
    assert not line.ticket.hazards
    assert any(reason.rule == "smoke" and reason.what == "asked" for reason in line.last.reasons)


@pytest.mark.parametrize("answer", ["no", "nope just the wood stove", "no, nada de eso"])
def test_a_no_goes_on_with_the_complaint(answer: str) -> None:
    line = doubtful()
    line.text(answer)
    assert line.state.danger is None
    assert line.state.asked is None or line.state.asked.code != "smoke"
    assert line.ticket.appliance == "refrigerator"


@pytest.mark.parametrize("answer", ["yes", "not sure", "sí, del refri", "i think so", "no idea honestly"])
def test_a_yes_and_not_knowing_are_a_danger(answer: str) -> None:
    line = doubtful()
    line.text(answer)
    assert line.state.danger is not None
    assert line.state.danger.codes == ("smoke",)
    assert line.last.replies[0].kind == "danger"
    assert any(alarm.kind == "danger" for alarm in line.last.alarms)


def test_what_is_no_answer_is_asked_again_and_then_left_to_a_person() -> None:
    line = doubtful()
    line.text("what do you mean")
    assert line.state.asked is not None
    assert line.state.asked.code == "smoke"
    line.text("what do you mean by that")
    assert line.ticket.needs_person is not None
    assert "smoke" in line.ticket.needs_person


def test_a_danger_told_instead_of_an_answer_is_one() -> None:
    line = doubtful()
    line.text("wait theres sparks coming out of the outlet behind the fridge")
    assert line.state.danger is not None
    assert "sparks" in line.state.danger.codes


def test_where_it_cannot_be_asked_it_is_taken_for_one() -> None:
    line = Line(state=State(consent="out"))
    line.text(MESQUITE)
    assert line.state.danger is not None


def test_who_said_no_is_not_asked_again_on_the_same_ticket() -> None:
    line = doubtful()
    line.text("no")
    line.text(MESQUITE)
    assert line.state.danger is None
    assert line.state.asked is None or line.state.asked.code != "smoke"


def test_with_no_machine_told_it_is_asked_too() -> None:
    line = doubtful("los del piso de arriba estan asando carne en el balcon y todo el humo para aca, ustedes ni caso")
    assert line.state.tickets == ()
    line.text("no")
    assert line.state.danger is None
    assert line.state.asked is not None
    assert line.state.asked.kind == "appliance"


def test_the_office_sees_it_at_once_for_nobody_may_answer() -> None:
    (alarm,) = doubtful().alarms
    assert (alarm.kind, alarm.on_call) == ("person", False)
    assert "smoke" in alarm.text
