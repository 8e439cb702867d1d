"""Alarms for the shop's own people: raised by turns and by the sender, open until somebody acknowledges."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select, update

from service.storage.engine import new_id
from service.storage.ledgers import alarms

DESK_ONLY = -1
"""The rung of an alarm that no on-call phone is told of."""


@dataclass(frozen=True, slots=True)
class AlarmRow:
    """An alarm. rung: how many times an on-call phone was told, or ``DESK_ONLY``."""

    id: str
    shop: str
    thread: str | None
    ticket: str | None
    kind: str
    text: str
    rung: int
    raised_at: datetime
    acknowledged_at: datetime | None
    acknowledged_by: str | None


_COLUMNS = tuple(alarms.c[name] for name in AlarmRow.__slots__)


def raise_alarm(
    connection: Connection,
    *,
    shop: str,
    kind: str,
    text: str,
    now: datetime,
    thread: str | None = None,
    ticket: str | None = None,
    on_call: bool = False,
) -> str:
    """
    Tell the desk, and with *on_call* after hours the on-call phones; the alarm's id.

    An open alarm of the same kind on the same thread takes the new words instead of ringing twice for one danger.
    """
    row = _standing(connection, shop, kind, thread)
    if row is not None:
        identity, rung = row
        rung = 0 if on_call and rung == DESK_ONLY else rung
        changed = update(alarms).where(alarms.c.id == identity)
        connection.execute(changed.values(text=text[:500], rung=rung, ticket=ticket))
        return identity
    identity = new_id()
    connection.execute(
        alarms.insert().values(
            id=identity, shop=shop, thread=thread, ticket=ticket, kind=kind, text=text[:500],
            rung=0 if on_call else DESK_ONLY, raised_at=now,
        )
    )  # fmt: skip
    return identity


def _standing(connection: Connection, shop: str, kind: str, thread: str | None) -> tuple[str, int] | None:
    if thread is None:
        return None
    query = select(alarms.c.id, alarms.c.rung).where(alarms.c.shop == shop, alarms.c.kind == kind)
    query = query.where(alarms.c.thread == thread, alarms.c.acknowledged_at.is_(None))
    row = connection.execute(query.order_by(alarms.c.raised_at).limit(1)).one_or_none()
    return (row.id, row.rung) if row else None


def open_alarms(connection: Connection, shop: str | None = None) -> tuple[AlarmRow, ...]:
    """Alarms nobody has acknowledged, oldest first; of one shop, or of all."""
    query = select(*_COLUMNS).where(alarms.c.acknowledged_at.is_(None))
    if shop is not None:
        query = query.where(alarms.c.shop == shop)
    return tuple(AlarmRow(*row) for row in connection.execute(query.order_by(alarms.c.raised_at, alarms.c.id)))


def acknowledge(connection: Connection, *, shop: str, identity: str, by: str, now: datetime) -> bool:
    """Somebody has it in hand; False if it was acknowledged already or is not there."""
    statement = (
        update(alarms)
        .where(alarms.c.shop == shop, alarms.c.id == identity, alarms.c.acknowledged_at.is_(None))
        .values(acknowledged_at=now, acknowledged_by=by)
    )
    return connection.execute(statement).rowcount == 1


def climb(connection: Connection, identity: str, rung: int) -> bool:
    """Go from *rung* to the next; False if another process has, or somebody acknowledged."""
    statement = update(alarms).where(alarms.c.id == identity, alarms.c.rung == rung, alarms.c.acknowledged_at.is_(None))
    return connection.execute(statement.values(rung=rung + 1)).rowcount == 1
