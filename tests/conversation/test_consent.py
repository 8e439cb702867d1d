"""Opt-out, opt-in and HELP by the texting rules (sources T1 to T11)."""

from __future__ import annotations

from datetime import timedelta

import pytest

from service.conversation.events import Texted
from tests.conversation.scripted import Bench, hazard, sign


def kinds(step: object) -> list[str]:
    return [r.kind for r in step.replies]


def test_stop_is_confirmed_once_and_within_five_minutes_source_t4() -> None:
    bench = Bench()
    first = bench.hears("STOP")
    assert kinds(first) == ["consent"]
    assert first.replies[0].not_after is not None
    assert first.replies[0].not_after - bench.now <= timedelta(seconds=300)
    assert first.state.consent == "out"
    assert bench.hears("stop.").replies == ()


def test_after_stop_nothing_is_answered_but_help_and_danger() -> None:
    bench = Bench()
    bench.hears("STOP")
    quiet = bench.hears("it leaks", appliances=("dishwasher",), symptoms=(sign("leak"),), intents=("report_problem",))
    assert quiet.replies == ()
    assert quiet.state.tickets[0].symptoms == {"leak": True}
    assert quiet.state.tickets[0].needs_person
    assert [a.kind for a in quiet.alarms] == ["person"]
    assert kinds(bench.hears("help")) == ["consent"]
    assert bench.state.consent == "out", "HELP does not opt back in (T10)"
    gas = bench.hears("gas", hazards=(hazard("gas_smell"),))
    assert kinds(gas) == ["danger"]


@pytest.mark.parametrize("word", ["START", "unstop", "yes"])
def test_start_unstop_and_a_bare_yes_opt_in_again_source_t11(word: str) -> None:
    bench = Bench()
    bench.hears("STOP")
    step = bench.hears(word)
    assert step.state.consent == "in"
    assert kinds(step) == ["consent"]


def test_a_bare_yes_is_an_answer_while_opted_in() -> None:
    bench = Bench()
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",))
    assert "consent" not in kinds(bench.hears("yes"))


def test_stop_beside_another_text_is_stop_and_the_other_text_is_heard() -> None:
    bench = Bench()
    bench.reader.says("it leaks", appliances=("dishwasher",), symptoms=(sign("leak"),), intents=("report_problem",))
    texts = [Texted(id=str(n), text=t, at=bench.now) for n, t in enumerate(("it leaks", "STOP"))]
    step = bench.happens(*texts)
    assert kinds(step) == ["consent"]
    assert step.state.consent == "out"
    assert step.state.tickets[0].symptoms == {"leak": True}


def test_a_danger_in_the_same_text_as_stop_is_told_first_and_stop_is_kept() -> None:
    bench = Bench()
    step = bench.hears("gas, stop texting me", hazards=(hazard("gas_smell"),))
    assert kinds(step) == ["danger", "consent"]
    assert step.state.consent == "out"
    assert [a.kind for a in step.alarms] == ["danger"]
    assert bench.hears("it leaks", intents=("report_problem",)).replies == ()


def test_stop_drops_what_we_would_have_begun() -> None:
    bench = Bench()
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",))
    step = bench.hears("STOP")
    assert {"silence", "offer:*", "reminder:*", "follow_up:*"} <= set(step.clear_wakes)
    assert not [w for w in step.wakes if w.kind in ("silence", "reminder")]


def test_a_held_thread_still_takes_consent_words() -> None:
    bench = Bench()
    bench.held = True
    assert kinds(bench.hears("STOP")) == ["consent"]
