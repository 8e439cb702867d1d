"""What customers say beside the matter: later, another language, just send someone, it is back, are you a machine."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def narrowing() -> Line:
    line = Line()
    line.text("my dishwasher does not drain")
    line.text("no disposal")
    line.text("87110")
    assert line.state.asked is not None
    assert line.state.asked.kind == "observation"
    return line


@pytest.mark.parametrize("words", ["please just send someone", "im at work, cant look", "mande a alguien por favor"])
def test_who_only_wants_a_visit_is_not_asked_about_the_machine_again(words: str) -> None:
    line = narrowing()
    said = " ".join(line.text(words)).lower()
    assert "make that out" not in said
    assert line.state.asked is not None
    assert line.state.asked.kind in ("address", "offer")


def test_a_time_they_name_is_a_wish_for_a_visit_and_is_kept_for_the_offers() -> None:
    line = narrowing()
    line.text("can somebody come friday morning")
    line.text("418 Cholla Wren Ln NE")
    assert all("Fri" in offer.say for offer in line.ticket.offers[:1])


def test_i_will_call_later_is_no_answer_and_the_question_is_put_when_they_are_back() -> None:
    line = narrowing()
    asked = line.state.asked
    assert asked is not None
    assert line.text("gotta go, I'll call later") == ["Fine. Text here when it suits you."]
    assert line.ticket.observations == {"new_disposal": "no"}
    line.text("ok im back")
    assert line.state.asked is not None
    assert line.state.asked.code == asked.code


def test_they_can_ask_for_the_other_language_in_so_many_words() -> None:
    line = narrowing()
    assert "¿" in " ".join(line.text("puede ser en español por favor"))
    said = " ".join(line.text("sorry, english please"))
    assert "¿" not in said
    assert "make that out" not in said


def test_a_complaint_that_is_back_is_not_asked_over_and_what_helped_is_not_offered_again() -> None:
    line = narrowing()
    line.text("cleaned the filter and it works now, thank you!")
    assert line.ticket.closed == "settled_by_owner"
    line.text("its doing it again, same thing")
    again = line.state.tickets[-1]
    assert again.open
    assert (again.appliance, again.symptoms) == ("dishwasher", {"no_drain": True})
    assert again.observations["new_disposal"] == "no"
    assert again.earlier == line.state.tickets[0].key
    assert line.state.asked is not None
    assert line.state.asked.code != "new_disposal"


def test_a_machine_says_that_it_is_one() -> None:
    line = Line()
    assert "this line is automatic" in " ".join(line.text("are you a robot"))


def test_the_price_of_a_part_is_left_to_the_look_and_the_question_stays_open() -> None:
    line = narrowing()
    said = " ".join(line.text("is the part included in that?"))
    assert "What a part costs you hear after the look" in said
    assert line.state.asked is not None


def test_the_cancel_question_takes_thanks_for_a_yes() -> None:
    line = Line()
    line.text("my dishwasher does not drain, 418 Cholla Wren Ln NE 87110, please just send someone")
    line.talk({}, until="offer")
    line.text("1")
    line.text("nvm cancel it, my brother in law fixed it")
    line.text("thx")
    assert line.ticket.closed is not None
    assert line.cancelled or not line.visits


@pytest.mark.parametrize("words", ["tomorrow at 1 is fine", "friday morning", "el jueves por la tarde"])
def test_a_time_given_where_the_address_was_asked_is_no_address(words: str) -> None:
    line = narrowing()
    line.text("please just send someone")
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"
    line.text(words)
    assert line.state.contact.address is None
    assert line.ticket.wish is not None
    line.text("418 Cholla Wren Ln NE")
    assert line.state.contact.address == "418 Cholla Wren Ln NE"


@pytest.mark.parametrize(
    "words", ["ok send someone", "yes send someone", "si manden a alguien", "bueno mande al tecnico"]
)
def test_a_yes_that_only_leads_to_a_visit_says_nothing_of_the_machine(words: str) -> None:
    line = narrowing()
    before = line.ticket.observations
    line.text(words)
    assert line.ticket.observations == before
    assert line.ticket.just_send
    assert line.state.asked is not None
    assert line.state.asked.kind in ("address", "offer")


@pytest.mark.parametrize("words", ["yes send someone", "yeah just send someone out", "si, manden a alguien"])
def test_who_wants_somebody_sent_after_a_check_was_not_helped_by_it(words: str) -> None:
    line = Line()
    line.text("dishwasher wont drain since they put in a new disposal")
    line.text("87106")
    assert line.state.asked is not None
    assert line.state.asked.kind == "check_result"
    line.text(words)
    assert line.ticket.closed is None
    assert "fixed" not in line.ticket.checks.values()
