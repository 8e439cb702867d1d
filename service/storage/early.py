"""Receipts that came before their text had the gateway's reference: kept until it has, or for a while."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, bindparam, delete, exists, select

from service.storage.ledgers import early_receipts
from service.storage.tables import outbox
from service.storage.upsert import insert_or_update

KEPT_FOR = timedelta(minutes=10)
"""Longer than any gateway takes to answer; what no text has claimed by then is about none of ours."""


@dataclass(frozen=True, slots=True)
class EarlyReceipt:
    """A receipt that waits. arrived: False for a text that could not be delivered."""

    shop: str
    gateway: str
    reference: str
    arrived: bool


_IN_HAND = (
    select(outbox.c.id)
    .where(outbox.c.shop == bindparam("of_shop"), outbox.c.gateway == bindparam("by"), outbox.c.status == "leased")
    .limit(1)
)
_COLUMNS = tuple(early_receipts.c[name] for name in EarlyReceipt.__slots__)
_SAME = (
    outbox.c.shop == early_receipts.c.shop,
    outbox.c.gateway == early_receipts.c.gateway,
    outbox.c.carrier_ref == early_receipts.c.reference,
)
_ANY = select(early_receipts.c.reference).limit(1)
_DUE = select(*_COLUMNS).where(exists().where(*_SAME)).order_by(early_receipts.c.at)
_OLD = delete(early_receipts).where(early_receipts.c.at < bindparam("before")).returning(*_COLUMNS)


def in_hand(connection: Connection, shop: str, gateway: str) -> bool:
    """Whether a text is with the gateway whose answer, and so whose reference, is not known yet."""
    return connection.execute(_IN_HAND, {"of_shop": shop, "by": gateway}).first() is not None


def keep(connection: Connection, receipt: EarlyReceipt, now: datetime) -> None:
    """Keep *receipt*; a later one with the same reference takes its place."""
    row = {
        "shop": receipt.shop, "gateway": receipt.gateway, "reference": receipt.reference, "arrived": receipt.arrived,
        "at": now,
    }  # fmt: skip
    insert_or_update(connection, early_receipts, [row], ("shop", "gateway", "reference"), ("arrived", "at"))


def due(connection: Connection, now: datetime) -> tuple[tuple[EarlyReceipt, ...], bool]:
    """The receipts whose text has its reference by now, and whether there are others too old to be waited for."""
    if connection.execute(_ANY).first() is None:
        return (), False
    old = select(early_receipts.c.reference).where(early_receipts.c.at < now - KEPT_FOR).limit(1)
    found = tuple(EarlyReceipt(*row) for row in connection.execute(_DUE))
    return found, connection.execute(old).first() is not None


def take(connection: Connection, receipt: EarlyReceipt) -> bool:
    """End the waiting of *receipt*; False if another process was sooner, or a later receipt took its place."""
    same = [column == getattr(receipt, column.name) for column in _COLUMNS]
    return bool(connection.execute(delete(early_receipts).where(*same)).rowcount == 1)


def forget_old(connection: Connection, now: datetime) -> tuple[EarlyReceipt, ...]:
    """Drop what was waited for long enough; what was dropped."""
    return tuple(EarlyReceipt(*row) for row in connection.execute(_OLD, {"before": now - KEPT_FOR}))
