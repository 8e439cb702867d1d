"""Replies become outbox rows in the transaction that decided them: no row, no text."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, bindparam, update

from service.conversation.step import Reply
from service.storage import ready
from service.storage.outbox import ALWAYS_GOES, Outgoing, put
from service.storage.tables import outbox
from service.storage.threads import ThreadRow
from service.storage.tickets import ticket_id
from service.wording.segments import count

_DROP_UNSENT = (
    update(outbox)
    .where(outbox.c.shop == bindparam("of_shop"), outbox.c.number == bindparam("to"))
    .where(ready.one_of(outbox.c.status, ("waiting", "draft")), ~ready.one_of(outbox.c.kind, ALWAYS_GOES))
    .values(status="dropped")
)


def write_replies(
    connection: Connection,
    row: ThreadRow,
    replies: Sequence[Reply],
    *,
    turn: str,
    draft: bool,
    now: datetime,
) -> tuple[str, ...]:
    """
    Queue *replies* in order; with *draft* all but danger, consent and what a person had sent wait for the office. Gives the
    outbox keys.

    A danger drops that number's unsent ordinary rows: small talk after a warning would bury it.
    """
    if any(reply.kind == "danger" for reply in replies):
        drop_unsent(connection, row.shop, row.number, "overtaken by a danger")
    keys = []
    for place, reply in enumerate(replies, start=1):
        visit, version = reply.needs_visit or (None, None)
        outgoing = Outgoing(
            shop=row.shop, thread=row.id, key=f"{turn}:{place}", number=row.number, gateway=row.gateway,
            kind=reply.kind, text=reply.text, segments=len(count(reply.text).parts), due_at=now, author=reply.by or "line",
            turn=turn, status="draft" if draft and reply.by is None and reply.kind not in ALWAYS_GOES else "waiting",
            ticket=ticket_id(row.id, reply.ticket) if reply.ticket else None, visit=visit, visit_version=version,
            not_after=reply.not_after,
        )  # fmt: skip
        put(connection, outgoing, now)
        keys.append(outgoing.key)
    return tuple(keys)


def drop_unsent(connection: Connection, shop: str, number: str, why: str) -> int:
    """Drop a number's rows that have not left, but for danger and consent; gives how many."""
    return ready.change(connection, _DROP_UNSENT, {"of_shop": shop, "to": number, "reason": why})
