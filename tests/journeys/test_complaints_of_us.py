"""Who complains of the shop's own work is with a person, and is not sent back to checks, fees and times."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line

PAID = "your guy was here tuesday charged me 340 and the oven STILL wont heat. i want my money back"
PAGO = "vino su tecnico el martes me cobro 340 y el horno sigue sin calentar. quiero que me devuelvan mi dinero"


@pytest.mark.parametrize(
    ("first", "then"),
    [
        (
            PAID,
            ["no i dont want 20 questions i want him back today for free", "its his job. 87108", "1420 Invented St SE"],
        ),
        (PAGO, ["no quiero preguntas quiero que vuelva gratis", "87108", "1420 Invented St SE"]),
    ],
)
def test_a_complaint_stays_with_the_person_who_has_it(first: str, then: list[str]) -> None:
    line = Line()
    line.text(first)
    assert line.ticket.needs_person is not None
    for text in then:
        said = " ".join(line.text(text))
        assert "$89" not in said
        assert line.state.asked is None or line.state.asked.kind not in (
            "check_result",
            "offer",
            "address",
            "postal_code",
        )
        assert line.ticket.needs_person is not None


def test_a_danger_told_after_a_complaint_is_still_a_danger() -> None:
    line = Line()
    line.text(PAID)
    line.text("and now i smell gas in the kitchen")
    assert line.state.danger is not None


def test_another_machine_is_still_taken_up() -> None:
    line = Line()
    line.text(PAID)
    line.text("also my washer wont spin")
    assert {t.appliance for t in line.state.tickets} >= {"washer"}
    assert line.state.asked is not None
