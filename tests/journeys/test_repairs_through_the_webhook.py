"""Repairs and dangers from the signed webhook to the carrier and the technician's sheet, on each kind of database."""

from __future__ import annotations

import re
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import select

from service.pages.links import sheet_path
from service.storage.engine import reading
from service.storage.ledgers import outcomes
from service.storage.tables import outbox
from service.storage.visits_view import visit_by_id
from tests.journeys.served import ServedLine

ADDRESS = "1450 Rio Grande Blvd NW"
KNOWN = {
    "postal_code": "87104", "address": ADDRESS, "sink_backs_up": "no sink is fine", "new_disposal": "no",
    "filter_cleaned": "cleaned it last week", "check_result": "did that, no change", "name": "Maria Lopez",
    "access": "gate code 4411, dog in the yard",
}  # fmt: skip
DENVER = ZoneInfo("America/Denver")
BEFORE_THE_PUMP = {
    "seal": "Open the drain valve and measure its seal",
    "sump and screen": "feel sump, chopper and screen",
    "line": "Hose off at the sink end into the pan",
}
PUMP = "Only now the motor-and-pump assembly"


def booked(line: ServedLine) -> ServedLine:
    """A trickle drain up to a visit, all told."""
    line.text("my dishwasher drains only in a trickle")
    line.talk(KNOWN, until="offer")
    assert line.visits == [], "nothing is booked before they choose"
    line.text("1")
    line.talk(KNOWN, until="done")
    assert len(line.visits) == 1
    return line


def sheet_of(line: ServedLine) -> str:
    """The path of the sheet of the one visit."""
    with reading(line.deps.engine) as connection:
        visit = visit_by_id(connection, "demo", line.visits[0].id)
    assert visit is not None
    return sheet_path(line.deps, "demo", visit)


def mended(line: ServedLine, found: str) -> None:
    """The technician comes at the hour, opens the sheet and records what it was."""
    path = sheet_of(line)
    line.wait(seconds=(line.visits[0].end_at - line.clock()).total_seconds())
    form = {"ticket": line.focus.key, "found": found, "minutes": "45", "ended": "fixed", "did": "", "why": ""}
    recorded = line.submit(f"{path}/outcome", form)
    assert recorded.status_code == 303, recorded.text
    line.settle(seconds=20)


def told_on_call(line: ServedLine) -> list[str]:
    """The on-call phones that were told of this customer, in order."""
    rows = [row for row in line.rows(outbox) if row.kind == "on_call" and row.thread == line.thread.id]
    assert all(row.status == "sent" for row in rows)
    return [row.number for row in sorted(rows, key=lambda row: int(row.seq))]


# Settled by the owner


def test_a_vague_text_ends_with_the_filter_cleaned_and_no_visit(line: ServedLine) -> None:
    first = line.text("my dishwasher is not working right")
    assert len(first) == 1
    assert "STOP" in first[0]
    assert "1 " in first[0]
    line.text("water stays in the bottom and the dishes have grit on them")
    line.talk({"postal_code": "87110", "filter_cleaned": "never"}, until="check_result")
    assert line.state.asked is not None
    assert line.state.asked.code == "clean_filter"
    assert line.said.index("CAUTION") < line.said.index("Rinse"), "the caution stands before the step"
    line.text("did that, filter was packed with gunk. works fine now")
    assert line.ticket.closed == "settled_by_owner"
    assert line.focus.cause_found == "filter_clogged"
    assert line.every_visit == []
    assert line.alarms == []


def test_a_new_disposal_leads_to_the_knockout_plug_and_no_visit(line: ServedLine) -> None:
    line.text("dishwasher not workin properly")
    line.text("2. it doesnt drain at all since they put in the new disposal")
    assert "new_disposal" in line.focus.facts["after"]
    line.text("yea plumber did it friday")
    assert line.ticket.closed is None
    assert "knock out the plug" in line.said
    line.text("called him, he forgot it. works now")
    assert line.ticket.closed == "settled_by_owner"
    assert line.focus.cause_found == "knockout_plug_in"
    assert line.every_visit == []
    assert len(line.heard) == 4


def test_the_new_disposal_in_spanish(line: ServedLine) -> None:
    first = line.text("mi lavaplatos no desagua nada desde que instalaron el triturador nuevo")
    assert line.state.language == "es"
    assert line.thread.language == "es"
    assert "Escriba STOP" in first[0]
    line.talk({"postal_code": "87105", "new_disposal": "sí"}, until="check_result")
    assert line.state.asked is not None
    assert line.state.asked.code == "ask_installer_plug"
    assert "tapa de la entrada" in line.said
    assert "Nunca meta la mano" in line.said
    line.text("ya le llamé, se le olvidó. ya funciona bien")
    assert line.ticket.closed == "settled_by_owner"
    assert line.focus.cause_found == "knockout_plug_in"
    assert not re.search(r"\b(the|your|what|reply)\b", line.said, re.IGNORECASE), "Spanish throughout"


# To a visit


def test_a_trickle_drain_books_a_visit_whose_sheet_has_the_pump_last(line: ServedLine) -> None:
    booked(line)
    visit = line.visits[0]
    assert (visit.address, visit.postal_code, visit.status) == (ADDRESS, "87104", "standing")
    assert line.ticket.stage == "arranged"
    assert ADDRESS in line.said
    assert "$89" in line.said
    assert "4411" not in line.said, "the way in is kept and never said"
    page = line.get(sheet_of(line))
    assert page.status_code == 200
    order = page.text[page.text.index("Do in this order") : page.text.index('<h2 id="load-')]
    for what, step in BEFORE_THE_PUMP.items():
        assert step in order, what
        assert order.index(step) < order.index(PUMP), f"{what} comes before the pump"
    assert "drains only in a trickle" in page.text
    assert "4411" in page.text, "the technician is told the way in"


def test_a_sheet_opens_only_with_its_own_link(line: ServedLine) -> None:
    path = sheet_of(booked(line))
    assert line.get(path[:-2]).status_code == 404
    assert ADDRESS not in line.get(path[:-2]).text
    line.clock.forward(days=60)
    late = line.get(path)
    assert "expired" in late.text
    assert ADDRESS not in late.text


def test_a_visit_is_moved_by_text_and_stays_one_visit(line: ServedLine) -> None:
    before = booked(line).visits[0]
    line.text("something came up, can we move it to another day")
    assert line.visits[0].start_at == before.start_at, "it stands until another window is chosen"
    said = line.text("2")
    assert len(line.visits) == 1
    after = line.visits[0]
    assert after.id == before.id
    assert after.version == before.version + 1
    assert after.start_at != before.start_at
    assert f"{after.start_at.astimezone(DENVER).day} Dec" in said[0]


def test_a_visit_is_cancelled_by_text_after_one_question(line: ServedLine) -> None:
    booked(line)
    line.text("please cancel my visit")
    assert len(line.visits) == 1, "asked back first"
    line.text("yes")
    assert line.visits == []
    assert [(v.status, v.why) for v in line.every_visit] == [("cancelled", "cancelled by the customer")]
    assert line.ticket.closed == "withdrawn"
    assert line.wait(days=20) == [], "no reminder of a visit that is off"


def test_the_same_machine_a_month_after_its_repair_is_a_new_ticket_that_knows_the_old(line: ServedLine) -> None:
    booked(line)
    first = line.ticket
    mended(line, "drain_valve_seal_worn")
    with reading(line.deps.engine) as connection:
        kept = connection.execute(select(outcomes.c.found, outcomes.c.fixed, outcomes.c.minutes)).all()
    assert [tuple(row) for row in kept] == [("drain_valve_seal_worn", True, 45)]
    line.wait(days=31)
    line.text("hi its maria, dishwasher drains slow again")
    assert line.ticket.id != first.id
    assert line.ticket.earlier == first.key
    asked = line.talk(KNOWN, until="offer")
    assert "address" not in asked, "it is on file"
    line.text("1")
    line.talk(KNOWN, until="done")
    assert line.ticket.machine == first.machine
    assert line.visits[0].address == ADDRESS
    page = line.get(sheet_of(line)).text
    repairs = page[page.index("Prior repairs") : page.index('<h2 id="money')]
    assert "seal" in repairs.lower()
    assert "None on record" not in repairs


# Dangers


def test_a_burning_smell_is_stop_breaker_person_and_alarm(line: ServedLine) -> None:
    first = line.text("dryer stopped and there is a hot plastic smell and the plug looks brown")
    assert first[0].startswith("WARNING:")
    assert "911" in first[0]
    assert "breaker" in first[0]
    assert [(a.kind, a.acknowledged_at) for a in line.alarms] == [("danger", None)]
    handed = line.text("ok breaker is off")
    assert "person" in handed[0]
    line.text("yes everyone is fine")
    assert "505-555-0101" in line.text("so what now")[0], "a person has it now"
    assert line.ticket.level == "now"
    assert line.ticket.needs_person
    assert line.every_visit == []
    assert line.focus.checks == {}


def test_a_danger_does_not_wait_for_the_texts_to_rest(line: ServedLine) -> None:
    line.post("my dishwasher", identity="calm")
    line.post("there is smoke coming out of it", identity="danger")
    said = line.settle()
    assert len(line.turns) == 1
    assert said[0].startswith(("DANGER:", "WARNING:"))


@pytest.mark.parametrize(
    ("text", "signal", "language"),
    [
        ("dishwasher is leaking and the water is almost at the outlet", "DANGER:", "en"),
        ("el lavaplatos tira agua y está llegando al enchufe", "PELIGRO:", "es"),
    ],
)
def test_water_near_an_outlet_stops_everything(line: ServedLine, text: str, signal: str, language: str) -> None:
    first = line.text(text)
    assert first[0].startswith(signal)
    assert "nplug" not in first[0], "nobody is sent to a wet plug (source H6)"
    assert "water_near_power" in line.focus.hazards
    assert line.state.language == language
    assert [a.kind for a in line.alarms] == ["danger"]
    assert line.state.asked is None or line.state.asked.kind not in ("check_result", "offer")


def test_a_danger_after_hours_goes_to_the_on_call_phone_until_somebody_has_it_in_hand(line: ServedLine) -> None:
    line.wait(hours=12)
    assert line.text("huele a quemado la secadora")[0].startswith(("ADVERTENCIA:", "PELIGRO:"))
    first, second = line.deps.rulebook_of("demo").shop.on_call[:2]
    line.wait(minutes=1)
    assert told_on_call(line) == [first.number]
    line.wait(minutes=11)
    assert told_on_call(line) == [first.number, second.number], "nobody answered: the next one"
    line.of(second.number).text("OK, on it")
    line.wait(hours=1)
    assert told_on_call(line) == [first.number, second.number], "no further phone is woken"
    assert [a.acknowledged_by for a in line.alarms] == [second.name]
