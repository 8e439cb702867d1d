"""Hurried customers: short answers, corrections, questions back, another time, and what the line makes of them."""

from __future__ import annotations

import pytest

from tests.journeys.line import told

BOOKED = ("washer wont drain", "87106", "1", "412 Juniper Ave", "1", "tomorrow", "1")


@pytest.mark.parametrize(
    "text", ["actually can we do friday", "could it be friday", "wait can you do friday", "fri instead"]
)
def test_another_day_right_after_the_booking_is_offered(text: str) -> None:
    line = told(*BOOKED)
    assert line.visits
    line.text(text)
    assert "1 Fri 4 Dec" in line.said


@pytest.mark.parametrize("text", ["is 3pm ok instead", "would 3pm work", "can you make it 3pm"])
def test_another_hour_is_sought_on_the_day_of_the_visit(text: str) -> None:
    line = told(*BOOKED, "sam", "none", text)
    assert "Wed 2 Dec, 3 to 5 pm" in line.said


@pytest.mark.parametrize("text", ["asap", "morning", "hows tomorrow", "actually can we do friday", "what about friday"])
def test_a_time_instead_of_an_answer_asks_for_a_visit(text: str) -> None:
    line = told("dryer wont start", "4", "87106", text)
    assert line.ticket.just_send
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"


def test_a_day_named_while_a_check_is_under_way_asks_for_a_visit() -> None:
    line = told("dryer takes forever", "3", "87106")
    while line.state.asked is not None and line.state.asked.kind != "check_result":
        line.text("idk")
    line.text("hows tomorrow")
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"


@pytest.mark.parametrize("text", ["no", "nope", "yes"])
def test_no_is_no_machine_of_its_own(text: str) -> None:
    line = told("ice maker quit", text)
    assert line.ticket.open
    assert "don't work on" not in line.said


@pytest.mark.parametrize("text", ["who is this", "whos this?", "who dis", "quién es"])
def test_who_asks_who_writes_keeps_the_complaint(text: str) -> None:
    line = told("dryer wont start", "4", text)
    assert line.ticket.open
    assert line.state.asked is not None
    assert line.state.asked.kind == "postal_code"


def test_a_wrong_number_is_still_one() -> None:
    assert not told("dryer wont start", "4", "who is this? wrong number").ticket.open


@pytest.mark.parametrize(
    ("texts", "says"),
    [
        (("dryer wont start", "4", "why do u need that"), "whether we come to you"),
        (("dryer wont start", "why"), "what may be wrong"),
        (("dryer wont start", "huh"), "If you can't tell"),
        (("dryer wont start", "what do u mean"), "If you can't tell"),
        (("la secadora no prende", "para qué"), "qué puede tener"),
    ],
)
def test_a_question_back_is_answered_and_the_open_one_put_again(texts: tuple[str, ...], says: str) -> None:
    line = told(*texts)
    assert says in line.said
    assert "$89" not in line.said
    assert line.state.asked is not None
    assert line.state.asked.tries == 2


@pytest.mark.parametrize(
    ("texts", "says"),
    [
        (("dryer wont start", "4", "do you take cards"), "The office answers that"),
        (("dryer wont start", "4", "how long does the visit take"), "The office answers that"),
        (("la secadora no prende", "cuanto tarda la visita"), "Eso lo contesta la oficina"),
    ],
)
def test_a_question_for_the_office_is_no_failed_answer_to_the_open_one(texts: tuple[str, ...], says: str) -> None:
    before, line = told(*texts[:-1]), told(*texts)
    assert says in line.said
    assert "$89" not in line.said
    assert before.state.asked is not None
    assert line.state.asked is not None
    assert (line.state.asked.code, line.state.asked.tries) == (before.state.asked.code, before.state.asked.tries)


@pytest.mark.parametrize("text", ["when can you come", "how long til someone comes", "can u come"])
def test_asked_to_come_answers_no_question_about_the_machine(text: str) -> None:
    assert told("washer wont drain", text).ticket.observations == {}


@pytest.mark.parametrize(
    ("texts", "appliance"),
    [
        (("washer wont spin", "idk", "sorry its the dryer, wont spin"), "dryer"),
        (("dishwasher wont drain", "wait no washer"), "washer"),
        (("my washer leaks", "no the dryer"), "dryer"),
        (("dishwasher wont drain", "washer not dishwasher"), "washer"),
        (("la lavadora no exprime", "perdon es la secadora"), "dryer"),
        (("my washer leaks", "no the dryer is fine"), "washer"),
        (("my washer leaks", "no dryer"), "washer"),
    ],
)
def test_another_machine_in_its_place(texts: tuple[str, ...], appliance: str) -> None:
    line = told(*texts)
    assert [t.appliance for t in line.state.tickets] == [appliance]


@pytest.mark.parametrize(
    ("texts", "observations"),
    [
        (("range hood fan dead", "light works"), {"lamp_works": "yes"}),
        (("fridge noisy", "buzzing", "from back"), {"noise_kind": "hum"}),
        (("stove oven temp way off", "87106"), {"which_part": "oven"}),
        (("cooktop half works", "electric glass"), {}),
    ],
)
def test_only_what_is_told_is_noted(texts: tuple[str, ...], observations: dict[str, str]) -> None:
    line = told(*texts)
    assert line.ticket.observations == observations
    assert not line.ticket.one_of


@pytest.mark.parametrize("text", ["bout 2 days", "3 days", "like a week"])
def test_how_long_it_has_been_so_is_no_riddle(text: str) -> None:
    line = told("fridge warm", text)
    assert line.ticket.facts["since"] == text
    assert "make that out" not in line.said


@pytest.mark.parametrize("text", ["skip", "skip it"])
def test_a_question_may_be_skipped(text: str) -> None:
    line = told("dryer wont start", text)
    assert line.ticket.declined == ("start_sound",)


@pytest.mark.parametrize("text", ["landlord will let you in", "my landlord can open up"])
def test_who_opens_does_not_pay(text: str) -> None:
    assert told(*BOOKED, "sam", text).state.contact.payer is None


def test_a_question_is_no_result_of_a_check() -> None:
    line = told("washer wont drain", "87106", "1", "top")
    assert line.state.asked is not None
    assert line.state.asked.kind == "check_result"
    check = line.state.asked.code or ""
    line.text("can i still use it")
    assert line.ticket.checks[check] == "offered"
    assert "for a person" in line.said


@pytest.mark.parametrize("text", ["no i dont want to mess with it", "im not touching it", "no quiero moverle"])
def test_who_will_touch_nothing_is_offered_no_check(text: str) -> None:
    line = told("my wall oven says f3", "idk", "87106", text, "12 Pine St")
    assert line.ticket.checks == {}
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"


def test_come_now_wants_somebody_to_come() -> None:
    assert told("freezer wont freeze", "come now").ticket.just_send
