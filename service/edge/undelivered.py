"""A text that will not arrive: who must know, and what the conversation makes of it."""

from __future__ import annotations

import logging

from sqlalchemy import Connection

from service.conversation.events import DeliveryFailed
from service.edge.deps import Deps
from service.edge.exchange import act
from service.storage import alarms
from service.storage.leases import Leased

log = logging.getLogger("plainfault.sender")


def tell_people(connection: Connection, row: Leased, deps: Deps) -> None:
    """
    In the transaction that gives a text up: an undelivered danger alarms the office and, after hours, the phones.

    The danger's own alarm takes these words if it still stands, so that one danger does not ring twice.
    """
    if row.kind == "danger":
        words = "A danger instruction did not reach the customer. Call them."
        alarms.raise_alarm(
            connection, shop=row.shop, thread=row.thread, ticket=row.ticket, kind="danger", text=words,
            on_call=True, now=deps.clock(),
        )  # fmt: skip
    elif row.kind == "on_call":
        words = "An on-call phone could not be texted about a danger."
        alarms.raise_alarm(
            connection,
            shop=row.shop,
            thread=row.thread,
            ticket=row.ticket,
            kind="trouble",
            text=words,
            now=deps.clock(),
        )


def tell_waiting(connection: Connection, row: Leased, deps: Deps, why: str) -> None:
    """A text waits for a fault of ours: a danger is told at once as one that did not arrive, anything else to the desk."""
    if row.kind in ("danger", "on_call"):
        tell_people(connection, row, deps)
        return
    words = f"Texts to this customer wait: {why} Start the line again after that; they go out by themselves."
    alarms.raise_alarm(
        connection, shop=row.shop, thread=row.thread, ticket=row.ticket, kind="trouble", text=words, now=deps.clock()
    )


def tell_conversation(deps: Deps, row: Leased) -> None:
    """After that transaction: the thread takes a turn for it. A failure here leaves the alarm and the dead letter."""
    if row.kind == "on_call":
        return
    event = DeliveryFailed(key=row.key, danger=row.kind == "danger", at=deps.clock())
    try:
        act(deps, row.shop, row.thread, event)
    except LookupError:
        log.warning("an undelivered text has no thread any more", extra={"thread_id": row.thread})
