"""What an owner check found, where that is the fault itself: kept for the technician, and a visit arranged."""

from __future__ import annotations

import pytest

from service.conversation.state import Asked
from tests.journeys.line import Line


def at_the_seal() -> Line:
    line = Line()
    line.text("my fridge isnt very cold and runs all day")
    line.text("87110")
    ticket = line.ticket.model_copy(update={"stage": "trying", "checks": {"wipe_gasket": "offered"}})
    asked = Asked(kind="check_result", ticket=ticket.key, code="wipe_gasket", at=line.now, edition="e")
    line.state = line.state.model_copy(update={"tickets": (ticket,), "asked": asked})
    return line


@pytest.mark.parametrize(
    "text",
    [
        "gasket has a tear in it",
        "no its ripped at the corner",
        "its torn",
        "the seal is cracked all along the bottom",
        "yes, the rubber is cracked",
        "found a hole in the seal",
        "el empaque tiene una rotura",
        "esta rajado de abajo",
        "no, el empaque esta roto",
        "tiene un hoyo el empaque",
    ],
)
def test_a_fault_that_was_found_leads_to_the_visit(text: str) -> None:
    line = at_the_seal()
    line.text(text)
    assert line.ticket.stage == "arranging"
    assert line.ticket.checks == {"wipe_gasket": "not_fixed"}
    assert text in line.ticket.words
    assert line.ticket.theory_words
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"


@pytest.mark.parametrize(
    "text", ["seal is not torn, still warm", "i dont see any cracks", "no esta roto", "sin roturas"]
)
def test_what_was_not_found_is_no_fault(text: str) -> None:
    line = at_the_seal()
    line.text(text)
    assert not line.ticket.just_send


def test_torn_but_it_works_is_settled() -> None:
    line = at_the_seal()
    line.text("its torn but works now")
    assert line.ticket.closed == "settled_by_owner"
