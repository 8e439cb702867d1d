"""Proof of consent: who asked to stop or to start, in which words, when."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, insert

from service.conversation.events import Texted
from service.storage.engine import new_id
from service.storage.ledgers import consents
from service.storage.threads import ThreadRow


def note_consent(connection: Connection, row: ThreadRow, change: str, texts: Sequence[Texted], now: datetime) -> None:
    """Keep a change to ``in`` or ``out`` with the words that made it (none when the office did)."""
    last = texts[-1] if texts else None
    connection.execute(
        insert(consents).values(
            id=new_id(), shop=row.shop, number=row.number, change=change, words=last.text[:200] if last else "",
            message=last.id if last else None, at=now,
        )
    )  # fmt: skip
