"""Threads: one conversation of one number with one shop, locked while a turn is taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, bindparam, select, update

from service.conversation.state import State
from service.storage import ready
from service.storage.engine import new_id
from service.storage.tables import shops, threads
from service.storage.upsert import insert_once


@dataclass(frozen=True, slots=True)
class ThreadRow:
    """
    A thread as stored. state: the JSON document as it was saved, of whatever shape. paced_to: the moment to which a person's
    pace would have taken its texts. household: where its number lives, once told. autonomy: how much the line may do alone,
    as the desk has switched its shop; None for a shop that was never installed.
    """

    id: str
    shop: str
    number: str
    gateway: str
    state: dict[str, Any]
    turns: int
    held_by: str | None
    parked: str | None
    consent: str
    last_in_at: datetime | None
    paced_to: datetime | None
    household: str | None
    autonomy: str | None


_COLUMNS = (
    threads.c.id, threads.c.shop, threads.c.number, threads.c.gateway, threads.c.state, threads.c.turns,
    threads.c.held_by, threads.c.parked, threads.c.consent, threads.c.last_in_at,
    threads.c.paced_to, threads.c.household, shops.c.autonomy,
)  # fmt: skip
_OF_SHOP = (
    select(*_COLUMNS).outerjoin(shops, shops.c.shop == threads.c.shop).where(threads.c.shop == bindparam("of_shop"))
)

# Statements of the hot path are built once and filled by parameters: building one costs more than running it.
_BY_NUMBER = _OF_SHOP.where(threads.c.number == bindparam("from_number")).with_for_update(of=threads)
_BY_ID = _OF_SHOP.where(threads.c.id == bindparam("thread")).with_for_update(of=threads)
_CHANGE = update(threads).where(threads.c.id == bindparam("thread"))
_CHANGE_AND_COUNT = _CHANGE.values(turns=threads.c.turns + 1)


def lock_by_number(connection: Connection, shop: str, number: str, gateway: str, now: datetime) -> ThreadRow:
    """The thread of *number*, made if it is new, locked until the transaction ends; replies go out by *gateway*."""
    which = {"of_shop": shop, "from_number": number}
    found = ready.row(connection, _BY_NUMBER, which)
    if found is None:
        _insert(connection, shop, number, gateway, now)
        found = ready.row(connection, _BY_NUMBER, which)
    row = _row(found)
    if row.gateway != gateway:
        _change(connection, row.id, gateway=gateway)
        row = replace(row, gateway=gateway)
    return row


def _insert(connection: Connection, shop: str, number: str, gateway: str, now: datetime) -> None:
    fresh = State()
    insert_once(
        connection,
        threads,
        {
            "id": new_id(), "shop": shop, "number": number, "gateway": gateway, "language": fresh.language,
            "consent": fresh.consent, "state": fresh.model_dump(mode="json"), "turns": 0, "created_at": now,
        },
        ("shop", "number"),
    )  # fmt: skip


def lock_by_id(connection: Connection, shop: str, thread: str) -> ThreadRow | None:
    """The thread with that id, locked until the transaction ends, or None."""
    row = ready.row(connection, _BY_ID, {"of_shop": shop, "thread": thread})
    return _row(row) if row else None


def _row(row: Any) -> ThreadRow:
    return ThreadRow(*row)


def _change(connection: Connection, thread: str, **values: Any) -> None:
    ready.change(connection, _CHANGE, {"thread": thread, **values})


def save(connection: Connection, row: ThreadRow, document: Mapping[str, Any]) -> None:
    """Keep the state *document* after a turn; consent and language are copied to columns that sender and desk read."""
    values = {name: document[name] for name in ("language", "consent")}
    ready.change(connection, _CHANGE_AND_COUNT, {"thread": row.id, "state": document, **_came(row), **values})


def note_inbound(connection: Connection, row: ThreadRow) -> None:
    """Remember when the customer last wrote, where no turn does."""
    _change(connection, row.id, **_came(row))


def _came(row: ThreadRow) -> dict[str, Any]:
    return {"last_in_at": row.last_in_at, "paced_to": row.paced_to}


def hold(connection: Connection, thread: str, by: str | None) -> None:
    """Let a person hold the thread (the line is silent then), or hand it back with None."""
    _change(connection, thread, held_by=by)


def park(connection: Connection, thread: str, why: str | None) -> None:
    """Park a thread as spam or abuse: its texts are kept and screened for danger, and not answered."""
    _change(connection, thread, parked=why)


def link_household(connection: Connection, thread: str, household: str) -> None:
    """The thread's number belongs to this household now."""
    _change(connection, thread, household=household)


def save_turn_count(connection: Connection, row: ThreadRow) -> None:
    """Count a turn that failed: its record stands, its state does not."""
    ready.change(connection, _CHANGE_AND_COUNT, {"thread": row.id, **_came(row)})
