"""A dishwasher and a disposal, from the customer's words to the technician's sheet. Common practice, no source."""

from __future__ import annotations

import pytest

from service.conversation.summary import evidence_of
from service.diagnosis.model import VisitPlan
from service.diagnosis.visit import plan_visit
from tests.journeys.line import Line, demo


def sheet_of(line: Line) -> VisitPlan:
    return plan_visit(demo().appliances["dishwasher"], evidence_of(line.ticket), demo().shop)


@pytest.mark.parametrize(
    "text",
    [
        "nothing drains from the dishwasher since a new disposal was fitted",
        "Nothing drains from the dishwasher since the plumber put in a new garbage disposal last week",
        "they installed a new disposal and now no water drains out of my dishwasher",
        "my dishwasher won't drain at all since we got a new disposal",
        "el lavaplatos no saca nada de agua desde que pusieron el triturador nuevo",
    ],
)
def test_nothing_drains_since_a_new_disposal_so_the_plug_comes_first(text: str) -> None:
    line = Line()
    line.text(text)
    assert line.state.asked is not None
    assert (line.state.asked.kind, line.state.asked.code) == ("check_result", "ask_installer_plug")
    line.text("no, we can't reach him")
    assert sheet_of(line).tests[0].test == "knockout_look"


@pytest.mark.parametrize(
    "text",
    [
        "dishwasher drains to a trickle, no new disposal",
        "my dishwasher just trickles out, takes forever to drain. we have not changed the disposal",
        "water only trickles out of the dishwasher when it drains, it's the same old disposal",
    ],
)
def test_a_trickle_without_a_new_disposal_goes_to_seal_screen_and_line_before_the_pump(text: str) -> None:
    line = Line()
    line.text(text)
    line.talk({"new_disposal": "no"}, until="address")
    plan = sheet_of(line)
    order = [step.test for step in plan.tests]
    assert order[-1] == "condemn_motor_pump"
    assert {"seal_across", "sump_and_screen", "line_through"} < set(order)
    assert {item.part: item.carry for item in plan.load}["drain_valve_seal_kit"]
    assert "ask_installer_plug" not in line.ticket.checks


def after_asking(text: str) -> Line:
    line = Line()
    line.text("my dishwasher won't drain at all since we got a new disposal, 87111")
    line.text(text)
    return line


@pytest.mark.parametrize(
    "text",
    [
        "no he doesn't answer", "called him, no answer", "he won't come back", "went to voicemail", "they refused",
        "can't get ahold of the installer", "we did it ourselves", "my husband put it in", "the guy is out of business",
        "no contesta", "no tengo su número", "lo puso mi esposo",
    ],
)  # fmt: skip
def test_an_installer_who_is_not_reached_says_nothing_against_the_plug(text: str) -> None:
    line = after_asking(text)
    assert line.ticket.checks["ask_installer_plug"] == "unable"
    assert sheet_of(line).tests[0].test == "knockout_look"
    assert line.ticket.closed is None


@pytest.mark.parametrize(
    "text", ["he came, the plug is out, still doesn't drain", "no the plug is out", "no, no change"]
)
def test_a_plug_that_is_out_is_believed(text: str) -> None:
    line = after_asking(text)
    assert line.ticket.checks["ask_installer_plug"] == "not_fixed"
    assert sheet_of(line).belief.share("knockout_plug_in") < 0.5


@pytest.mark.parametrize("text", ["yes it drains now", "he came back and took the plug out, works great now"])
def test_a_plug_that_was_it_closes_the_complaint(text: str) -> None:
    assert after_asking(text).ticket.closed == "settled_by_owner"


def test_a_burner_that_will_not_come_on_is_a_result_and_no_absent_person() -> None:
    line = Line()
    line.text("none of the burners on my gas stove light, 87111")
    line.text("I don't know")
    assert line.state.asked is not None
    assert line.state.asked.code == "other_gas_works"
    line.text("no, the other one won't come on")
    assert line.ticket.checks["other_gas_works"] != "unable"


@pytest.mark.parametrize(
    "text", ["he knocked it out already", "the plug was knocked out last week", "they had knocked out the plug"]
)
def test_a_plug_that_was_knocked_out_is_no_noise_and_no_result_yet(text: str) -> None:
    line = after_asking(text)
    assert "noise" not in line.ticket.symptoms
    assert line.state.asked is not None
    assert line.state.asked.code == "ask_installer_plug"
