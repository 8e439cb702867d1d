"""Asides and noise: people, prices, warranty, status, thanks, spam, pictures, what nobody can read, loops."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from service.reading.model import Answer
from tests.conversation.scripted import Bench, sign
from tests.journeys.line import demo, with_policies

REPORT = ("report_problem",)


def opened() -> Bench:
    """A thread in which a question about the dishwasher stands open."""
    bench = Bench(with_policies(demo(), checks_max=0))
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=REPORT)
    return bench


def test_the_first_text_says_who_answers_and_no_later_one_does_source_t9() -> None:
    bench = Bench()
    first = bench.hears("d", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=REPORT)
    assert first.replies[0].wording[0] == "intro"
    assert first.state.introduced
    assert "intro" not in bench.hears("none", answer=Answer("none"), intents=("answer",)).replies[0].wording


def test_a_person_asked_for_is_told_when_one_reads_it_and_the_desk_hears() -> None:
    bench = opened()
    step = bench.hears("a person please", intents=("talk_to_person",))
    (reply,) = step.replies
    assert "person" in reply.text
    assert "?" not in reply.text
    assert "shop hours" in reply.text
    assert step.state.person_asked
    assert step.state.in_focus.needs_person
    assert [a.kind for a in step.alarms] == ["person"]


def test_after_hours_it_says_when_the_shop_opens_and_never_that_someone_will_call() -> None:
    bench = opened()
    bench.now = datetime(2026, 12, 2, 3, 0, tzinfo=UTC)  # Tuesday 8 in the evening in Albuquerque
    reply = bench.hears("a person please", intents=("talk_to_person",)).replies[0]
    assert "tomorrow at 8 am" in reply.text
    assert "will call" not in reply.text


def test_a_price_question_gets_the_shops_sentence_and_the_open_question_again() -> None:
    bench = opened()
    question = bench.state.asked
    (reply,) = bench.hears("how much", intents=("ask_price",)).replies
    assert "$89" in reply.text
    assert reply.wording[0] == "shop.fees.say"
    assert bench.state.asked.code == question.code
    assert "?" in reply.text


def test_a_price_question_with_an_answer_in_it_goes_on() -> None:
    bench = opened()
    question = bench.state.asked
    step = bench.hears("no idea. how much is it", intents=("answer", "ask_price"), answer=Answer("dont_know"))
    assert "$89" in step.replies[0].text
    assert (bench.state.asked.kind, bench.state.asked.code) != (question.kind, question.code)


def test_who_pays_under_a_warranty_is_for_the_office() -> None:
    step = opened().hears("is it under warranty", intents=("ask_warranty",))
    assert "office" in step.replies[0].text
    assert "warranty" in step.state.in_focus.needs_person


def test_status_without_a_visit_says_so() -> None:
    assert "No visit" in opened().hears("when are you coming", intents=("ask_status",)).replies[0].text


@pytest.mark.parametrize("intents", [("thanks",), ("spam",)])
def test_thanks_and_spam_are_not_answered(intents: tuple[str, ...]) -> None:
    assert opened().hears("x", intents=intents).replies == ()


def test_a_wrong_number_is_left_alone() -> None:
    bench = opened()
    step = bench.hears("wrong number", intents=("wrong_number",))
    assert len(step.replies) == 1
    assert step.state.tickets[0].closed == "withdrawn"
    assert step.state.asked is None
    assert not [w for w in step.wakes if w.kind == "silence"]


def test_what_cannot_be_read_is_asked_again_once_then_a_person_reads_it_then_silence() -> None:
    bench = opened()
    first = bench.hears("asdf", intents=("unreadable",))
    second = bench.hears("qwer", intents=("unreadable",))
    third = bench.hears("zxcv", intents=("unreadable",))
    assert "?" in first.replies[0].text
    assert "person" in second.replies[0].text
    assert [a.kind for a in second.alarms] == ["person"]
    assert third.replies == ()


def test_a_readable_text_starts_the_count_again() -> None:
    bench = opened()
    bench.hears("asdf", intents=("unreadable",))
    bench.hears("no idea", answer=Answer("dont_know"), intents=("answer",))
    assert bench.state.misread == 0


def test_a_picture_alone_is_kept_and_asked_about() -> None:
    bench = Bench()
    step = bench.hears("", media=1)
    assert "picture" in step.replies[-1].text
    assert "?" in step.replies[-1].text
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=REPORT)
    step = bench.hears("", media=2)
    assert step.state.in_focus.photos == 2


def test_the_same_text_three_times_is_taken_for_a_machine_and_a_person_is_told() -> None:
    bench = opened()
    steps = [bench.hears("I am away and will reply later", intents=()) for _ in range(4)]
    assert steps[2].replies == ()
    assert steps[3].replies == ()
    assert any("auto-reply" in a.text or "could not be read" in a.text for s in steps for a in s.alarms)


def test_three_times_no_to_three_questions_is_no_loop() -> None:
    bench = opened()
    for _ in range(4):
        if bench.state.asked.kind == "postal_code":
            bench.hears("87110", facts={"postal_code": "87110"}, answer=Answer("value", "87110"), intents=("answer",))
        elif bench.state.asked.kind in ("observation", "symptom", "yes_no"):
            given = Answer("dont_know") if bench.state.asked.choices else Answer("no")
            bench.hears("no", answer=given, intents=("answer",))
    assert bench.state.heard_again < 3


def test_a_complaint_about_damage_goes_to_a_person() -> None:
    step = opened().hears("Your guy broke my floor, I want a refund!", intents=("report_problem",))
    assert [a.kind for a in step.alarms] == ["person"]
    assert "?" not in step.replies[0].text


def test_a_machine_in_a_business_is_told_at_once_where_the_shop_does_homes_only() -> None:
    bench = Bench()
    signs = (sign("leak"),)
    step = bench.hears("dishwasher in my restaurant leaks", appliances=("dishwasher",), symptoms=signs, intents=REPORT)
    assert step.state.tickets[0].closed == "not_ours"
    assert "homes" in step.replies[0].text


def test_a_telephone_that_answers_by_itself_is_not_answered() -> None:
    step = opened().hears("Auto-reply: I'm driving right now", intents=())
    assert step.replies == ()
    assert [a.kind for a in step.alarms] == ["person"]


def test_every_reply_carries_why_in_words() -> None:
    step = opened().hears("no idea", answer=Answer("dont_know"), intents=("answer",))
    assert all(r.words.endswith((".", '"')) for r in step.reasons)
    assert {r.what for r in step.reasons} >= {"heard", "asked"}


def test_what_no_phrase_told_is_explained_by_the_words_that_counted() -> None:
    note = "Most like what is told of slow_drain of dishwasher (61%), for “tub”, “lazily”."
    hint = "Not taken as noise for “beeps”: in such words customers tell of something else."
    said = {"appliances": ("dishwasher",), "symptoms": (sign("slow_drain"),), "intents": REPORT}
    step = Bench().hears("d", notes=("“tubb” is read as “tub”.", note, hint), **said)
    assert [r.words for r in step.reasons if r.rule == "told texts"] == [note, hint]


def test_the_belief_before_and_after_is_given() -> None:
    bench = Bench()
    step = bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=REPORT)
    (believed,) = [r for r in step.reasons if r.what == "believed"]
    assert believed.data["before"] != believed.data["after"]
    assert abs(sum(share for _, share in believed.data["after"]) - 1) < 0.01
