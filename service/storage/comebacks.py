"""A complaint that may have come back under another number: same kind of machine, same address or serial, within 30 days."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, func, or_, select

from service.storage.desk import TicketRow
from service.storage.ledgers import outcomes
from service.storage.reviews import COMES_BACK_WITHIN
from service.storage.tables import machines, threads, tickets


@dataclass(frozen=True, slots=True)
class Earlier:
    """An earlier ticket of another number. alike: what both share (``address``, ``serial number``). ended: its last outcome."""

    number: int
    phone: str
    state: dict[str, Any]
    alike: tuple[str, ...]
    ended: datetime
    same_machine: bool


def named(number: int) -> str:
    """How a ticket's ``earlier`` names one of another number."""
    return f"#{number}"


def possible(connection: Connection, shop: str, ticket: TicketRow) -> tuple[Earlier, ...]:
    """Tickets of other numbers that *ticket* may be a return of, the last first; for a person to confirm."""
    ended = func.coalesce(func.max(outcomes.c.at), tickets.c.closed_at).label("ended")
    columns = [tickets.c[name] for name in ("number", "household", "machine", "state", "closed_at")]
    shared = [threads.c.number.label("phone"), threads.c.state.label("thread_state"), machines.c.serial]
    query = (
        select(*columns, *shared, ended)
        .join(threads, threads.c.id == tickets.c.thread)
        .join(outcomes, outcomes.c.ticket == tickets.c.id, isouter=True)
        .join(machines, machines.c.id == tickets.c.machine, isouter=True)
        .where(tickets.c.shop == shop, tickets.c.appliance == ticket.appliance, tickets.c.thread != ticket.thread)
        .where(tickets.c.opened_at < ticket.opened_at, tickets.c.changed_at >= ticket.opened_at - COMES_BACK_WITHIN)
        .where(or_(outcomes.c.at.is_not(None), tickets.c.closed.in_(("repaired", "settled_by_owner"))))
        .group_by(*(column for column in (tickets.c.id, threads.c.id, machines.c.id)))
    )
    own = _marks(ticket.household, ticket.thread_state, ticket.state, ())
    found = []
    for row in connection.execute(query):
        alike = _alike(own, _marks(row.household, row.thread_state, row.state, (row.serial,)))
        if alike and ticket.opened_at - COMES_BACK_WITHIN <= row.ended < ticket.opened_at:
            same = row.machine is not None and row.machine == ticket.machine
            found.append(Earlier(row.number, row.phone, row.state, alike, row.ended, same))
    return tuple(sorted(found, key=lambda one: one.ended, reverse=True))


def confirmed_later(connection: Connection, shop: str, number: int) -> tuple[int, ...]:
    """Numbers of the tickets of which a person said that they came back from ticket *number*."""
    query = select(tickets.c.number).where(tickets.c.shop == shop, tickets.c.earlier == named(number))
    return tuple(connection.execute(query.order_by(tickets.c.number)).scalars())


Marks = dict[str, frozenset[str]]


def _marks(
    household: str | None, thread: dict[str, Any], state: dict[str, Any], serials: Iterable[str | None]
) -> Marks:
    contact = thread.get("contact") or {}
    address, code = _bare(contact.get("address")), _bare(contact.get("postal_code"))
    places = {household or "", f"{address} {code}" if address and code else ""}
    known = {_bare(one) for one in (*serials, (state.get("facts") or {}).get("serial"))}
    return {"address": frozenset(places - {""}), "serial number": frozenset(known - {""})}


def _alike(one: Marks, other: Marks) -> tuple[str, ...]:
    return tuple(name for name, marks in one.items() if not marks.isdisjoint(other[name]))


def _bare(text: object) -> str:
    """Letters and digits alone: how an address or a serial was typed does not matter."""
    return "".join(sign for sign in text.casefold() if sign.isalnum()) if isinstance(text, str) else ""
