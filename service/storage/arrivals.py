"""What the carrier reports of texts that went out: which of ours it means, and whether it arrived."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, and_, or_, select, update

from service.storage.engine import new_id
from service.storage.leases import Leased, leased_by, note_sent
from service.storage.tables import outbox


def together_with(key: str) -> str:
    """The reference of a text that went out in one message with the one called *key*, whose receipt is about both."""
    return f"with {key}"


def _one_message(connection: Connection, shop: str, identity: str) -> Any:
    """What tells the rows of the message that *identity* went out in: itself, and what was sent with it."""
    key = connection.execute(select(outbox.c.key).where(outbox.c.shop == shop, outbox.c.id == identity)).scalar()
    return and_(outbox.c.shop == shop, or_(outbox.c.id == identity, outbox.c.carrier_ref == together_with(key or "")))


def find(connection: Connection, shop: str, gateway: str, key: str | None, reference: str | None) -> str | None:
    """The id of the text a receipt is about, by our key or else the gateway's own reference; None if it is not ours."""
    which = outbox.c.key == key if key else outbox.c.carrier_ref == reference
    query = select(outbox.c.id).where(outbox.c.shop == shop, outbox.c.gateway == gateway, which)
    return connection.execute(query.order_by(outbox.c.created_at.desc()).limit(1)).scalar_one_or_none()


def mark_delivered(connection: Connection, shop: str, identity: str, now: datetime) -> None:
    """It arrived; this also settles what nobody was sure of."""
    statement = update(outbox).where(_one_message(connection, shop, identity))
    there = statement.where(outbox.c.status.in_(("sent", "leased", "unsure", "failed")))
    if connection.execute(there.values(status="delivered", reason=None)).rowcount:
        note_sent(connection, shop, identity, now)


def mark_undelivered(connection: Connection, shop: str, identity: str, reason: str) -> Leased | None:
    """The carrier took it and could not deliver it: the row, or None if it is already known or was delivered."""
    token = new_id()
    statement = update(outbox).where(_one_message(connection, shop, identity))
    lost = statement.where(outbox.c.status.in_(("sent", "leased", "unsure")))
    if not connection.execute(lost.values(status="failed", reason=reason[:200], lease=token)).rowcount:
        return None
    rows = leased_by(connection, token)
    return next((row for row in rows if row.id == identity), rows[0])
