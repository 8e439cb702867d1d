"""Replies on their way out, as rows: how they are written, and what the office may do with one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, bindparam, func, select, update

from service.storage.engine import new_id
from service.storage.tables import outbox
from service.storage.upsert import insert_numbered

ALWAYS_GOES = ("danger", "consent", "on_call")
"""Kinds that no pause, no opt-out, no person holding the thread and no quiet hour keeps back."""

DEAD = ("failed", "unsure")
"""States only a person gets a row out of."""


@dataclass(frozen=True, slots=True)
class Outgoing:
    """
    A text to be sent.

    key: unique in the shop, so it is written once. kind: a ``ReplyKind``, or ``on_call`` for our own people. author:
    ``line`` or a user's login. status: ``waiting``, or ``draft`` until the office lets it go. visit, visit_version: the
    visit it speaks of; when that has moved on, the text is dropped unsent.
    """

    shop: str
    thread: str
    key: str
    number: str
    gateway: str
    kind: str
    text: str
    segments: int
    due_at: datetime
    author: str = "line"
    turn: str | None = None
    status: str = "waiting"
    ticket: str | None = None
    visit: str | None = None
    visit_version: int | None = None
    not_after: datetime | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """A row as the desk shows it."""

    id: str
    key: str
    kind: str
    author: str
    text: str
    segments: int
    status: str
    reason: str | None
    ticket: str | None
    attempts: int
    created_at: datetime
    sent_at: datetime | None
    thread: str
    number: str


_STANDING = tuple(outbox.c[name] for name in Standing.__slots__)


_BEFORE = outbox.alias("before")
_NEXT = (
    select(func.coalesce(func.max(_BEFORE.c.seq), 0) + 1)
    .where(_BEFORE.c.shop == bindparam("of_shop"), _BEFORE.c.number == bindparam("to"))
    .scalar_subquery()
)


def put(connection: Connection, outgoing: Outgoing, now: datetime) -> bool:
    """Write a text to be sent, behind all earlier ones of its number; False if its key was written before."""
    values = {name: getattr(outgoing, name) for name in Outgoing.__slots__}
    values |= {"id": new_id(), "created_at": now, "attempts": 0, "of_shop": outgoing.shop, "to": outgoing.number}
    return insert_numbered(connection, outbox, values, ("shop", "key"), seq=_NEXT)


def of_thread(connection: Connection, shop: str, thread: str) -> tuple[Standing, ...]:
    """Every text written for a thread, in order."""
    query = (
        select(*_STANDING).where(outbox.c.shop == shop, outbox.c.thread == thread).order_by(outbox.c.seq, outbox.c.id)
    )
    return tuple(Standing(*row) for row in connection.execute(query))


def in_status(connection: Connection, shop: str, statuses: Sequence[str]) -> tuple[Standing, ...]:
    """The shop's rows in one of *statuses*, oldest first: drafts, or the dead letters (``DEAD``)."""
    query = select(*_STANDING).where(outbox.c.shop == shop, outbox.c.status.in_(statuses))
    return tuple(Standing(*row) for row in connection.execute(query.order_by(outbox.c.created_at, outbox.c.id)))


def release(
    connection: Connection, shop: str, identity: str, now: datetime, *, text: str | None = None, segments: int = 0,
    by: str | None = None,
) -> bool:  # fmt: skip
    """
    Let a draft go, in other words if the office gave some (*segments* counts those); False if it is no draft.

    by: whoever holds the thread and sends it: the line's own words would be held back.
    """
    changed: dict[str, object] = {"status": "waiting", "due_at": now, "reason": None}
    if text is not None:
        changed |= {"text": text, "segments": segments}
    return _change(connection, shop, identity, ("draft",), changed | _author(by))


def discard(connection: Connection, shop: str, identity: str, reason: str) -> bool:
    """Drop a draft or a waiting row for *reason*; False if it is already on its way."""
    return _change(connection, shop, identity, ("draft", "waiting"), {"status": "dropped", "reason": reason})


def send_again(connection: Connection, shop: str, identity: str, now: datetime, *, by: str | None = None) -> bool:
    """Give a dead letter a fresh set of attempts; False if it is not dead. by: as for ``release``."""
    fresh = {"status": "waiting", "due_at": now, "attempts": 0, "reason": "sent again by the office", "not_after": None}
    return _change(connection, shop, identity, DEAD, fresh | _author(by))


def _author(by: str | None) -> dict[str, object]:
    return {"author": by} if by else {}


def _change(connection: Connection, shop: str, identity: str, was: Sequence[str], values: dict[str, object]) -> bool:
    statement = update(outbox).where(outbox.c.shop == shop, outbox.c.id == identity, outbox.c.status.in_(was))
    return connection.execute(statement.values(**values)).rowcount == 1


def written_at(connection: Connection, shop: str, key: str) -> datetime | None:
    """When the text with that *key* was written, or None if it never was."""
    query = select(outbox.c.created_at).where(outbox.c.shop == shop, outbox.c.key == key)
    return connection.execute(query).scalar_one_or_none()
