"""Tickets as rows: copied from the thread's state after every turn, so that the desk can sort, link and count them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, bindparam, insert, select, update

from service.conversation.state import Contact, State, TicketState
from service.storage import ready
from service.storage import threads as thread_rows
from service.storage.engine import new_id
from service.storage.shops import take_ticket_number
from service.storage.tables import households, machines, tickets
from service.storage.threads import ThreadRow
from service.storage.upsert import insert_once

_KNOWN = select(tickets.c.id, tickets.c.state, tickets.c.machine, tickets.c.household).where(
    tickets.c.shop == bindparam("of_shop"), tickets.c.thread == bindparam("of_thread")
)
_INSERT = insert(tickets)
_CHANGE = update(tickets).where(tickets.c.id == bindparam("ticket"))
_HOUSEHOLD = select(households.c.id).where(
    *(households.c[name] == bindparam(f"of_{name}") for name in ("shop", "address", "postal_code"))
)
_CHANGE_HOUSEHOLD = update(households).where(households.c.id == bindparam("household"))
_MACHINE = (
    select(machines.c.id)
    .where(machines.c.shop == bindparam("of_shop"), machines.c.household == bindparam("of_household"))
    .where(machines.c.appliance == bindparam("kind"))
    .order_by(machines.c.created_at)
    .limit(1)
)
_INSERT_MACHINE = insert(machines)
_CHANGE_MACHINE = update(machines).where(machines.c.id == bindparam("machine"))
_ON_MACHINE = select(tickets.c.id).where(
    tickets.c.shop == bindparam("of_shop"), tickets.c.machine == bindparam("on_machine"), tickets.c.closed.is_(None),
    tickets.c.id != bindparam("but"),
)  # fmt: skip


def ticket_id(thread: str, key: str) -> str:
    """The row id of a thread's ticket."""
    return f"{thread}-{key}"


def sync_known(
    connection: Connection, row: ThreadRow, state: State, document: Mapping[str, Any], now: datetime
) -> bool:
    """As ``sync`` if that takes writing alone; False, and nothing is done, if something must be looked up for it."""
    was = {one["key"]: one for one in row.state.get("tickets", ())}
    fresh = [
        (one, made) for one, made in zip(state.tickets, document["tickets"], strict=True) if was.get(one.key) != made
    ]
    if not fresh and document["contact"] == row.state.get("contact"):
        return True
    if _is_placed(state.contact) or any(one.key not in was for one, _ in fresh):
        return False
    for ticket, made in fresh:  # no address yet: they stay with no machine
        _change(connection, ticket_id(row.id, ticket.key), ticket, _columns(ticket, made), was[ticket.key], now)
    return True


def sync(connection: Connection, row: ThreadRow, state: State, document: Mapping[str, Any], now: datetime) -> None:
    """
    Bring the ticket rows in step with *state*, whose JSON is *document*; new tickets get a number, a household and a
    machine once known.
    """
    moved = document["contact"] != row.state.get("contact")
    known_to = row.household if _is_placed(state.contact) and not moved else None
    household = known_to or _household(connection, row.shop, state.contact, now, moved=moved)
    if household and moved:
        thread_rows.link_household(connection, row.id, household)
    rows = ready.rows(connection, _KNOWN, {"of_shop": row.shop, "of_thread": row.id}) if state.tickets else ()
    known = {one.id: one for one in rows}
    for ticket, made in zip(state.tickets, document["tickets"], strict=True):
        _sync_one(connection, row, ticket, made, known.get(ticket_id(row.id, ticket.key)), household, now)


def _sync_one(
    connection: Connection, row: ThreadRow, ticket: TicketState, document: Any, known: Any, household: str | None,
    now: datetime,
) -> None:  # fmt: skip
    identity = ticket_id(row.id, ticket.key)
    machine = known.machine if known else None
    if household and machine is None and ticket.closed is None:
        machine = _free_machine(connection, row.shop, household, ticket, identity, now)
    elif machine and ticket.closed is None and known.state.get("closed"):  # opened again: another may stand there now
        taken = ready.rows(connection, _ON_MACHINE, {"of_shop": row.shop, "on_machine": machine, "but": identity})
        machine = None if taken else machine
    values = {"household": household, "machine": machine, **_columns(ticket, document)}
    if known is None:
        number = take_ticket_number(connection, row.shop)
        fresh = {
            "id": identity, "shop": row.shop, "number": number, "thread": row.id, "key": ticket.key,
            "opened_at": ticket.opened_at, "changed_at": now, "closed_at": now if ticket.closed else None,
        }  # fmt: skip
        ready.change(connection, _INSERT, fresh | values)
    elif known.state != document or known.machine != machine or known.household != household:
        _change(connection, identity, ticket, values, known.state, now)
    if machine and (not known or known.state != document):
        _learn_machine(connection, machine, ticket)


def _columns(ticket: TicketState, document: Mapping[str, Any]) -> dict[str, Any]:
    """What the desk sorts and counts by, and the ticket whole."""
    names = ("appliance", "stage", "closed", "level", "needs_person", "earlier")
    return {"state": document, **{name: getattr(ticket, name) for name in names}}


def _change(
    connection: Connection, identity: str, ticket: TicketState, values: Mapping[str, Any], was: Mapping[str, Any],
    now: datetime,
) -> None:  # fmt: skip
    changed = bool(ticket.closed) != bool(was.get("closed"))
    closed_at = {"closed_at": now if ticket.closed else None} if changed else {}
    ready.change(connection, _CHANGE, {"ticket": identity, "changed_at": now, **values, **closed_at})


def _is_placed(contact: Contact) -> bool:
    return bool(contact.address and contact.postal_code)


def _household(connection: Connection, shop: str, contact: Contact, now: datetime, *, moved: bool) -> str | None:
    if not _is_placed(contact):
        return None
    key = {"shop": shop, "address": contact.address, "postal_code": contact.postal_code}
    which = {f"of_{name}": value for name, value in key.items()}
    found = ready.row(connection, _HOUSEHOLD, which)
    if found is None:
        fresh = {"id": new_id(), **key, "access": list(contact.access), "created_at": now}
        insert_once(connection, households, fresh, tuple(key))
        found = ready.row(connection, _HOUSEHOLD, which)
    identity = str(found.id)
    if contact.access and moved:
        ready.change(connection, _CHANGE_HOUSEHOLD, {"household": identity, "access": list(contact.access)})
    return identity


def _free_machine(
    connection: Connection, shop: str, household: str, ticket: TicketState, identity: str, now: datetime
) -> str | None:
    """The household's machine of that kind, made if new; None while another open ticket stands on it."""
    which = {"of_shop": shop, "of_household": household, "kind": ticket.appliance}
    found = ready.row(connection, _MACHINE, which)
    if found is None:
        machine = new_id()
        fresh = {"id": machine, "shop": shop, "household": household, "appliance": ticket.appliance, "facts": {}}
        ready.change(connection, _INSERT_MACHINE, {**fresh, "created_at": now})
        return machine
    taken = ready.rows(connection, _ON_MACHINE, {"of_shop": shop, "on_machine": found.id, "but": identity})
    return None if taken else str(found.id)


def _learn_machine(connection: Connection, machine: str, ticket: TicketState) -> None:
    told = {
        name: ticket.facts[name] for name in ("brand", "model", "serial") if isinstance(ticket.facts.get(name), str)
    }
    lasting = {name: ticket.facts[name] for name in ("age_years", "fuel", "variant") if name in ticket.facts}
    if told or lasting:
        values = {**told, **({"facts": lasting} if lasting else {})}
        ready.change(connection, _CHANGE_MACHINE, {"machine": machine, **values})
