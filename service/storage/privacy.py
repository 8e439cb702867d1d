"""What is kept of a customer: shown whole, erased on request, purged when it is too old."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Table, delete, select, update

from service.storage.ledgers import alarms, buckets, consents, outcomes, unsent
from service.storage.tables import (
    households,
    machines,
    messages,
    outbox,
    threads,
    tickets,
    turns,
    visit_tickets,
    visits,
    wakes,
)


def export_customer(connection: Connection, shop: str, number: str) -> dict[str, list[dict[str, Any]]]:
    """Every row that is kept of *number*, by table; empty lists where there is none."""
    thread = _thread(connection, shop, number)
    found = {"threads": _rows(connection, threads, threads.c.shop == shop, threads.c.number == number)}
    for table in (messages, turns, outbox, wakes, tickets, alarms, unsent):
        found[table.name] = _rows(connection, table, table.c.shop == shop, table.c.thread == thread)
    found["consents"] = _rows(connection, consents, consents.c.shop == shop, consents.c.number == number)
    ticket_ids = [row["id"] for row in found["tickets"]]
    visit_ids = [
        row.visit
        for row in connection.execute(select(visit_tickets.c.visit).where(visit_tickets.c.ticket.in_(ticket_ids)))
    ]
    found["visits"] = _rows(connection, visits, visits.c.id.in_(visit_ids))
    found["outcomes"] = _rows(connection, outcomes, outcomes.c.ticket.in_(ticket_ids))
    household = found["threads"][0]["household"] if found["threads"] else None
    found["households"] = _rows(connection, households, households.c.id == household)
    found["machines"] = _rows(connection, machines, machines.c.household == household)
    return found


def erase_customer(connection: Connection, shop: str, number: str, now: datetime) -> dict[str, int]:
    """
    Erase *number*: texts, turns, state, tickets, waiting replies; visits keep their hours but no address.

    The proof of an opt-out stays (it protects the customer), and so do outcomes without words: they hold no person. Gives
    how many rows of each table went. A household goes when no other number lives there.
    """
    thread = _thread(connection, shop, number)
    if thread is None:
        return {}
    household = connection.execute(select(threads.c.household).where(threads.c.id == thread)).scalar_one()
    ids = [r.id for r in connection.execute(select(tickets.c.id).where(tickets.c.thread == thread))]
    held = select(visit_tickets.c.visit).where(visit_tickets.c.ticket.in_(ids))
    visit_ids = [r.visit for r in connection.execute(held)]
    blank: dict[str, Any] = {"address": "erased", "postal_code": "", "changed_at": now}
    connection.execute(update(visits).where(visits.c.id.in_(visit_ids)).values(**blank))
    connection.execute(
        update(outcomes).where(outcomes.c.ticket.in_(ids)).values(found_words="", did="", return_why=None, evidence={})
    )
    gone = {
        table.name: int(connection.execute(delete(table).where(table.c.thread == thread)).rowcount)
        for table in (messages, turns, outbox, wakes, alarms, tickets, unsent)
    }
    gone["threads"] = int(connection.execute(delete(threads).where(threads.c.id == thread)).rowcount)
    gone["buckets"] = int(
        connection.execute(
            delete(buckets).where(buckets.c.shop == shop, buckets.c.name.contains(number, autoescape=True))
        ).rowcount
    )
    shared = select(threads.c.id).where(threads.c.household == household)
    if household and connection.execute(shared).first() is None:
        connection.execute(delete(machines).where(machines.c.household == household))
        gone["households"] = int(connection.execute(delete(households).where(households.c.id == household)).rowcount)
    return gone


def purge(connection: Connection, shop: str, before: datetime) -> dict[str, int]:
    """Delete texts, turns, sent replies and rung wakes older than *before*; gives how many rows of each table went."""
    old = {
        messages: messages.c.at < before,
        turns: turns.c.at < before,
        outbox: (outbox.c.created_at < before) & outbox.c.status.not_in(("waiting", "leased", "draft")),
        wakes: wakes.c.done_at < before,
        alarms: alarms.c.acknowledged_at < before,
        unsent: unsent.c.at < before,
    }
    return {
        table.name: int(connection.execute(delete(table).where(table.c.shop == shop, which)).rowcount)
        for table, which in old.items()
    }


def _thread(connection: Connection, shop: str, number: str) -> str | None:
    query = select(threads.c.id).where(threads.c.shop == shop, threads.c.number == number)
    return connection.execute(query).scalar_one_or_none()


def _rows(connection: Connection, table: Table, *where: Any) -> list[dict[str, Any]]:
    return [dict(row._mapping) for row in connection.execute(select(table).where(*where))]
