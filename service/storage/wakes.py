"""Wakes: moments at which a thread must be looked at again though nobody wrote."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, Connection, select, update

from service.storage.engine import new_id
from service.storage.tables import wakes
from service.storage.upsert import insert_or_update


@dataclass(frozen=True, slots=True)
class WakeRow:
    """A wake as stored. key: unique within its thread. ticket, version: what it was set for."""

    id: str
    shop: str
    thread: str
    kind: str
    key: str
    ticket: str | None
    version: int | None
    due_at: datetime


_COLUMNS = tuple(wakes.c[name] for name in WakeRow.__slots__)


def set_wake(
    connection: Connection,
    *,
    shop: str,
    thread: str,
    kind: str,
    key: str,
    due_at: datetime,
    ticket: str | None = None,
    version: int | None = None,
) -> None:
    """Wake *thread* at *due_at*; the same *key* again moves the wake, also one that has rung already."""
    values: dict[str, object] = {
        "id": new_id(), "shop": shop, "thread": thread, "kind": kind, "key": f"{thread}:{key}", "ticket": ticket,
        "version": version, "data": {}, "due_at": due_at, "done_at": None, "result": None,
    }  # fmt: skip
    moved = ("kind", "ticket", "version", "due_at", "done_at", "result")
    insert_or_update(connection, wakes, values, ("shop", "key"), moved)


def clear(connection: Connection, *, shop: str, thread: str, keys: Sequence[str], now: datetime) -> None:
    """Wakes of *thread* that no longer apply: whole keys, or prefixes that end in ``*``."""
    for key in keys:
        name = f"{thread}:{key}"
        which: ColumnElement[bool] = (
            wakes.c.key.startswith(name[:-1], autoescape=True) if name.endswith("*") else wakes.c.key == name
        )
        open_ones = update(wakes).where(
            wakes.c.shop == shop, wakes.c.thread == thread, wakes.c.done_at.is_(None), which
        )
        connection.execute(open_ones.values(done_at=now, result="no longer applies"))


def due(connection: Connection, now: datetime, limit: int = 100) -> tuple[WakeRow, ...]:
    """Wakes that should ring by *now*, longest due first. Each is still to be taken: another process may be at it."""
    query = select(*_COLUMNS).where(wakes.c.done_at.is_(None), wakes.c.due_at <= now)
    return tuple(WakeRow(*row) for row in connection.execute(query.order_by(wakes.c.due_at, wakes.c.id).limit(limit)))


def next_due(connection: Connection) -> datetime | None:
    """When the next wake rings, or None."""
    query = select(wakes.c.due_at).where(wakes.c.done_at.is_(None)).order_by(wakes.c.due_at).limit(1)
    return connection.execute(query).scalar_one_or_none()


def take(connection: Connection, identity: str, now: datetime) -> WakeRow | None:
    """
    The wake, locked until the transaction ends; None if another took it, or it was cleared or moved beyond *now*.

    Lock the thread first and this second, as the turns do: the other way round two of them could wait for each other.
    """
    query = select(*_COLUMNS).where(wakes.c.id == identity, wakes.c.done_at.is_(None), wakes.c.due_at <= now)
    row = connection.execute(query.with_for_update(skip_locked=True)).one_or_none()
    return WakeRow(*row) if row else None


def finish(connection: Connection, identity: str, now: datetime, result: str) -> None:
    """The wake has rung; *result* says what came of it, or why it was stale."""
    connection.execute(update(wakes).where(wakes.c.id == identity).values(done_at=now, result=result[:200]))
