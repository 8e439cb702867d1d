"""Wakes: one nudge and no more, quiet closes, lapsed offers, reminders, a word after a repair; stale ones dropped."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

from service.conversation.events import TechnicianDid, Woke
from service.conversation.step import SetWake, Step
from service.reading.model import Answer, Wish
from tests.conversation.scripted import Bench, choice, hazard, sign
from tests.conversation.test_visits import booked, ready

DENVER = ZoneInfo("America/Denver")


def wake(step: Step, kind: str) -> SetWake:
    (found,) = [w for w in step.wakes if w.kind == kind]
    return found


def ring(bench: Bench, set_wake: SetWake) -> Step:
    bench.now = max(bench.now, set_wake.due)
    return bench.happens(Woke(kind=set_wake.kind, ticket=set_wake.ticket, version=set_wake.version, at=bench.now))


def asked(bench: Bench) -> Step:
    return bench.hears("v", appliances=("dishwasher",), symptoms=(sign("vague"),), intents=("report_problem",))


def test_silence_brings_the_question_once_more_in_daytime_and_never_again() -> None:
    bench = Bench()
    due = wake(asked(bench), "silence")
    assert 8 <= due.due.astimezone(DENVER).hour < 20, "source T12"
    nudge = ring(bench, due)
    assert [r.kind for r in nudge.replies] == ["started"]
    assert "Which is closest?" in nudge.replies[0].text
    assert not [w for w in nudge.wakes if w.kind == "silence"]
    assert ring(bench, due).replies == ()


def test_silence_is_stale_once_they_have_answered() -> None:
    bench = Bench()
    due = wake(asked(bench), "silence")
    bench.state = bench.state.model_copy(update={"asked": None})
    step = ring(bench, due)
    assert step.replies == ()
    assert step.reasons[-1].words.startswith("Wake silence dropped")


def test_a_wake_and_a_text_in_one_turn_is_a_text() -> None:
    bench = Bench()
    asked(bench)
    from service.conversation.events import Texted

    bench.reader.says("none", answer=Answer("none"), intents=("answer",))
    step = bench.happens(Woke(kind="silence", at=bench.now), Texted(id="m", text="none", at=bench.now))
    assert [r.kind for r in step.replies] == ["answer"]


def test_after_days_of_silence_the_ticket_closes_quietly() -> None:
    bench = Bench()
    due = wake(asked(bench), "quiet_close")
    assert due.due - bench.now >= timedelta(days=6.9)
    step = ring(bench, due)
    assert step.state.tickets[0].closed == "gone_quiet"
    assert step.replies == ()


def test_a_ticket_with_a_visit_or_a_person_does_not_go_quiet() -> None:
    bench, _ = booked()
    step = bench.happens(Woke(kind="quiet_close", ticket="t1", at=bench.now))
    assert step.state.tickets[0].closed is None


def test_lapsed_offers_are_forgotten_and_new_ones_come_with_the_next_text() -> None:
    bench = ready()
    bench.now += timedelta(hours=20)
    bench.happens(Woke(kind="offer_expired", ticket="t1", at=bench.now))
    assert bench.state.in_focus.offers == ()
    step = bench.hears("yes", answer=Answer("yes"), intents=("answer",))
    assert step.state.asked.kind == "offer"
    assert len(step.state.in_focus.offers) == 3


def test_silence_after_offers_asks_whether_a_visit_is_still_wanted() -> None:
    bench = ready()
    step = bench.happens(Woke(kind="silence", ticket="t1", at=bench.now + timedelta(hours=20)))
    assert step.replies[0].wording == ("ask.confirm.visit",)
    assert bench.hears("no", answer=Answer("no"), intents=("answer",)).state.tickets[0].closed == "declined"


def test_a_reminder_goes_out_before_the_visit_and_not_after_a_move() -> None:
    bench, _ = booked()
    bench.hears("can we do another day", intents=("reschedule",))
    first = bench.state.in_focus.visit
    stale = Woke(kind="reminder", ticket="t1", version=first.version + 1, at=bench.now)
    assert bench.happens(stale).replies == ()
    step = bench.happens(Woke(kind="reminder", ticket="t1", version=first.version, at=bench.now))
    assert step.replies[0].kind == "started"
    assert step.replies[0].needs_visit == (first.id, first.version)


def test_a_visit_days_ahead_is_reminded_of_in_daytime() -> None:
    bench = ready()
    bench.hears("friday is best", wish=Wish(days_in=("fri",)), intents=("answer",))
    assert all(o.start - bench.now > timedelta(hours=41) for o in bench.state.in_focus.offers)
    step = bench.hears("n", answer=choice(0), intents=("answer",))
    due = wake(step, "reminder")
    assert due.key == f"reminder:{step.state.in_focus.visit.id}"
    assert 8 <= due.due.astimezone(DENVER).hour < 20
    assert due.due < step.state.in_focus.visit.start


def outcome(bench: Bench, **fields: object) -> Step:
    event = {
        "ticket": "t1",
        "found": "drain_seal_worn",
        "fixed": True,
        "returning": False,
        "by": "ray",
        "at": bench.now,
    }
    return bench.happens(TechnicianDid.model_validate({**event, **fields}))


def test_after_a_repair_one_word_asks_nothing_and_says_where_to_answer() -> None:
    bench, _ = booked()
    step = outcome(bench)
    assert step.state.tickets[0].closed == "repaired"
    assert step.state.tickets[0].cause_found == "drain_seal_worn"
    after = ring(bench, wake(step, "follow_up"))
    assert [r.kind for r in after.replies] == ["started"]
    assert "?" not in after.replies[0].text


def test_nobody_whose_fault_came_back_is_asked_whether_it_still_works() -> None:
    bench, _ = booked()
    due = wake(outcome(bench), "follow_up")
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",))
    assert bench.state.in_focus.earlier == "t1"
    assert not [r for r in ring(bench, due).replies if r.wording == ("follow_up",)]


def test_a_return_for_a_part_waits_for_the_office() -> None:
    bench, _ = booked()
    step = outcome(bench, fixed=False, returning=True, why="waits for a seal kit")
    ticket = step.state.in_focus
    assert (ticket.stage, ticket.visit, ticket.needs_person) == ("parts", None, "waits for a seal kit")


def test_an_unknown_wake_is_dropped_with_its_reason() -> None:
    step = Bench().happens(Woke(kind="polish", at=Bench().now))
    assert step.replies == ()
    assert "polish" in step.reasons[0].words


def test_silence_after_a_danger_in_doubt_does_not_ask_for_leisure() -> None:
    bench = Bench()
    step = bench.hears("it smokes, they say", doubted_hazards=(hazard("smoke"),), intents=("report_problem",))
    nudge = ring(bench, wake(step, "silence"))
    assert bench.state.asked is not None
    assert bench.state.asked.code == "smoke"
    assert "silence.danger" in nudge.replies[0].wording
    assert "silence.nudge" not in nudge.replies[0].wording
