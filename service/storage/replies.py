"""Replies become outbox rows in the transaction that decided them: no row, no text."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, func, insert, select, update

from service.conversation.step import Reply
from service.storage.engine import new_id
from service.storage.tables import outbox
from service.storage.threads import ThreadRow
from service.wording.segments import count

ALWAYS = ("danger", "consent")
"""Kinds that nothing but the law holds back: neither draft, pause nor a person at the desk."""


def write_replies(
    connection: Connection,
    row: ThreadRow,
    replies: Sequence[Reply],
    *,
    turn: str,
    draft: bool,
    now: datetime,
    author: str = "line",
) -> tuple[str, ...]:
    """
    Queue *replies* in order; with *draft* all but danger and consent wait for the office. Gives the outbox keys.

    A danger drops that number's unsent ordinary rows: small talk after a warning would bury it.
    """
    if any(reply.kind == "danger" for reply in replies):
        drop_unsent(connection, row.shop, row.number, "overtaken by a danger")
    newest = select(func.coalesce(func.max(outbox.c.seq), 0)).where(
        outbox.c.shop == row.shop, outbox.c.number == row.number
    )
    seq = int(connection.execute(newest).scalar_one())
    keys = []
    for place, reply in enumerate(replies, start=1):
        key = f"{turn}:{place}"
        visit, version = reply.needs_visit or (None, None)
        connection.execute(
            insert(outbox).values(
                id=new_id(), shop=row.shop, thread=row.id, turn=turn, key=key, number=row.number, gateway=row.gateway,
                kind=reply.kind, author=author, text=reply.text, segments=len(count(reply.text).parts),
                status="draft" if draft and reply.kind not in ALWAYS else "waiting", ticket=_full(row, reply.ticket),
                visit=visit, visit_version=version, seq=seq + place, due_at=now, not_after=reply.not_after,
                attempts=0, created_at=now,
            )
        )  # fmt: skip
        keys.append(key)
    return tuple(keys)


def drop_unsent(connection: Connection, shop: str, number: str, why: str) -> int:
    """Drop a number's rows that have not left, but for danger and consent; gives how many."""
    statement = (
        update(outbox)
        .where(outbox.c.shop == shop, outbox.c.number == number, outbox.c.status.in_(("waiting", "draft")))
        .where(outbox.c.kind.not_in(ALWAYS))
        .values(status="dropped", reason=why)
    )
    return connection.execute(statement).rowcount


def _full(row: ThreadRow, ticket: str | None) -> str | None:
    return f"{row.id}-{ticket}" if ticket else None
