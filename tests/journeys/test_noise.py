"""What people also send: three texts for one thought, ZIPs outside, STOP and START, nonsense, pictures, long texts, silence."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


def test_three_quick_texts_are_one_turn() -> None:
    line = Line()
    said = line.text("hi", "my dishwasher", "it leaks from the door")
    assert line.turns == 1
    assert line.ticket.symptoms == {"leak": True}
    assert sum("?" in r for r in said) <= 1


def test_a_zip_outside_the_area_is_told_with_where_to_turn() -> None:
    line = Line()
    line.text("dishwasher leaks, zip 80202")
    assert line.ticket.closed == "out_of_area"
    assert "80202" in line.said
    assert line.state.asked is None


def test_a_zip_outside_the_area_is_told_by_the_second_question() -> None:
    line = Line()
    line.text("my dishwasher is not working right")
    line.text("3")
    assert line.state.asked is not None
    line.talk({"postal_code": "80202"}, until="offer", most=4)
    assert line.ticket.closed == "out_of_area"
    assert line.ticket.questions <= 2


@pytest.mark.parametrize("text", ["my furnace is out", "wine cooler is warm", "my zephrine dishwasher leaks"])
def test_a_machine_or_brand_not_served_is_told_at_once(text: str) -> None:
    line = Line()
    line.text(text)
    assert line.ticket.closed == "not_ours"
    assert "?" not in line.said


def test_stop_then_silence_then_start() -> None:
    line = Line()
    line.text("dishwasher leaks")
    assert len(line.text("STOP")) == 1
    assert line.text("STOP") == []
    assert line.text("it still leaks") == []
    assert line.wait(days=3) == []
    assert len(line.text("HELP")) == 1
    assert line.state.consent == "out"
    assert len(line.text("START")) == 1
    assert line.state.consent == "in"
    assert line.text("my dishwasher leaks") != []


@pytest.mark.parametrize(
    "text", ["the washer won't stop", "can you stop by tomorrow, dishwasher leaks", "it quit working"]
)
def test_a_fault_with_a_stop_word_in_it_is_no_opt_out_source_t_a(text: str) -> None:
    line = Line()
    assert line.text(text) != []
    assert line.state.consent == "in"


@pytest.mark.parametrize("text", ["can I talk to a real person please", "quiero hablar con una persona"])
def test_a_person_asked_for_at_any_time(text: str) -> None:
    line = Line()
    line.text("dishwasher leaks")
    line.text(text)
    assert line.ticket.needs_person
    assert any(a.kind == "person" for a in line.alarms)
    assert "person" in line.said.lower()
    assert line.wait(days=2) == [], "nobody who waits for a person is nudged"


def test_a_person_holds_the_thread_and_the_line_only_listens() -> None:
    line = Line()
    line.text("dishwasher leaks")
    line.office("hold")
    assert line.text("from the door") == []
    assert line.ticket.words[-1] == "from the door"
    line.office("release")
    assert line.text("so when can you come") != []


def test_nonsense_is_asked_again_then_read_by_a_person() -> None:
    line = Line()
    line.text("sdkfj wlekr")
    assert "?" in line.said
    line.text("qpwo eiru")
    assert "person" in line.said
    assert line.text("zmxn cbv") == []


def test_emoji_only_is_met_with_a_question() -> None:
    line = Line()
    line.text("🤔🤷")
    assert "?" in line.said


def test_a_picture_without_words() -> None:
    line = Line()
    line.photo()
    assert "picture" in line.said
    assert "?" in line.said
    line.text("dishwasher leaks from the bottom")
    assert line.ticket.symptoms.get("leak") is True


def test_sixteen_hundred_characters_are_read_and_answered_briefly() -> None:
    line = Line()
    long = "So we have had this dishwasher for about six years and it was fine until last week. " * 18
    said = line.text((long + "Now it drains very slowly.")[-1600:])
    assert line.ticket.symptoms.get("slow_drain") is True
    assert len(said) <= 2
    assert all(len(w) <= 300 for w in line.ticket.words)


def test_prices_at_any_time_and_then_the_open_question_again() -> None:
    line = Line()
    line.text("dishwasher is not working right")
    line.text("how much do you charge")
    assert "$89" in line.said
    assert "1 " in line.said
    line.text("2")
    assert line.ticket.one_of or line.ticket.symptoms


def test_the_washer_was_meant() -> None:
    line = Line()
    line.text("my dishwasher leaks")
    line.text("sorry, I meant the washer")
    assert [t.appliance for t in line.state.tickets] == ["washer"]


def test_silence_one_nudge_then_quiet_and_the_way_back() -> None:
    line = Line()
    line.text("my dishwasher is not working right")
    said = line.wait(days=2)
    assert len(said) == 1
    assert "1 " in said[0]
    line.text("sorry, busy. number 3")
    assert line.ticket.symptoms == {"leak": True}
    line.wait(days=10)
    assert line.ticket.closed == "gone_quiet"
    line.text("the dishwasher still leaks")
    assert line.ticket.key == "t2"
    assert line.ticket.earlier == "t1"


def test_spanish_is_answered_in_spanish_and_a_switch_is_followed() -> None:
    line = Line()
    line.text("my dishwasher leaks")
    line.text("en español por favor, tira agua por la puerta")
    assert line.state.language == "es"
    assert "¿" in line.said


def test_thanks_after_all_is_done_needs_no_answer() -> None:
    line = Line()
    line.text("my dishwasher leaks")
    line.text("never mind, it works now")
    assert line.ticket.closed == "settled_by_owner"
    assert line.text("thanks") == []


def test_texts_of_a_number_silent_for_a_year_bring_nothing_back() -> None:
    line = Line()
    line.text("its Ana, dishwasher leaks, 12 Alameda Rd NW 87107")
    line.text("never mind, it works now")
    line.wait(days=370)
    line.text("dishwasher leaks")
    assert "Alameda" not in line.said
    assert "Ana" not in line.said
    assert line.ticket.earlier is None


def test_what_adds_to_a_complaint_that_was_turned_away_is_not_answered() -> None:
    line = Line()
    line.text("my dishwasher leaks from the door")
    assert "outside" in " ".join(line.text("87999"))
    for more in ("it started a week ago", "my dog is friendly", "12 Cedar Wren Ln"):
        assert line.text(more) == [], more
    assert len(line.state.tickets) == 1
    assert line.text("and my washer does not spin") != []


def test_a_machine_that_is_not_repaired_here_is_turned_away_though_only_asked_after() -> None:
    line = Line()
    assert "not something we repair" in " ".join(line.text("do you fix furnaces?"))
    assert line.ticket.closed == "not_ours"


def test_whether_a_repair_is_worth_it_is_left_to_a_person_and_the_talk_goes_on() -> None:
    line = Line()
    said = " ".join(line.text("my dishwasher is 12 years old and does not drain, is it worth fixing?"))
    assert "A person can say" in said
    assert line.state.asked is not None
    assert line.ticket.symptoms == {"no_drain": True}
