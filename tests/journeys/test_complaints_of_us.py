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


@pytest.mark.parametrize(
    "text",
    [
        "i want my money back, your guy was here and the fridge is still warm, i want to talk to a person TODAY",
        "fridge still not cold. let me talk to a real person, this is ridiculous",
        "quiero hablar con una persona hoy, ya estoy harto, el refri sigue sin enfriar",
        "quiero hablar con alguien, que me devuelvan mi dinero, el refri no enfria",
    ],
)
def test_who_asks_for_a_person_in_anger_is_told_sorry_and_sent_to_no_check(text: str) -> None:
    line = Line()
    line.text(text)
    assert "Sorry for the trouble" in line.said or "Lamentamos la molestia" in line.said
    for then in ("the fridge is warm, freezer ok", "87110", "no frost", "idk", "no"):
        line.text(then)
        assert line.state.asked is None or line.state.asked.kind != "check_result"
    assert all(not ticket.checks for ticket in line.state.tickets)
