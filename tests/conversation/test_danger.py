"""Danger first, alone; people told; then silence until they answer, one question, a person; thanks need no answer."""

from __future__ import annotations

from datetime import timedelta

import pytest

from service.conversation.events import OfficeDid, Woke
from service.reading.model import Answer
from tests.conversation.scripted import Bench, hazard, sign


def told(bench: Bench, *codes: str, **fields: object) -> object:
    return bench.hears("danger", hazards=tuple(hazard(c) for c in codes), intents=("report_problem",), **fields)


def test_the_instruction_goes_first_and_alone_and_who_we_are_follows_in_the_next_text() -> None:
    bench = Bench()
    step = told(bench, "burning_smell", appliances=("dryer",))
    first, second = step.replies
    rule = bench.rulebook.dangers["burning_smell"]
    expected = rule.instruction_for.get("dryer", rule.instruction).say.en
    assert first.kind == "danger"
    assert first.text == expected
    assert first.text.split(":")[0] == rule.signal
    assert "Tarnwick" in second.text
    assert "?" not in second.text
    assert len(step.replies) == 2


def test_the_ticket_is_now_and_people_are_told_at_once() -> None:
    bench = Bench()
    step = told(bench, "gas_smell", appliances=("range",))
    ticket = step.state.in_focus
    assert ticket
    assert ticket.level == "now"
    assert ticket.hazards == ("gas_smell",)
    assert ticket.needs_person
    (alarm,) = step.alarms
    assert alarm.kind == "danger"
    assert alarm.on_call
    assert alarm.ticket == ticket.key
    assert [w.kind for w in step.wakes if w.kind != "quiet_close"] == ["danger_check"]


def test_the_graver_of_two_dangers_is_told() -> None:
    bench = Bench()
    ranks = {code: d.rank for code, d in bench.rulebook.dangers.items()}
    low, high = sorted(("burning_smell", "fire"), key=lambda c: -ranks[c])
    step = told(bench, low, high, appliances=("dryer",))
    assert step.replies[0].wording == (f"danger.{high}",)
    assert set(step.state.in_focus.hazards) == {low, high}


def test_after_their_answer_one_question_then_a_person_who_is_told_once() -> None:
    bench = Bench()
    told(bench, "burning_smell", appliances=("dryer",))
    asked = bench.hears("ok", answer=None)
    assert [r.text for r in asked.replies] == [bench.rulebook.dangers["burning_smell"].ask_after.en]
    person = bench.hears("yes all ok", answer=Answer("yes"))
    assert len(person.replies) == 1
    assert "person" in person.replies[0].text
    assert [a.kind for a in person.alarms] == ["person"]
    price = bench.hears("how much is it", intents=("ask_price",))
    assert "$" in price.replies[0].text
    assert price.alarms == ()
    assert bench.hears("thanks", intents=("thanks",)).replies == ()


def test_a_denial_never_clears_a_danger() -> None:
    bench = Bench()
    told(bench, "gas_smell", appliances=("range",))
    step = bench.hears("no smell now", denied_hazards=(hazard("gas_smell"),))
    assert step.state.in_focus.hazards == ("gas_smell",)
    assert step.state.danger is not None
    assert step.state.in_focus.level == "now"


def test_owner_checks_are_over_until_a_person_clears_it_and_then_talk_goes_on() -> None:
    bench = Bench()
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",))
    told(bench, "burning_smell")
    assert bench.state.in_focus.unsafe
    assert bench.state.asked is None
    cleared = OfficeDid(action="clear_danger", ticket="t1", by="pat", at=bench.now)
    step = bench.happens(cleared)
    assert step.state.danger is None
    assert not step.state.in_focus.unsafe
    assert step.state.in_focus.level == "today"
    assert bench.hears("zip 87110", facts={"postal_code": "87110"}).replies


@pytest.mark.parametrize(("minutes", "kind"), [(1, "answer"), (15, "danger")])
def test_a_danger_named_again_is_asked_after_at_once_and_told_again_later(minutes: int, kind: str) -> None:
    bench = Bench()
    told(bench, "smoke", appliances=("dryer",))
    bench.now += timedelta(minutes=minutes)
    assert told(bench, "smoke").replies[0].kind == kind


def test_another_danger_is_told_at_once_though_one_is_held() -> None:
    bench = Bench()
    told(bench, "burning_smell", appliances=("dryer",))
    step = told(bench, "fire")
    assert step.replies[0].wording == ("danger.fire",)
    assert step.state.danger.codes == ("burning_smell", "fire")


def test_nobody_answering_is_told_to_the_office_and_not_to_the_customer() -> None:
    bench = Bench()
    told(bench, "gas_smell", appliances=("range",))
    bench.now += timedelta(minutes=10)
    step = bench.happens(Woke(kind="danger_check", ticket="t1", at=bench.now))
    assert step.replies == ()
    assert [(a.kind, a.on_call) for a in step.alarms] == [("danger", True)]
    bench.hears("ok out")
    late = bench.happens(Woke(kind="danger_check", ticket="t1", at=bench.now))
    assert late.alarms == ()
    assert late.reasons[-1].what == "held"


def test_a_held_thread_gets_the_instruction_and_nothing_else() -> None:
    bench = Bench()
    bench.held = True
    assert [r.wording for r in told(bench, "shock", appliances=("washer",)).replies] == [("danger.shock",)]
    assert bench.hears("ok").replies == ()


def test_spanish_gets_spanish_with_its_signal_word() -> None:
    bench = Bench()
    step = told(bench, "gas_smell", language="es")
    assert step.replies[0].text.startswith("PELIGRO:")
    assert step.state.language == "es"
