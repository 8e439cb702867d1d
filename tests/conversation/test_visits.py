"""From a wish for a visit to one that stands, is moved, is dropped; what is confirmed; what the office must confirm."""

from __future__ import annotations

from datetime import time, timedelta

import pytest

from service.conversation.state import TicketState
from service.conversation.step import Book, CancelVisit, Move, Step
from service.reading.model import Answer, Wish
from service.wording.segments import count
from tests.conversation.scripted import Bench, choice, sign
from tests.journeys.line import demo, with_policies

ADDRESS = "1450 Rio Grande Blvd NW"


def ready(**policies: object) -> Bench:
    """A bench where windows have just been offered."""
    bench = Bench(with_policies(demo(), questions_max=1, checks_max=0, **policies))
    known = {"postal_code": "87104", "address": ADDRESS, "name": "Maria"}
    bench.hears(
        "d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",), facts=known
    )
    if bench.state.asked.kind != "offer":
        bench.hears("no idea", answer=Answer("dont_know"), intents=("answer",))
    assert bench.state.asked.kind == "offer"
    return bench


def booked(**policies: object) -> tuple[Bench, Step]:
    bench = ready(**policies)
    return bench, bench.hears("1", answer=choice(0), intents=("answer",))


def whole(step: Step) -> str:
    return " ".join(r.text for r in step.replies)


def test_three_windows_are_offered_in_words_with_the_fee_as_the_shop_states_it() -> None:
    bench = ready()
    offers = bench.state.in_focus.offers
    assert len(offers) == 3
    assert len({o.say for o in offers}) == 3
    assert [say for _, say in bench.state.asked.choices] == [o.say for o in offers]
    assert bench.state.in_focus.stage == "arranging"


def test_an_accepted_window_is_booked_with_address_and_confirmed_with_fee_and_what_to_have_ready() -> None:
    bench, step = booked()
    (book,) = step.diary
    assert isinstance(book, Book)
    assert book.visit == f"th1-t1-{bench.turn}"
    assert not book.tentative
    assert (book.address, book.postal_code, book.tickets) == (ADDRESS, "87104", ("t1",))
    said = whole(step)
    assert ADDRESS in said
    assert "$89" in said
    assert "adult" in said
    assert step.state.in_focus.stage == "arranged"
    assert step.state.in_focus.visit.start == book.start
    assert all(r.needs_visit == (book.visit, 0) for r in step.replies)
    assert all(count(r.text).number <= 2 for r in step.replies)


def test_the_same_turn_taken_again_books_the_same_visit() -> None:
    first = booked()[1].diary[0]
    assert first == booked()[1].diary[0]


def test_with_hold_the_booking_is_tentative_and_says_that_the_office_confirms() -> None:
    _, step = booked(autonomy="hold")
    assert step.diary[0].tentative
    assert "office" in whole(step)
    assert "Booked" not in whole(step)


def test_a_wish_brings_windows_that_fit_it() -> None:
    bench = ready()
    step = bench.hears("friday after 1", wish=Wish(days_in=("fri",), start=time(13)), intents=("answer",))
    starts = [o.start.astimezone(bench.now.tzinfo) for o in step.state.in_focus.offers]
    assert step.diary or all(s.weekday() == 4 for s in starts)


def test_none_of_the_windows_asks_for_days_and_times() -> None:
    bench = ready()
    step = bench.hears("none", answer=Answer("none"), intents=("answer",))
    assert step.state.asked.kind == "offer"
    assert not step.state.asked.choices
    assert step.replies[-1].wording == ("ask.wish",)


def test_no_visit_wanted_closes_and_does_not_argue() -> None:
    step = ready().hears("no thanks, dont want it", answer=Answer("declined"), intents=("answer",))
    assert step.state.tickets[0].closed == "declined"
    assert len(step.replies) == 1


def test_a_window_taken_meanwhile_is_not_booked_and_others_are_offered() -> None:
    bench, first = booked()
    taken = first.diary[0]
    other = ready()
    from service.conversation.events import Texted
    from service.conversation.turn import run
    from service.conversation.underway import Turn
    from service.scheduling.model import Booked, Diary

    area = other.rulebook.shop.area["87104"]
    full = [
        Booked(f"x{n}", t.id, taken.start, taken.end, 600, area.lat, area.lon)
        for n, t in enumerate(other.rulebook.shop.technicians)
    ]
    other.reader.says("1", answer=choice(0), intents=("answer",))
    turn = Turn(other.rulebook, other.reader, other.now, Diary(booked=tuple(full)), "th1", 9, False, other.state)
    step = run(turn, [Texted(id="m", text="1", at=other.now)])
    assert step.diary == ()
    assert step.state.asked.kind == "offer"
    assert "offer.taken" in step.replies[0].wording
    assert bench.state.in_focus.visit is not None


def test_a_gate_code_on_file_is_asked_about_and_never_repeated() -> None:
    bench = ready()
    contact = bench.state.contact.model_copy(update={"access": ("gate code 4411",)})
    before = TicketState(key="t0", appliance="dryer", stage="closed", closed="repaired", opened_at=bench.now)
    tickets = (before, *bench.state.tickets)
    bench.state = bench.state.model_copy(update={"contact": contact, "tickets": tickets})
    step = bench.hears("1", answer=choice(0), intents=("answer",))
    assert step.state.asked.code == "way_in"
    assert "4411" not in whole(step)


def test_who_had_no_visit_yet_is_not_asked_about_last_time() -> None:
    bench = ready()
    contact = bench.state.contact.model_copy(update={"access": ("gate code 4411",)})
    bench.state = bench.state.model_copy(update={"contact": contact})
    step = bench.hears("1", answer=choice(0), intents=("answer",))
    assert step.state.asked is None
    assert "last time" not in whole(step)


def test_how_to_get_in_is_kept_in_their_words_and_thanked() -> None:
    bench, _ = booked()
    step = bench.hears("big dog in the yard, gate 4411", answer=Answer("value", "dog"), facts={"access": ("dog",)})
    assert step.state.contact.access == ("dog",)
    assert "4411" not in whole(step)
    assert step.state.asked is None


def test_another_time_moves_the_visit_and_raises_its_version() -> None:
    bench, first = booked()
    step = bench.hears("can we do another day", intents=("reschedule",))
    assert step.state.asked.kind == "offer"
    assert step.state.in_focus.visit is not None
    assert step.diary == ()
    step = bench.hears("2", answer=choice(1), intents=("answer",))
    (move,) = step.diary
    assert isinstance(move, Move)
    assert move.visit == first.diary[0].visit
    assert step.state.in_focus.visit.version == 1
    assert step.state.in_focus.visit.start == move.start
    assert step.replies[0].needs_visit == (move.visit, 1)


def test_cancel_is_asked_back_first_and_mentions_stop_source_t_a() -> None:
    bench, first = booked()
    asked = bench.hears("cancel my visit", intents=("cancel",))
    assert asked.diary == ()
    assert "STOP" in whole(asked)
    gone = bench.hears("yes", answer=Answer("yes"), intents=("answer",))
    (change,) = gone.diary
    assert isinstance(change, CancelVisit)
    assert change.visit == first.diary[0].visit
    assert gone.state.tickets[0].closed == "withdrawn"


def test_a_no_to_cancelling_keeps_the_visit() -> None:
    bench, _ = booked()
    bench.hears("cancel my visit", intents=("cancel",))
    step = bench.hears("no", answer=Answer("no"), intents=("answer",))
    assert step.diary == ()
    assert step.state.in_focus.visit is not None
    assert "stays" in whole(step)


def test_status_tells_the_window_and_once_it_has_begun_a_person_is_told() -> None:
    bench, _ = booked()
    step = bench.hears("when are you coming", intents=("ask_status",))
    assert step.alarms == ()
    assert "Your visit" in whole(step)
    bench.now = bench.state.in_focus.visit.start + timedelta(minutes=5)
    step = bench.hears("where are you", intents=("ask_status",))
    assert [a.kind for a in step.alarms] == ["person"]


def test_it_works_again_asks_before_it_drops_the_visit() -> None:
    bench, _ = booked()
    step = bench.hears("it works now", intents=("fixed",))
    assert step.diary == ()
    assert step.state.asked.code == "cancel"


def test_two_machines_are_one_visit_with_minutes_for_both() -> None:
    bench = Bench(with_policies(demo(), questions_max=1, checks_max=0))
    known = {"postal_code": "87104", "address": ADDRESS, "name": "Maria"}
    one = ready().state.in_focus.offers[0].minutes
    bench.hears(
        "d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",), facts=known
    )
    second = bench.state.tickets[0].model_copy(update={"key": "t2", "ready": True})
    tickets = (bench.state.tickets[0].model_copy(update={"ready": True}), second)
    bench.state = bench.state.model_copy(update={"tickets": tickets, "next_ticket": 3, "asked": None})
    bench.hears("any time", intents=("book",), wish=Wish(soonest=True))
    step = bench.hears("1", answer=choice(0), intents=("answer",))
    (book,) = step.diary
    assert book.tickets == ("t1", "t2")
    assert book.minutes > one
    assert {t.visit.id for t in step.state.tickets} == {book.visit}


@pytest.mark.parametrize("days", [1, 5])
def test_windows_that_lapsed_are_offered_anew_or_booked_if_still_free(days: int) -> None:
    bench = ready()
    bench.now += timedelta(days=days)
    step = bench.hears("3", answer=choice(2), intents=("answer",))
    assert step.diary or step.state.asked.kind == "offer"
