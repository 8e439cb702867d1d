"""Plain answers and what is none, through the real signed webhook, on each database."""

from __future__ import annotations

from tests.journeys.served import ServedLine


def test_hurried_in_spanish_from_the_fault_to_the_visit(line: ServedLine) -> None:
    line.text("la lavadora no exprime, que vengan cuando puedan")
    line.text("87106")
    line.text("no sé")
    assert line.focus.observations == {}
    line.text("juniper 412")
    assert line.focus.stage == "arranging"
    line.text("1")
    assert len(line.visits) == 1
    line.text("Rosa")
    line.text("no")
    assert line.text("ok") == []


def test_put_off_taken_up_again_and_answered_plainly(line: ServedLine) -> None:
    line.text("my washer shakes like crazy")
    line.text("cant today")
    assert line.focus.observations == {}
    said = line.text("hi again")
    assert any("?" in text for text in said)
