"""What the desk reads: tickets with their threads, what waits for somebody, the conversation, and why."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Select, func, or_, select

from service.storage.ledgers import alarms
from service.storage.searching import thread_matches, ticket_matches
from service.storage.tables import messages, outbox, shops, threads, tickets, turns, visits

MOST_ROWS = 300
"""Tickets on one page at most; a shop with more open ones searches."""

OPEN_REPLIES = ("draft", "waiting", "leased", "failed", "unsure")


@dataclass(frozen=True, slots=True)
class TicketRow:
    """A ticket and what the desk must know of its thread. state, contact: the JSON documents as saved."""

    id: str
    number: int
    thread: str
    key: str
    household: str | None
    machine: str | None
    appliance: str
    stage: str
    closed: str | None
    level: str
    needs_person: str | None
    state: dict[str, Any]
    earlier: str | None
    opened_at: datetime
    changed_at: datetime
    closed_at: datetime | None
    phone: str
    held_by: str | None
    thread_state: dict[str, Any]
    language: str
    last_in_at: datetime | None
    last_out_at: datetime | None


@dataclass(frozen=True, slots=True)
class TalkRow:
    """A thread as the desk shows it, also one that has no ticket."""

    id: str
    phone: str
    gateway: str
    state: dict[str, Any]
    held_by: str | None
    parked: str | None
    consent: str
    language: str
    last_in_at: datetime | None
    last_out_at: datetime | None


@dataclass(frozen=True, slots=True)
class HeardRow:
    """
    A text that came in. turn: the turn that took it, None while it rests. whole, part, parts: of a piece of a long text,
    what its pieces share, its number, and how many there are.
    """

    id: str
    text: str
    media: list[str]
    at: datetime
    turn: str | None
    whole: str | None = None
    part: int | None = None
    parts: int | None = None


@dataclass(frozen=True, slots=True)
class TurnRow:
    """Why: a turn's reasons as they were stored, and the edition they come from."""

    id: str
    number: int
    at: datetime
    edition: str
    reasons: tuple[dict[str, Any], ...]
    failed: str | None
    code_version: str


_TICKET = (
    tickets.c.id, tickets.c.number, tickets.c.thread, tickets.c.key, tickets.c.household, tickets.c.machine,
    tickets.c.appliance, tickets.c.stage, tickets.c.closed, tickets.c.level, tickets.c.needs_person, tickets.c.state,
    tickets.c.earlier, tickets.c.opened_at, tickets.c.changed_at, tickets.c.closed_at,
    threads.c.number.label("phone"), threads.c.held_by, threads.c.state.label("thread_state"), threads.c.language,
    threads.c.last_in_at, threads.c.last_out_at,
)  # fmt: skip

_TALK: tuple[Any, ...] = (
    threads.c.id, threads.c.number.label("phone"), threads.c.gateway, threads.c.state, threads.c.held_by,
    threads.c.parked, threads.c.consent, threads.c.language, threads.c.last_in_at, threads.c.last_out_at,
)  # fmt: skip


def _tickets(shop: str) -> Select[Any]:
    return select(*_TICKET).join(threads, threads.c.id == tickets.c.thread).where(tickets.c.shop == shop)


def list_tickets(
    connection: Connection, shop: str, *, closed: bool | None = False, search: str = "", limit: int = MOST_ROWS
) -> tuple[TicketRow, ...]:
    """
    The shop's tickets: open (False), closed (True) or both (None), last changed first.

    search: words that must all be found in the ticket's number, the phone number, who and where they are, or what was
    said, texted and read.
    """
    query = _tickets(shop)
    if closed is not None:
        query = query.where(tickets.c.closed.is_not(None) if closed else tickets.c.closed.is_(None))
    query = query.where(*ticket_matches(search))
    query = query.order_by(tickets.c.changed_at.desc(), tickets.c.number.desc()).limit(limit)
    return tuple(TicketRow(*row) for row in connection.execute(query))


def ticket_by_number(connection: Connection, shop: str, number: int) -> TicketRow | None:
    """The ticket with that number, or None."""
    row = connection.execute(_tickets(shop).where(tickets.c.number == number)).one_or_none()
    return TicketRow(*row) if row else None


def tickets_by_id(connection: Connection, shop: str, ids: Sequence[str]) -> tuple[TicketRow, ...]:
    """The tickets with these ids, by number."""
    query = _tickets(shop).where(tickets.c.id.in_(ids)).order_by(tickets.c.number)
    return tuple(TicketRow(*row) for row in connection.execute(query))


def tickets_of_thread(connection: Connection, shop: str, thread: str) -> tuple[TicketRow, ...]:
    """All tickets of a thread, newest first."""
    query = _tickets(shop).where(tickets.c.thread == thread).order_by(tickets.c.number.desc())
    return tuple(TicketRow(*row) for row in connection.execute(query))


def talk(connection: Connection, shop: str, thread: str) -> TalkRow | None:
    """The thread, or None."""
    row = connection.execute(select(*_TALK).where(threads.c.shop == shop, threads.c.id == thread)).one_or_none()
    return TalkRow(*row) if row else None


def talk_of_number(connection: Connection, shop: str, phone: str) -> TalkRow | None:
    """The thread of a phone number, or None if it never wrote."""
    row = connection.execute(select(*_TALK).where(threads.c.shop == shop, threads.c.number == phone)).one_or_none()
    return TalkRow(*row) if row else None


def talks_without_ticket(
    connection: Connection, shop: str, since: datetime, *, search: str = ""
) -> tuple[TalkRow, ...]:
    """
    Threads with no open ticket that were written to since *since*, or hold a draft, a dead letter or an open alarm.

    search: as for ``list_tickets``; then also threads of old that never had a ticket.
    """
    has_open = select(tickets.c.thread).where(tickets.c.shop == shop, tickets.c.closed.is_(None))
    waits = select(outbox.c.thread).where(outbox.c.shop == shop, outbox.c.status.in_(("draft", "failed", "unsure")))
    rings = select(alarms.c.thread).where(
        alarms.c.shop == shop, alarms.c.acknowledged_at.is_(None), alarms.c.thread.is_not(None)
    )
    busy = or_(threads.c.last_in_at >= since, threads.c.id.in_(waits), threads.c.id.in_(rings))
    if search.strip():
        busy = or_(busy, threads.c.id.not_in(select(tickets.c.thread).where(tickets.c.shop == shop)))
    query = select(*_TALK).where(threads.c.shop == shop, threads.c.id.not_in(has_open), busy, *thread_matches(search))
    query = query.order_by(threads.c.last_in_at.desc()).limit(MOST_ROWS)
    return tuple(TalkRow(*row) for row in connection.execute(query))


def heard(connection: Connection, shop: str, thread: str, limit: int = 400) -> tuple[HeardRow, ...]:
    """What the customer wrote, oldest first; the last *limit* texts."""
    query = (
        select(*(messages.c[name] for name in HeardRow.__slots__))
        .where(messages.c.shop == shop, messages.c.thread == thread, messages.c.direction == "in")
        .order_by(messages.c.at.desc(), messages.c.id.desc())
        .limit(limit)
    )
    return tuple(reversed([HeardRow(*row) for row in connection.execute(query)]))


def last_heard(connection: Connection, shop: str, ids: Sequence[str]) -> dict[str, str]:
    """The last text of each of these threads."""
    if not ids:
        return {}
    newest = (
        select(messages.c.thread, func.max(messages.c.at).label("at"))
        .where(messages.c.shop == shop, messages.c.thread.in_(ids), messages.c.direction == "in")
        .group_by(messages.c.thread)
        .subquery()
    )
    query = select(messages.c.thread, messages.c.text).join(
        newest, (messages.c.thread == newest.c.thread) & (messages.c.at == newest.c.at)
    )
    return {row.thread: row.text for row in connection.execute(query.where(messages.c.direction == "in"))}


def turns_of(connection: Connection, shop: str, thread: str, limit: int = 400) -> dict[str, TurnRow]:
    """The thread's turns by id; the last *limit*."""
    query = (
        select(turns.c.id, turns.c.number, turns.c.at, turns.c.edition, turns.c.step, turns.c.code_version)
        .where(turns.c.shop == shop, turns.c.thread == thread)
        .order_by(turns.c.number.desc())
        .limit(limit)
    )
    return {
        row.id: TurnRow(
            row.id, row.number, row.at, row.edition, tuple(row.step.get("reasons", ())), row.step.get("failed"),
            row.code_version,
        )
        for row in connection.execute(query)
    }  # fmt: skip


def replies_waiting(connection: Connection, shop: str) -> dict[str, dict[str, int]]:
    """Per thread how many replies are in each state that wants somebody: draft, failed, unsure."""
    query = (
        select(outbox.c.thread, outbox.c.status, func.count())
        .where(outbox.c.shop == shop, outbox.c.status.in_(("draft", "failed", "unsure")))
        .group_by(outbox.c.thread, outbox.c.status)
    )
    found: dict[str, dict[str, int]] = {}
    for thread, status, many in connection.execute(query):
        found.setdefault(thread, {})[status] = many
    return found


def change_marker(connection: Connection, shop: str, thread: str | None = None) -> str:
    """A short text that differs once something the desk shows has changed, of the shop or of one thread."""
    of_tickets, of_threads = tickets.c.shop == shop, threads.c.shop == shop
    of_outbox, of_alarms = outbox.c.shop == shop, alarms.c.shop == shop
    if thread is not None:
        of_tickets, of_threads = of_tickets & (tickets.c.thread == thread), of_threads & (threads.c.id == thread)
        of_outbox, of_alarms = of_outbox & (outbox.c.thread == thread), of_alarms & (alarms.c.thread == thread)
    seen: list[Any] = [
        connection.execute(
            select(func.count(), func.max(tickets.c.changed_at), func.max(tickets.c.number)).where(of_tickets)
        ).one(),
        connection.execute(
            select(func.max(threads.c.last_in_at), func.sum(threads.c.turns), func.count(threads.c.held_by)).where(
                of_threads
            )
        ).one(),
        connection.execute(
            select(outbox.c.status, func.count(), func.max(outbox.c.created_at), func.max(outbox.c.sent_at))
            .where(of_outbox, outbox.c.status.in_(OPEN_REPLIES) | (outbox.c.thread == (thread or "")))
            .group_by(outbox.c.status)
            .order_by(outbox.c.status)
        ).all(),
        connection.execute(
            select(func.count(), func.max(alarms.c.raised_at)).where(of_alarms, alarms.c.acknowledged_at.is_(None))
        ).one(),
        connection.execute(select(func.max(visits.c.changed_at)).where(visits.c.shop == shop)).one(),
        connection.execute(select(shops.c.autonomy, shops.c.paused).where(shops.c.shop == shop)).all(),
    ]
    return hashlib.sha256(repr([tuple(part) for part in seen]).encode()).hexdigest()[:16]


def turn_of_replies(connection: Connection, shop: str, thread: str) -> dict[str, str | None]:
    """Outbox row id to the turn that wrote it."""
    query = select(outbox.c.id, outbox.c.turn).where(outbox.c.shop == shop, outbox.c.thread == thread)
    return {row.id: row.turn for row in connection.execute(query)}


def text_about_visit(connection: Connection, shop: str, visit: str, version: int) -> str | None:
    """The text that told the customer of the visit as it stands (when, where, what it costs), as it was sent."""
    query = (
        select(outbox.c.text)
        .where(outbox.c.shop == shop, outbox.c.visit == visit, outbox.c.visit_version == version)
        .where(outbox.c.status.in_(("sent", "delivered", "unsure")))
        .order_by(outbox.c.seq)
        .limit(1)
    )
    return connection.execute(query).scalar_one_or_none()
