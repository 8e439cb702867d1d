"""Wakes: moments at which a thread must be looked at again though nobody wrote."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import NamedTuple

from sqlalchemy import Connection, bindparam, select, update

from service.storage import ready
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


class NewWake(NamedTuple):
    """A wake to set; the fields are those of ``set_wake``."""

    kind: str
    key: str
    due: datetime
    ticket: str | None = None
    version: int | None = None


_COLUMNS = tuple(wakes.c[name] for name in WakeRow.__slots__)


_OPEN = update(wakes).where(wakes.c.shop == bindparam("of_shop"), wakes.c.done_at.is_(None))
_CLEAR = _OPEN.where(wakes.c.key == bindparam("keyed"))
_CLEAR_ALL = _OPEN.where(wakes.c.key.like(bindparam("like"), escape="/"))
_DUE = (
    select(*_COLUMNS)
    .where(wakes.c.done_at.is_(None), wakes.c.due_at <= bindparam("now"))
    .order_by(wakes.c.due_at, wakes.c.id)
    .limit(bindparam("most"))
)
_AS_SEEN = update(wakes).where(
    wakes.c.id == bindparam("wake"), wakes.c.done_at.is_(None), wakes.c.due_at == bindparam("seen")
)


def set_wake(
    connection: Connection,
    *,
    shop: str,
    thread: str,
    kind: str,
    key: str,
    due: datetime,
    ticket: str | None = None,
    version: int | None = None,
) -> None:
    """
    Wake *thread* at *due*; the same *key* again moves the wake, also one that has rung already.

    *key* is unique in the shop and begins with the thread's id and a colon.
    """
    set_wakes(connection, shop, thread, (NewWake(kind, key, due, ticket, version),))


def set_wakes(connection: Connection, shop: str, thread: str, new: Sequence[NewWake]) -> None:
    """As ``set_wake``, several of one thread at once."""
    values: list[dict[str, object]] = [
        {
            "id": new_id(), "shop": shop, "thread": thread, "kind": wake.kind, "key": wake.key, "ticket": wake.ticket,
            "version": wake.version, "data": {}, "due_at": wake.due, "done_at": None, "result": None,
        }
        for wake in new
    ]  # fmt: skip
    moved = ("kind", "ticket", "version", "due_at", "done_at", "result")
    insert_or_update(connection, wakes, values, ("shop", "key"), moved)


def clear(connection: Connection, shop: str, keys: Sequence[str], why: str, now: datetime) -> None:
    """Stop the wakes with those *keys*; one that ends in ``*`` stops all whose key begins so. *why* is kept."""
    values = {"of_shop": shop, "done_at": now, "result": why[:200]}
    alone = [key for key in keys if not key.endswith("*")]
    ready.change_each(connection, _CLEAR, [{**values, "keyed": key} for key in alone])
    for key in keys:
        if key.endswith("*"):
            begins = re.sub(r"([%_/])", r"/\1", key[:-1])
            ready.change(connection, _CLEAR_ALL, {**values, "like": f"{begins}%"})


def due(connection: Connection, now: datetime, limit: int = 100) -> tuple[WakeRow, ...]:
    """Wakes that should ring by *now*, longest due first. Each is still to be taken: another process may be at it."""
    return tuple(WakeRow(*row) for row in ready.rows(connection, _DUE, {"now": now, "most": limit}))


def next_due(connection: Connection) -> datetime | None:
    """When the next wake rings, or None."""
    query = select(wakes.c.due_at).where(wakes.c.done_at.is_(None)).order_by(wakes.c.due_at).limit(1)
    return connection.execute(query).scalar_one_or_none()


def take(connection: Connection, identity: str, due: datetime, now: datetime) -> bool:
    """
    Let the wake ring in this transaction: True once only, False if another rang it, or it was cleared or moved since.

    *due* is when it was due as seen before: a wake that moved on meanwhile must ring later, not now.
    """
    return _end(connection, identity, due, now, "rang")


def drop(connection: Connection, identity: str, due: datetime, now: datetime, why: str) -> bool:
    """End a stale wake without a turn, for *why*; False if it was moved or ended meanwhile."""
    return _end(connection, identity, due, now, why)


def put_off(connection: Connection, identity: str, due: datetime, now: datetime, wait_s: float) -> None:
    """Let a wake that could not ring do so *wait_s* later, unless it was moved or ended meanwhile."""
    ready.change(connection, _AS_SEEN, {"wake": identity, "seen": due, "due_at": now + timedelta(seconds=wait_s)})


def _end(connection: Connection, identity: str, due: datetime, now: datetime, result: str) -> bool:
    values = {"wake": identity, "seen": due, "done_at": now, "result": result[:200]}
    return ready.change(connection, _AS_SEEN, values) == 1
