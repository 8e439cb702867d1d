"""What customers ask of the shop itself, a machine in a business, a visit that is not there, and nothing said twice."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def booked() -> Line:
    line = Line()
    line.text("washer wont spin 87109, send someone")
    line.text("nothing")
    if line.state.asked is not None and line.state.asked.kind != "address":
        line.text("just send someone")
    line.text("211 Garrow se apt 12")
    line.text("1")
    assert line.ticket.visit is not None
    return line


@pytest.mark.parametrize(
    "words",
    [
        "do you take venmo",
        "can i pay cash",
        "en efectivo",
        "do you have parts for norvell",
        "how long does it take to fix",
        "aceptan tarjeta?",
        "cuánto tardan en arreglarla",
    ],
)
@pytest.mark.parametrize("name", [None, "Rosa Vega"])
def test_what_only_the_office_knows_is_left_to_it_and_answers_nothing_else(words: str, name: str | None) -> None:
    line = booked()
    if name:
        line.text(name)
    before, asked = line.state.contact, line.state.asked
    said = " ".join(line.text(words))
    assert "office answers that" in said or "contesta la oficina" in said
    assert line.state.contact == before
    assert line.state.asked is not None
    assert asked is not None
    assert line.state.asked.kind == asked.kind
    assert (line.ticket.needs_person or "").startswith("asks what the office answers")


@pytest.mark.parametrize(
    "words", ["is it gonna be more than 200", "will it be over $300?", "me va a salir en mas de 200?"]
)
def test_a_sum_asked_about_gets_the_fee_that_the_file_states(words: str) -> None:
    line = booked()
    assert "$89" in " ".join(line.text(words))


@pytest.mark.parametrize("words", ["roommate home not me. hes 17 is that ok", "mi hijo va a estar en casa, tiene 16"])
def test_who_is_under_age_at_home_is_told_that_an_adult_must_be(words: str) -> None:
    line = booked()
    said = " ".join(line.text(words))
    assert "adult must be home" in said or "adulto" in said


@pytest.mark.parametrize(
    "words", ["quiero cambiar mi cita", "i need to move my appointment", "can we reschedule my visit"]
)
def test_a_visit_that_is_not_there_is_said_not_to_be(words: str) -> None:
    line = Line()
    said = " ".join(line.text(words))
    assert "find no visit" in said or "ninguna visita" in said
    said = " ".join(line.text("la del martes" if "visita" in said else "the tuesday one"))
    assert "Which appliance" not in said
    assert "qué aparato" not in said


def test_money_back_goes_to_a_person_and_the_number_is_noted() -> None:
    line = Line()
    line.text("u guys came last week and its worse, want my money back")
    assert line.alarms
    assert "Got the phone number" in " ".join(line.text("call me 505 555 0199"))
    assert line.state.contact.phone == "+15055550199"


@pytest.mark.parametrize(
    ("words", "home"),
    [
        ("tengo un restaurante y el lavaplatos de la casa tira agua", "es el de mi casa"),
        ("i own a restaurant and my dishwasher at home leaks", "at home"),
        ("i run a motel, washer at my house wont spin", "1"),
    ],
)
def test_home_and_business_both_named_are_asked_about_once(words: str, home: str) -> None:
    line = Line()
    line.text(words)
    assert line.state.asked is not None
    assert line.state.asked.code == "use"
    line.text(home)
    assert line.ticket.open
    assert line.state.asked is not None
    assert line.state.asked.code != "use"


def test_the_machine_of_the_business_is_turned_away_after_the_question() -> None:
    line = Line()
    line.text("i own a restaurant and have a dishwasher at home too, dishwasher leaks")
    assert "not in a business" in " ".join(line.text("the restaurant one"))
    assert line.ticket.closed == "not_ours"


def test_a_business_is_told_plainly_and_the_next_machine_is_asked_about() -> None:
    line = Line()
    said = " ".join(line.text("we r a restaurant our walk in cooler is at 55 need someone NOW"))
    assert "not in a business" in said
    assert "home-repair" not in said
    line.text("also the dishwasher leaks")
    assert line.state.asked is not None
    assert line.state.asked.code == "use"


def test_who_says_that_it_is_at_home_after_all_is_taken_up_again() -> None:
    line = Line()
    line.text("my cafe dishwasher leaks")
    assert line.ticket.closed == "not_ours"
    line.text("no its the one at my house")
    assert line.ticket.open


def test_two_machines_outside_the_area_are_told_so_once() -> None:
    line = Line()
    said = " ".join(line.text("washer wont spin, dryer wont heat, zip 90210"))
    assert said.count("outside the area") == 1
