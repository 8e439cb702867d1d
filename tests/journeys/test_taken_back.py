"""A machine taken back: its complaint is closed, and the talk goes on with what is left."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def both(first: str) -> Line:
    line = Line()
    line.text(first)
    assert [t.appliance for t in line.state.tickets] == ["washer", "dryer"]
    return line


@pytest.mark.parametrize(
    "text",
    [
        "no the dryer is fine its just the washer",
        "nvm the dryer its working fine its only the washer",
        "actually dryer is ok, only the washer",
        "not the dryer, just the washer",
        "forget the dryer, just the washer",
        "oh wait the dryer is fine",
        "sorry just the washer",
        "dryer's good its the washer thats broken",
        "theres nothing wrong with the dryer",
        "it's not the dryer, it's the washer",
    ],
)
def test_the_dryer_is_taken_back_and_the_washer_goes_on(text: str) -> None:
    line = both("washer and dryer both acting up")
    line.text(text)
    assert [(t.appliance, t.closed) for t in line.state.tickets] == [("washer", None), ("dryer", "withdrawn")]
    assert line.said.startswith("All right, the washer. Which is closest?")
    assert line.state.asked is not None
    assert line.state.asked.ticket == "t1"


@pytest.mark.parametrize(
    "text",
    [
        "no la secadora esta bien, nomas la lavadora",
        "perdon la secadora si jala",
        "a la secadora no le pasa nada, es la lavadora",
        "la secadora no, nada mas la lavadora",
        "olvide la secadora",
        "la secadora no tiene nada, solo es la lavadora",
        "no espere, la secadora si funciona. nomás la lavadora",
    ],
)
def test_in_spanish_too(text: str) -> None:
    line = both("la lavadora y la secadora andan mal")
    line.text(text)
    assert [(t.appliance, t.closed) for t in line.state.tickets] == [("washer", None), ("dryer", "withdrawn")]
    assert line.said.startswith("De acuerdo: lavadora.")


def test_taken_back_in_the_same_text_it_is_no_complaint() -> None:
    line = Line()
    line.text("washer and dryer acting up, no wait the dryer is fine")
    assert [t.appliance for t in line.state.tickets] == ["washer"]


def test_what_was_asked_of_the_machine_taken_back_is_dropped() -> None:
    line = Line()
    line.text("dryer wont heat and washer leaks")
    assert line.ticket.appliance == "dryer"
    line.text("no wait the dryer is fine, its only the washer")
    assert line.ticket.appliance == "washer"
    assert line.state.asked is not None
    assert line.state.asked.ticket == line.ticket.key


def test_the_only_machine_taken_back_for_another() -> None:
    line = Line()
    line.text("my dryer is acting up")
    line.text("dryer's good, the washer leaks")
    assert [(t.appliance, t.closed) for t in line.state.tickets] == [("dryer", "withdrawn"), ("washer", None)]
    assert line.ticket.symptoms == {"leak": True}


@pytest.mark.parametrize("text", ["the dryer is fine now", "la secadora ya quedo"])
def test_what_works_again_is_settled(text: str) -> None:
    line = both("washer leaks and dryer wont heat")
    line.text(text)
    assert line.state.tickets[1].closed == "settled_by_owner"
    assert line.state.tickets[0].open


def test_fine_after_a_check_is_settled() -> None:
    line = Line()
    line.text("dryer takes forever to dry and washer leaks")
    line.talk({"postal_code": "87110"}, until="check_result")
    checked, other = line.ticket, next(t for t in line.state.tickets if t.key != line.ticket.key)
    line.text(f"the {checked.appliance} is fine, just the {other.appliance}")
    assert {t.appliance: t.closed for t in line.state.tickets} == {
        checked.appliance: "settled_by_owner", other.appliance: None,
    }  # fmt: skip


@pytest.mark.parametrize("text", ["the dryer is fine, just the washer", "la secadora esta bien, nomas la lavadora"])
def test_a_danger_that_was_told_of_it_stays(text: str) -> None:
    line = Line()
    line.text("washer leaks a little and the dryer wont heat")
    line.text("now i see smoke coming from the dryer")
    line.text(text)
    assert any(t.appliance == "dryer" and t.open and t.hazards for t in line.state.tickets)
    assert line.state.danger is not None


@pytest.mark.parametrize(
    "text",
    [
        "the dryer is fine but it takes two cycles",
        "is the dryer fine?",
        "i hope the dryer is fine",
        "not just the dryer, the washer too",
        "just the washer and dryer",
        "if the dryer is fine is the visit cheaper",
        "la secadora sirve pero no calienta",
        "no solo la lavadora, tambien la secadora",
    ],
)
def test_these_take_nothing_back(text: str) -> None:
    line = both("washer and dryer both acting up")
    line.text(text)
    assert all(t.open for t in line.state.tickets)


@pytest.mark.parametrize("text", ["no the stove is fine, just the washer", "forget the stove, its only the washer"])
def test_what_must_not_be_run_stays(text: str) -> None:
    line = Line()
    line.text("my washer leaks from under it")
    line.text("also the stove flame is yellow")
    line.text(text)
    assert any(t.appliance == "range" and t.open and t.stop_use for t in line.state.tickets)


@pytest.mark.parametrize(
    "words",
    [
        "ok just the dishwasher then",
        "fine only the dishwasher",
        "lets just do the dishwasher",
        "ok bueno nomás el lavaplatos entonces",
        "mejor solo el lavaplatos",
        "just fix the dishwasher",
    ],
)
def test_an_ok_that_drops_the_other_machine_is_no_yes_to_the_open_question(words: str) -> None:
    line = Line()
    line.text("garbage disposal just hums")
    line.text("also dishwasher doesnt drain")
    line.text("87109")
    asked = line.state.asked
    assert asked is not None
    assert (asked.kind, asked.choices) == ("observation", ())
    line.text(words)
    disposal, dishwasher = line.state.tickets
    assert disposal.closed == "withdrawn"
    assert dishwasher.open
    assert asked.code not in dishwasher.observations
