"""The audit trail: who did what to what, and when. Rows are only ever added."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select

from service.storage.engine import new_id
from service.storage.ledgers import audit


@dataclass(frozen=True, slots=True)
class AuditRow:
    """One deed. who: a login, or ``link`` and what it was for. subject: ``ticket:1004``, ``user:maria``, ``shop``..."""

    at: datetime
    who: str
    did: str
    subject: str
    detail: dict[str, Any]


def record(
    connection: Connection,
    *,
    shop: str,
    at: datetime,
    who: str,
    did: str,
    subject: str,
    detail: Mapping[str, Any] | None = None,
) -> None:
    """Add a row. detail must hold no customer's number, address or text: the trail outlives them."""
    connection.execute(
        audit.insert().values(
            id=new_id(), shop=shop, at=at, who=who[:64], did=did, subject=subject[:80], detail=dict(detail or {})
        )
    )


def of_subject(connection: Connection, shop: str, subject: str, limit: int = 100) -> tuple[AuditRow, ...]:
    """What was done to *subject*, newest first."""
    query = (
        select(audit.c.at, audit.c.who, audit.c.did, audit.c.subject, audit.c.detail)
        .where(audit.c.shop == shop, audit.c.subject == subject)
        .order_by(audit.c.at.desc(), audit.c.id)
        .limit(limit)
    )
    return tuple(AuditRow(*row) for row in connection.execute(query))
