"""Journeys to a visit: trickle, just send someone, windows by wish, changed, cancelled, two machines, the office's word."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest

from service.conversation.summary import evidence_of
from service.diagnosis.visit import plan_visit
from tests.journeys.line import Line, demo, with_policies

ADDRESS = "1450 Rio Grande Blvd NW"
KNOWN = {
    "postal_code": "87104", "address": ADDRESS, "sink_backs_up": "no sink is fine", "new_disposal": "no",
    "filter_cleaned": "cleaned it last week", "check_result": "did that, no change", "name": "Maria Lopez",
    "access": "gate code 4411, dog in the yard",
}  # fmt: skip
DENVER = ZoneInfo("America/Denver")


def offered(rulebook: object = None, text: str = "my dishwasher drains only in a trickle") -> Line:
    """A line on which windows have just been offered."""
    line = Line(rulebook or demo())
    line.text(text)
    line.talk(KNOWN, until="offer")
    assert line.ticket.offers
    return line


def booked(rulebook: object = None) -> Line:
    """A line on which the first window was accepted and all was told."""
    line = offered(rulebook)
    line.text("1")
    line.talk(KNOWN, until="done")
    return line


def test_a_trickle_drain_ends_in_a_visit_whose_sheet_lists_seal_screen_and_line_before_the_pump() -> None:
    line = booked()
    assert line.book.address == ADDRESS
    assert line.book.postal_code == "87104"
    assert line.ticket.stage == "arranged"
    rules = demo().appliances["dishwasher"]
    plan = plan_visit(rules, evidence_of(line.ticket), demo().shop)
    likely = [item.cause for item in plan.belief.likely[:3]]
    assert likely[0].startswith("drain_seal") or "seal" in likely[0]
    tests = [t.test for t in plan.tests]
    pump = next(n for n, t in enumerate(tests) if rules.tests[t].last)
    assert all(pump >= n for n, t in enumerate(tests) if not rules.tests[t].last), "the pump is condemned last"
    carried = [item.part for item in plan.load if item.carry]
    assert any("seal" in part for part in carried)


def test_a_usable_ticket_takes_about_five_questions() -> None:
    line = Line()
    line.text("dishwasher not working right")
    line.text("2")
    asked = line.talk(KNOWN, until="offer", most=12)
    counted = [a for a in asked if a not in ("check_result", "zip", "address")]
    assert len(counted) + 1 <= demo().shop.policies.questions_max + 1
    assert line.ticket.questions <= demo().shop.policies.questions_max


def test_the_confirmation_tells_window_address_fee_and_what_to_have_ready() -> None:
    line = offered()
    line.text("2")
    said = line.said
    assert line.state.tickets[0].visit is not None
    assert ADDRESS in said
    assert "$89" in said
    assert "adult" in said


def test_the_gate_code_is_kept_and_never_said() -> None:
    line = booked()
    assert any("4411" in a for a in line.state.contact.access)
    assert not any("4411" in r.text for r in line.replies)


@pytest.mark.parametrize(
    ("wish", "weekday", "from_hour"),
    [("thurs after lunch", 3, 12), ("tues after 3", 1, 15), ("cualquier día menos el viernes", None, 0)],
)
def test_a_wish_in_words_books_or_brings_windows_that_fit(wish: str, weekday: int | None, from_hour: int) -> None:
    line = offered()
    line.text(wish)
    starts = [v.start for v in line.visits.values()] or [o.start for o in line.ticket.offers]
    local = [s.astimezone(DENVER) for s in starts]
    assert local
    assert all(s.weekday() != 4 if weekday is None else s.weekday() == weekday for s in local)
    assert all(s.hour >= from_hour for s in local)


def test_just_send_someone_is_asked_little() -> None:
    line = Line()
    line.text("can you just send someone, dishwasher is broken")
    asked = line.talk(KNOWN, until="offer")
    assert len([a for a in asked if a not in ("postal_code", "address", "zip")]) <= 2


def test_a_zip_alone_is_not_asked_for_again_with_the_street() -> None:
    line = Line()
    line.text("dishwasher not working properly")
    line.text("1")
    assert "street address and ZIP" in line.text("just send someone")[-1]
    assert line.text("87106")[-1].endswith("What street address do we come to?")


def test_another_time_by_text() -> None:
    line = booked()
    before = line.book
    line.text("something came up, can we move it to another day")
    assert line.ticket.visit is not None, "the visit stands until another is chosen"
    line.text("3" if len(line.ticket.offers) > 2 else "1")
    assert line.book.visit == before.visit
    assert line.book.start != before.start
    assert line.ticket.visit is not None
    assert line.ticket.visit.version == 1


def test_cancel_by_text_is_asked_back_and_then_done() -> None:
    line = booked()
    line.text("please cancel my visit")
    assert line.cancelled == {}
    assert "STOP" in line.said
    line.text("yes")
    assert list(line.cancelled.values()) == ["cancelled by the customer"]
    assert line.ticket.closed == "withdrawn"
    assert line.wait(days=30) == []


def test_a_bare_cancel_with_a_visit_is_an_opt_out_that_names_the_office_source_t_a() -> None:
    line = booked()
    said = line.text("CANCEL")
    assert len(said) == 1
    assert "505-555-0101" in said[0]
    assert line.state.consent == "out"
    assert line.cancelled == {}
    assert line.ticket.needs_person


def test_a_reminder_comes_before_the_visit_and_not_after_an_opt_out() -> None:
    line = offered()
    line.text("friday please")
    if not line.visits:
        line.text("1")
    line.talk(KNOWN, until="done")
    start = line.book.start
    assert start - line.now > timedelta(hours=40)
    said = line.wait(hours=(start - line.now).total_seconds() / 3600)
    assert len(said) == 1
    assert "we come" in said[0]


def test_two_machines_in_one_text_are_asked_in_turn() -> None:
    line = Line()
    line.text("dishwasher drains only in a trickle and the disposal under the sink just hums, 87104")
    assert len(line.state.tickets) <= 2
    assert line.ticket.appliance == "dishwasher"


def test_with_hold_the_office_confirms() -> None:
    line = booked(with_policies(demo(), autonomy="hold"))
    assert line.book.tentative
    assert any("office will confirm" in r.text for r in line.replies)
    said = line.office("move", "t1")
    assert "confirmed" in said[0]


def test_a_month_later_the_same_machine_comes_back_as_a_new_ticket() -> None:
    line = booked()
    line.outcome("drain_valve_seal_worn")
    assert line.state.tickets[0].closed == "repaired"
    line.wait(days=33)
    line.text("hi its maria, dishwasher drains slow again")
    assert line.ticket.key == "t2"
    assert line.ticket.earlier == "t1"
    assert "still working" not in line.said.lower()
    line.talk(KNOWN, until="offer")
    assert not any(r.text.count(ADDRESS) for r in line.last.replies)
    line.text("1")
    assert ADDRESS in line.said
    assert "4411" not in line.said


def test_booked_well_the_second_conversation() -> None:
    line = booked()
    line.outcome("drain_valve_seal_worn")
    line.wait(days=250)
    line.text("hi its maria from last yr, dishwasher again, takes forever to drain & still water in the bottom after")
    assert line.ticket.earlier == "t1"
    assert "December" in line.said
    assert "slow" in line.said.lower()
    line.text("yes same one")
    asked = line.talk({**KNOWN, "check_result": "cleaned it already, no change"}, until="offer")
    assert "postal_code" not in asked
    assert "address" not in asked, "both are on file"
    assert "$89" in line.said
    line.text("thurs after lunch")
    if line.state.asked is not None and line.state.asked.kind == "offer":
        line.text("1")
    assert line.book.start.astimezone(DENVER).weekday() == 3
    assert line.state.asked is not None
    assert line.state.asked.code == "way_in", "gate code still right?"
    line.text("yep")
    assert line.state.asked is None
