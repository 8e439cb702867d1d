"""What the day view and the visit sheet read: visits with their tickets, outcomes, and the machine's earlier repairs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, select, update

from service.scheduling.model import Booked
from service.storage.ledgers import outcomes
from service.storage.tables import machines, tickets, visit_tickets, visits

STANDS = ("tentative", "standing")


@dataclass(frozen=True, slots=True)
class VisitRow:
    """A visit. status: tentative, standing, done, cancelled or missed. tickets: ids of the tickets it is for."""

    id: str
    technician: str
    day: date
    start_at: datetime
    end_at: datetime
    minutes: int
    lat: float
    lon: float
    address: str
    postal_code: str
    status: str
    version: int
    uid: str
    why: str | None
    created_at: datetime
    changed_at: datetime
    tickets: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OutcomeRow:
    """What was found and done. ticket_number: of the ticket it belongs to."""

    visit: str | None
    ticket: str
    ticket_number: int
    source: str
    found: str
    found_words: str
    did: str
    parts: list[str]
    minutes: int | None
    fixed: bool
    returning: str | None
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class MachineRow:
    """A machine of a household."""

    id: str
    appliance: str
    brand: str | None
    model: str | None
    serial: str | None
    facts: dict[str, Any]


_VISIT: tuple[Any, ...] = tuple(visits.c[name] for name in VisitRow.__slots__ if name != "tickets")
_OUTCOME: tuple[Any, ...] = (
    outcomes.c.visit, outcomes.c.ticket, tickets.c.number, outcomes.c.source, outcomes.c.found, outcomes.c.found_words,
    outcomes.c.did, outcomes.c.parts, outcomes.c.minutes, outcomes.c.fixed, outcomes.c.return_why, outcomes.c.by,
    outcomes.c.at,
)  # fmt: skip


def visit_by_id(connection: Connection, shop: str, visit: str) -> VisitRow | None:
    """The visit, or None."""
    return next(
        iter(_with_tickets(connection, select(*_VISIT).where(visits.c.shop == shop, visits.c.id == visit))), None
    )


def visits_of_day(connection: Connection, shop: str, day: date, technician: str | None = None) -> tuple[VisitRow, ...]:
    """The day's visits, cancelled ones too, by start; of one technician or of all."""
    query = select(*_VISIT).where(visits.c.shop == shop, visits.c.day == day)
    if technician is not None:
        query = query.where(visits.c.technician == technician)
    return _with_tickets(connection, query.order_by(visits.c.start_at, visits.c.technician, visits.c.id))


def visits_of_tickets(connection: Connection, shop: str, ids: Sequence[str]) -> tuple[VisitRow, ...]:
    """Every visit for any of these tickets, newest first."""
    found = select(visit_tickets.c.visit).where(visit_tickets.c.shop == shop, visit_tickets.c.ticket.in_(ids))
    query = select(*_VISIT).where(visits.c.shop == shop, visits.c.id.in_(found))
    return _with_tickets(connection, query.order_by(visits.c.start_at.desc(), visits.c.id))


def standing_visits(connection: Connection, shop: str) -> dict[str, VisitRow]:
    """Ticket id to the visit that stands or waits to be confirmed."""
    query = select(*_VISIT).where(visits.c.shop == shop, visits.c.status.in_(STANDS)).order_by(visits.c.start_at.desc())
    return {ticket: visit for visit in _with_tickets(connection, query) for ticket in visit.tickets}


def _with_tickets(connection: Connection, query: Any) -> tuple[VisitRow, ...]:
    rows: list[Any] = list(connection.execute(query))
    pairs = select(visit_tickets.c.visit, visit_tickets.c.ticket).where(
        visit_tickets.c.visit.in_([row.id for row in rows])
    )
    held: dict[str, list[str]] = {}
    for visit, ticket in connection.execute(pairs.order_by(visit_tickets.c.ticket)):
        held.setdefault(visit, []).append(ticket)
    return tuple(VisitRow(**row._mapping, tickets=tuple(held.get(row.id, ()))) for row in rows)


def make_stand(connection: Connection, shop: str, visit: str, now: datetime) -> None:
    """A visit that waited to be confirmed stands; one that stands already, or is over, stays as it is."""
    connection.execute(
        update(visits)
        .where(visits.c.shop == shop, visits.c.id == visit, visits.c.status == "tentative")
        .values(status="standing", changed_at=now)
    )


def outcomes_of_tickets(connection: Connection, shop: str, ids: Sequence[str]) -> tuple[OutcomeRow, ...]:
    """What was recorded for these tickets, newest first."""
    query = (
        select(*_OUTCOME)
        .join(tickets, tickets.c.id == outcomes.c.ticket)
        .where(outcomes.c.shop == shop, outcomes.c.ticket.in_(ids))
        .order_by(outcomes.c.at.desc())
    )
    return tuple(OutcomeRow(*row) for row in connection.execute(query))


def earlier_repairs(
    connection: Connection, shop: str, machine: str | None, before: Sequence[str], limit: int = 5
) -> tuple[OutcomeRow, ...]:
    """Outcomes on the same machine from other tickets than *before*, newest first."""
    if machine is None:
        return ()
    query = (
        select(*_OUTCOME)
        .join(tickets, tickets.c.id == outcomes.c.ticket)
        .where(outcomes.c.shop == shop, tickets.c.machine == machine, outcomes.c.ticket.not_in(before))
        .order_by(outcomes.c.at.desc())
        .limit(limit)
    )
    return tuple(OutcomeRow(*row) for row in connection.execute(query))


def machine_by_id(connection: Connection, shop: str, machine: str | None) -> MachineRow | None:
    """The machine, or None."""
    if machine is None:
        return None
    query = select(*(machines.c[name] for name in MachineRow.__slots__))
    row = connection.execute(query.where(machines.c.shop == shop, machines.c.id == machine)).one_or_none()
    return MachineRow(*row) if row else None


def booked_on(connection: Connection, shop: str, day: date) -> tuple[Booked, ...]:
    """What takes time on *day*, as the scheduling weighs it."""
    query = select(visits).where(visits.c.shop == shop, visits.c.day == day, visits.c.status.in_(STANDS))
    return tuple(
        Booked(r.id, r.technician, r.start_at, r.end_at, r.minutes, r.lat, r.lon) for r in connection.execute(query)
    )
