"""What the office and the carrier do to a thread."""

from __future__ import annotations

from datetime import timedelta

import pytest

from service.conversation.events import DeliveryFailed, OfficeDid
from service.conversation.office import OfficeMistaken
from service.conversation.step import Book, CancelVisit, Move, Step
from tests.conversation.scripted import Bench, sign
from tests.conversation.test_visits import booked


def does(bench: Bench, action: str, ticket: str | None = "t1", **data: object) -> Step:
    event = {"action": action, "ticket": ticket, "data": data, "by": "pat", "at": bench.now}
    return bench.happens(OfficeDid.model_validate(event))


def opened() -> Bench:
    bench = Bench()
    bench.hears("d", appliances=("dishwasher",), symptoms=(sign("slow_drain"),), intents=("report_problem",))
    return bench


def times(bench: Bench) -> dict[str, object]:
    start = bench.now + timedelta(days=2)
    return {
        "technician": "ray",
        "start": start.isoformat(),
        "end": (start + timedelta(hours=2)).isoformat(),
        "minutes": 60,
    }


def test_a_phoned_in_ticket_is_opened_with_what_was_typed_and_nothing_is_sent() -> None:
    bench = Bench()
    step = does(
        bench, "open", None, appliance="dishwasher", words="it drains slowly", symptoms={"slow_drain": True},
        facts={"brand": "Tervane"}, contact={"name": "Ana", "postal_code": "87107"}, language="es",
    )  # fmt: skip
    ticket = step.state.in_focus
    assert (ticket.appliance, ticket.symptoms, ticket.words) == (
        "dishwasher",
        {"slow_drain": True},
        ("it drains slowly",),
    )
    assert step.state.contact.name == "Ana"
    assert step.state.language == "es"
    assert step.replies == ()


def test_the_office_books_and_the_customer_is_told() -> None:
    bench = opened()
    step = does(bench, "book", **times(bench), address="9 Alameda Rd", postal_code="87107")
    (book,) = step.diary
    assert isinstance(book, Book)
    assert book.address == "9 Alameda Rd"
    assert book.technician == "ray"
    assert step.state.in_focus.stage == "arranged"
    assert step.state.asked is None
    assert [r.kind for r in step.replies] == ["started"]


def test_a_tentative_visit_is_confirmed_by_moving_it_to_its_own_time() -> None:
    bench, _ = booked(autonomy="hold")
    step = does(bench, "move")
    assert "confirmed" in step.replies[0].text
    assert not step.state.in_focus.visit.tentative
    assert isinstance(step.diary[0], Move)


def test_a_quiet_move_tells_the_customer_nothing() -> None:
    bench, _ = booked()
    assert does(bench, "move", **times(bench), quiet=True).replies == ()


def test_the_office_cancels_and_another_time_can_be_had() -> None:
    bench, _ = booked()
    step = does(bench, "cancel", why="van broke down")
    assert isinstance(step.diary[0], CancelVisit)
    assert step.diary[0].why == "van broke down"
    assert step.state.in_focus.stage == "arranging"
    assert step.state.in_focus.visit is None
    assert "off" in step.replies[0].text


def test_closing_needs_a_reason_of_the_list_and_takes_the_visit_out() -> None:
    bench, _ = booked()
    with pytest.raises(OfficeMistaken, match="use one of"):
        does(bench, "close", reason="bored")
    step = does(bench, "close", reason="not_worth_repair")
    assert step.state.tickets[0].closed == "not_worth_repair"
    assert isinstance(step.diary[0], CancelVisit)


def test_the_office_puts_right_what_was_read() -> None:
    bench = opened()
    step = does(
        bench, "correct", symptoms={"slow_drain": None, "leak": True}, observations={"sink_backs_up": "no"},
        facts={"brand": "Coolridge", "tried": ["cleaned_filter"]}, contact={"address": "1 Elm St"},
    )  # fmt: skip
    ticket = step.state.in_focus
    assert ticket.symptoms == {"leak": True}
    assert ticket.observations == {"sink_backs_up": "no"}
    assert ticket.facts["brand"] == "Coolridge"
    assert ticket.facts["tried"] == ("cleaned_filter",)
    assert step.state.contact.address == "1 Elm St"
    assert step.replies == ()


def test_a_booking_without_a_zone_or_a_technician_is_refused_with_the_remedy() -> None:
    bench = opened()
    with pytest.raises(OfficeMistaken, match="technician"):
        does(bench, "book", start="2026-12-03T13:00:00+00:00")
    with pytest.raises(OfficeMistaken, match="zone"):
        does(bench, "book", technician="ray", start="2026-12-03T13:00", end="2026-12-03T15:00")


def test_done_by_a_person_lets_the_line_speak_again() -> None:
    bench = opened()
    bench.hears("a person", intents=("talk_to_person",))
    step = does(bench, "person_done")
    assert not step.state.person_asked
    assert step.state.in_focus.needs_person is None


@pytest.mark.parametrize("danger", [True, False])
def test_what_could_not_be_delivered_alarms_the_office_and_a_danger_the_on_call_phone(danger: bool) -> None:
    bench = opened()
    step = bench.happens(DeliveryFailed(key="k", danger=danger, at=bench.now))
    (alarm,) = step.alarms
    assert (alarm.kind, alarm.on_call) == (("danger", True) if danger else ("undelivered", False))


def test_a_danger_named_on_the_phone_ends_owner_checks_and_comes_first() -> None:
    bench = Bench()
    step = does(bench, "open", None, appliance="dishwasher", words="smells burnt", hazards=["burning_smell", "made_up"])
    ticket = step.state.in_focus
    assert ticket is not None
    assert ticket.hazards == ("burning_smell",)
    assert ticket.unsafe
    assert ticket.level == "now"


def test_the_office_can_take_an_address_back() -> None:
    bench = opened()
    does(bench, "correct", contact={"address": "9 Juniper Ct", "name": "Sam"})
    does(bench, "correct", contact={"address": None})
    assert (bench.state.contact.address, bench.state.contact.name) == (None, "Sam")
