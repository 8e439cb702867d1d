"""Plain answers to the line's own questions, and what is none: put off, a child's, the address kept, another machine meant."""

from __future__ import annotations

import pytest

from service.conversation.state import State
from service.reading.model import Asked, Choice
from service.reading.readers import reader_for
from tests.journeys.line import demo, told

BOOKED = ("washer wont drain", "87106", "1", "412 Juniper Ave", "1", "tomorrow", "1", "sam", "none")


def answered(appliance: str, code: str, text: str, language: str = "en") -> str | None:
    """What *text* answers to the observation *code*, as the reader gives it."""
    known = demo().appliances[appliance].observations[code]
    choices = tuple(Choice(a.value, a.say.in_(language)) for a in known.answers)
    given = reader_for(demo()).read(text, asked=Asked("observation", appliance, code, choices), about=appliance).answer
    if given is None:
        return None
    return given.value if given.value in known.values else given.kind


@pytest.mark.parametrize(
    ("appliance", "code", "value", "texts"),
    [
        ("washer", "rocks", "yes", ("it wobbles", "yeah a little", "se mueve")),
        ("washer", "rocks", "no", ("solid", "no se mueve", "está firme", "nah its steady")),
        ("washer", "lock_clicks", "yes", ("it clicks", "it does", "sí hace clic")),
        ("washer", "comes_and_goes", "no", ("every time", "siempre es igual", "all the time")),
        ("washer", "water_stands", "yes", ("about an inch", "half full", "le queda como un dedo")),
        ("dryer", "setting", "no", ("its on high", "regular", "en normal")),
        ("dryer", "lint_each_load", "no", ("sometimes", "not always", "tiene un hoyo")),
        ("dryer", "door_click", "no", ("it pops open", "se abre sola")),
        ("dishwasher", "sink_backs_up", "no", ("nah its quiet", "sink is fine", "el fregadero está bien")),
        (
            "dishwasher",
            "new_disposal",
            None,
            ("yes i have a disposal", "sí tengo disposal", "yeah theres one under there"),
        ),
        ("dishwasher", "new_disposal", "yes", ("yes a new one", "yes", "sí, pusieron uno nuevo")),
        ("refrigerator", "dusty", "no", ("its clean", "está limpio")),
        ("refrigerator", "freezer_state", "soft", ("le falta poquito", "its getting soft")),
        ("refrigerator", "noise_stops_open", "no", ("still there", "no se quita", "sigue igual")),
    ],
)
def test_a_plain_answer_is_understood(appliance: str, code: str, value: str | None, texts: tuple[str, ...]) -> None:
    assert [answered(appliance, code, text) for text in texts] == [value] * len(texts)


@pytest.mark.parametrize(
    ("code", "text"), [("compressor_sound", "no sé"), ("compressor_sound", "no sé joven, tengo 80 años")]
)
def test_not_knowing_takes_no_choice_that_begins_alike(code: str, text: str) -> None:
    assert answered("refrigerator", code, text, "es") == "dont_know"


@pytest.mark.parametrize(
    ("text", "value"), [("like 12", "old"), ("15 years", "old"), ("5 or 6", "middle"), ("un año", "new"), ("3", "old")]
)
def test_an_age_answers_by_its_years_and_a_bare_small_number_by_its_place(text: str, value: str) -> None:
    line = told("washer wont spin")
    asked = line.state.asked
    assert asked is not None
    known = demo().appliances["washer"].observations["machine_age"]
    choices = tuple((a.value, a.say.en) for a in known.answers)
    question = asked.model_copy(update={"code": "machine_age", "choices": choices})
    line.state = State.model_validate(line.state.model_copy(update={"asked": question}).model_dump())
    line.text(text)
    assert line.ticket.observations["machine_age"] == value


@pytest.mark.parametrize("text", ["cant today", "later", "im busy right now", "hoy no puedo", "al rato"])
def test_what_is_put_off_is_no_answer_and_is_asked_again(text: str) -> None:
    line = told("washer wont spin", text)
    assert line.ticket.observations == {}
    assert line.state.asked is None
    line.text("ok im back")
    assert line.state.asked is not None


@pytest.mark.parametrize("text", ["whenever", "anytime works", "cuando puedan"])
def test_any_time_asks_for_a_visit(text: str) -> None:
    assert told("washer wont spin", text).ticket.just_send


@pytest.mark.parametrize("text", ["im 9", "im 10 years old", "tengo 10 años", "soy un niño"])
def test_a_child_is_asked_for_an_adult_and_tries_nothing(text: str) -> None:
    line = told("my moms washer is broken", text)
    assert "505-555-0101" in line.said
    line.text("3")
    line.text("87106")
    assert not line.ticket.checks


@pytest.mark.parametrize("text", ["tengo 80 años", "im 84 and i cant get behind it", "im 12 minutes away"])
def test_the_old_are_no_children_and_in_no_danger(text: str) -> None:
    line = told("dryer wont heat", "electric", "87106", text)
    assert "adult" not in line.said
    assert not line.ticket.hazards


@pytest.mark.parametrize("text", ["i dont give my address over text", "no doy mi dirección por mensaje"])
def test_who_keeps_the_address_is_told_of_the_phone_and_not_asked_for_it(text: str) -> None:
    line = told("freezer not freezing", "87106", text)
    assert "505-555-0101" in line.said
    line.text("just send someone")
    assert line.state.asked is None or line.state.asked.kind != "address"
    assert line.ticket.needs_person


@pytest.mark.parametrize("text", ["juniper 412", "Juniper 412 depto 3", "calle juniper 412", "Los Alamos 1450"])
def test_a_street_is_told_with_its_number_behind(text: str) -> None:
    line = told("la lavadora no exprime", "que vengan", "87106", text)
    assert line.state.contact.address == text


def test_a_flat_takes_no_choice_and_a_day_beside_the_street_is_a_wish() -> None:
    line = told("stove isnt working", "burner", "electric", "87106", "412 juniper ave apt 3")
    assert "weak_flame" not in line.ticket.symptoms
    line = told("fridge not cooling at all", "steady hum", "87106", "412 Juniper Ave, friday am")
    assert "Fri 4 Dec" in line.said


def test_what_the_short_list_tells_is_not_asked_again() -> None:
    line = told("my stove isnt working", "1")
    assert line.ticket.observations["which_part"] == "top"


@pytest.mark.parametrize("text", ["no its the freezer", "i meant the freezer", "no, es el congelador"])
def test_the_freezer_meant_is_asked_about_and_may_stand_alone(text: str) -> None:
    line = told("fridge isnt cold", text)
    assert line.state.asked is not None
    assert line.state.asked.code == "inside"
    line.text("its the one in the garage")
    assert line.ticket.appliance == "freezer"
    assert told("fridge isnt cold", text, "1").ticket.appliance == "refrigerator"


@pytest.mark.parametrize(
    "text", ["forget that the washer is worse, it wont drain", "never mind that, the washer wont drain"]
)
def test_another_machine_instead_is_the_one_that_is_talked_of(text: str) -> None:
    line = told("dishwasher wont start", "87106", text)
    assert line.ticket.appliance == "washer"
    assert line.ticket.open


@pytest.mark.parametrize("text", ["yes its gas", "yeah its white", "sí es nueva"])
def test_a_yes_to_something_else_closes_no_check(text: str) -> None:
    line = told("dryer takes forever to dry", "3", "87106")
    while line.state.asked is not None and line.state.asked.kind != "check_result":
        line.text("idk")
    line.text(text)
    assert line.ticket.open


@pytest.mark.parametrize("text", ["ok", "okay thanks", "great thank you", "gracias", "perfecto"])
def test_a_nod_after_the_booking_needs_no_answer(text: str) -> None:
    line = told(*BOOKED)
    assert line.text(text) == []


@pytest.mark.parametrize("text", ["running late, can u push to 3", "push it back to 3 pls", "muévala a las 3"])
def test_pushed_to_an_hour_it_is_offered_that_day_near_it(text: str) -> None:
    line = told(*BOOKED, text)
    assert "Wed 2 Dec, 3 to 5 pm" in line.said or "mié 2 dic, de 3 a 5 pm" in line.said
    assert "today" not in line.said


@pytest.mark.parametrize("text", ["im running late", "stuck in traffic sorry", "se me hizo tarde"])
def test_who_runs_late_is_for_the_office(text: str) -> None:
    line = told(*BOOKED, text)
    assert line.ticket.needs_person == "runs late for the visit"
    assert line.ticket.visit is not None


@pytest.mark.parametrize("text", ["do i need to be there", "tengo que estar en la casa?"])
def test_whether_somebody_must_be_home_is_answered(text: str) -> None:
    line = told("dryer wont start", "4", text)
    assert "adult" in line.said or "adulto" in line.said
    assert line.state.asked is not None


def test_not_knowing_three_things_is_no_machine() -> None:
    line = told("freezer not freezing", "87106", "idk", "idk", "idk")
    assert line.replies
    assert line.last.replies


def test_what_is_known_already_is_not_called_unreadable() -> None:
    line = told("la secadora no calienta", "ya le dije que no calienta")
    assert "no le entiendo" not in line.said


def test_a_machine_not_to_be_run_is_not_asked_whether_it_heats() -> None:
    line = told("my microwave is sparking inside", "yes its off")
    line.office("clear_danger")
    for _ in range(6):
        line.text("idk")
        asked = line.state.asked
        assert asked is None or asked.kind != "yes_no"


@pytest.mark.parametrize("text", ["can i still use it?", "front loader. can i still use it?", "is it ok to use it"])
def test_asked_whether_a_leaking_machine_may_be_used_it_tells_what_to_leave(text: str) -> None:
    line = told("washer is leaking", "from under", text)
    assert "do not run it" in line.said


def test_some_time_next_week_is_a_wish_while_a_check_is_under_way() -> None:
    line = told("oven door wont close", "87106", "412 juniper ave", "next week sometime")
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"


@pytest.mark.parametrize("text", ["what plug", "where is it", "which one do I look at", "cómo le hago"])
def test_asked_how_a_check_is_done_it_keeps_to_what_can_be_seen_and_asks_again(text: str) -> None:
    line = told("my new disposal wont drain the dishwasher now", text)
    assert ("Do only what you can see" in line.said) or ("Haga solo lo que pueda ver" in line.said)
    assert line.state.asked is not None
    assert line.state.asked.kind == "check_result"
    assert line.ticket.needs_person is not None
