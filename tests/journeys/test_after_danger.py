"""After a danger was told: the core again for what does not follow it, never mute on a question, and no to "may I use it"."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.journeys.line import Line, told


@pytest.mark.parametrize(
    "texts",
    [
        ("smells like gas at the stove", "its fine now i opened a window, when can you come"),
        ("smells like gas at the stove", "its gas yes", "what do i do"),
        ("smells like gas at the stove", "ok", "not calling 911 lol its just the burner"),
        ("co alarm going off and i was using the gas oven", "yes", "now what"),
        ("my stove smells like gas", "ok", "how much is it"),
        ("la estufa huele a gas", "sí es gas", "qué hago"),
        ("la estufa huele a gas", "ok", "no voy a llamar, es solo la hornilla"),
    ],
)
def test_what_is_no_plain_out_and_called_gets_the_core_again_and_no_thanks_source_h1_h3(texts: tuple[str, ...]) -> None:
    line = told(*texts)
    assert line.said.startswith(("DANGER: Get everyone out", "PELIGRO: Salgan todos"))
    assert "911" in line.said
    assert "Thank" not in line.said
    assert "Gracias" not in line.said
    assert line.last.replies[0].kind == "danger"
    assert len([a for a in line.alarms if a.kind == "person"]) <= 1


def test_the_core_is_said_twice_at_most_then_who_has_it_and_a_price_question_still_gets_it_first() -> None:
    line = told("smells like gas at the stove", "its nothing", "nah not leaving", "its just the burner")
    assert "Get everyone out" not in line.said
    assert "505-555-0101" in line.said
    assert line.text("how much to fix it")[0].startswith("DANGER: Get everyone out")
    assert "$" in line.said


@pytest.mark.parametrize(
    ("answer", "said"),
    [
        ("yes", "Stay out"), ("yes everyone is out and gas company is coming", "Stay out"),
        ("we are out, called 911", "Stay out"), ("yes but im still inside", "Get everyone out"),
        ("yes i turned it off", "Get everyone out"), ("i havent called 911 yet", "Get everyone out"),
        ("were all out but not calling anyone", "Get everyone out"),
    ],
)  # fmt: skip
def test_only_a_plain_yes_ends_the_reminders(answer: str, said: str) -> None:
    line = told("smells like gas at the stove", "ok", answer)
    assert said in line.said


def test_out_and_called_in_spanish_raises_no_other_danger() -> None:
    line = told("la estufa huele a gas", "ya salimos y llamamos al 911")
    assert line.ticket.hazards == ("gas_smell",)
    assert "No vuelvan a entrar" in line.said


def test_a_smell_told_again_after_out_and_called_gets_the_core_again() -> None:
    line = told("smells like gas at the stove", "ok", "yes", "i went back in and it smells like gas")
    assert line.said.startswith("DANGER: Get everyone out")


def test_sparks_told_and_answered_then_price_hello_and_tomorrow_all_get_an_answer() -> None:
    line = told("microwave sparking", "theres nothing metal in it", "no i turned it off")
    alarms = len(line.alarms)
    said = [
        line.text(t)[0] for t in ("how much to fix it", "hello??", "can someone come tomorrow", "hello??", "hello??")
    ]
    assert "$" in said[0]
    assert "505-555-0101" in said[1]
    assert said[2].startswith("Noted")
    assert all(a != b for a, b in pairwise(said))
    assert len(line.alarms) == alarms
    assert line.visits == {}


def test_after_a_flood_zip_and_street_are_taken_and_the_office_sets_the_time() -> None:
    line = told("washer leaking all over the floor", "from under", "water everywhere help", "turned off the water")
    line.text("87110")
    assert "address" in line.said
    line.text("55 cedar")
    assert "office" in line.said
    assert line.text("asap")
    assert (line.state.contact.postal_code, line.state.contact.address) == ("87110", "55 cedar")
    assert line.ticket.wish is not None
    assert line.visits == {}


def test_after_a_shock_when_are_you_coming_gets_who_has_it() -> None:
    line = told("kid got shocked touching the dishwasher", "hes ok", "what now")
    assert line.said.startswith("WARNING:")
    assert "Thank you" in line.text("yes breaker off")[0]
    assert "505-555-0101" in line.text("when are you coming")[0]
    assert line.text("thanks") == []


def test_a_price_asked_after_something_noted_is_answered() -> None:
    line = told("smells like gas at the stove", "ok", "yes", "87110")
    assert line.said == "Noted for the office."
    assert "$" in line.text("how much is it")[0]


def test_a_zip_out_of_the_area_is_said_once_and_the_ticket_stays_with_the_person() -> None:
    line = told("microwave sparking", "ok", "yes", "90210")
    assert "outside the area" in line.said
    assert line.ticket.open
    assert line.state.danger is not None


def test_a_cracked_glass_told_second_is_warned_of_at_once_and_may_i_use_it_is_no_and_why() -> None:
    line = told("glass cooktop one burner dead", "electric. back right", "also the glass is cracked near it")
    assert line.said.startswith("WARNING: Please do not use it. Cracked glass")
    line.text("still using the others is that ok")
    assert line.said.startswith("WARNING: No")
    assert "Cracked glass" in line.said
    line.text("87110")
    line.talk({"address": "1450 Rio Grande Blvd NW"}, until="offer")
    line.text("1")
    assert "Until we come: do not use the cooktop." in line.said


@pytest.mark.parametrize(
    ("first", "question", "no"),
    [
        ("dryer gets way too hot to touch", "can i still use it", "WARNING: No"),
        ("la puerta del microondas no cierra bien", "lo puedo usar?", "ADVERTENCIA: No"),
        ("microwave sparking", "ok", "Is it off"),
    ],
)
def test_may_it_be_used_is_answered_on_every_machine(first: str, question: str, no: str) -> None:
    line = told(first, question)
    assert no in line.said


def test_a_gas_smell_that_the_gas_company_cleared_goes_on_as_a_complaint() -> None:
    line = told("i smelled gas yesterday but gas company came and said its fine, burner still wont light")
    assert line.state.danger is None
    assert line.alarms == []
    assert line.state.asked is not None


def test_the_gas_company_has_been_there_while_the_danger_is_held() -> None:
    line = told("smells like gas at the stove", "ok", "gas company came and said its fine")
    assert "checked" in line.said
    assert line.state.danger is not None, "only a person clears it"
    assert line.state.asked is not None
    assert line.state.asked.kind == "postal_code"


@pytest.mark.parametrize(
    ("fault", "asks", "said"),
    [
        ("gas stovetop, flame is yellow and sooty on all burners", "is that dangerous", "WARNING: It can be."),
        ("la puerta del microondas no cierra bien", "es peligroso?", "ADVERTENCIA: Puede serlo."),
    ],
)
def test_whether_it_is_dangerous_is_not_answered_with_no(fault: str, asks: str, said: str) -> None:
    line = Line()
    line.text(fault)
    replies = " ".join(line.text(asks))
    assert said in replies
    assert ": No" not in replies
