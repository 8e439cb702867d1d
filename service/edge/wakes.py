"""Wakes that are due: each takes one turn of its thread, in the transaction that marks it as rung."""

from __future__ import annotations

import logging

from sqlalchemy import Connection

from service.conversation.events import Woke
from service.edge import exchange
from service.edge.deps import Deps
from service.edge.parts import PARTS
from service.edge.problems import whereabouts
from service.storage import wakes
from service.storage.engine import reading, writing
from service.storage.wakes import WakeRow

log = logging.getLogger("plainfault.wakes")

REST = "rest"
"""The kind of wake that ends a rest: the thread's waiting texts are its events, it has none of its own."""

RETRY_S = 60
"""A wake whose turn could not even be begun rings again after this long, so that it holds up no other."""


def ring_due(deps: Deps, *, limit: int = 50) -> int:
    """
    Ring what is due, longest due first; how many rang.

    Two processes may see the same wake: the thread's lock puts them one behind the other, and the second finds it rung.
    """
    with reading(deps.engine) as connection:
        due = wakes.due(connection, deps.clock(), limit)
    return sum(_ring(deps, row) for row in due)


def _ring(deps: Deps, row: WakeRow) -> bool:
    rung: list[bool] = []

    def ring(connection: Connection) -> bool:
        rung.append(wakes.take(connection, row.id, row.due_at, deps.clock()))
        return rung[-1]

    try:
        if row.kind == REST:
            exchange.rest_over(deps, row.shop, row.thread, ring=ring)
        elif row.kind == PARTS:
            exchange.parts_over(deps, row.shop, row.thread, row.key.rpartition(":")[2], ring=ring)
        else:
            event = Woke(kind=row.kind, ticket=row.ticket, version=row.version, at=deps.clock())
            exchange.wake(deps, row.shop, row.thread, event, ring=ring)
    except Exception as wrong:
        why = {"why": type(wrong).__name__, "where": whereabouts(wrong)}
        log.error("a wake could not ring", extra={"thread_id": row.thread, "kind": row.kind, **why})
        _later(deps, row)
        return False
    return any(rung)


def _later(deps: Deps, row: WakeRow) -> None:
    with writing(deps.engine) as connection:
        wakes.put_off(connection, row.id, row.due_at, deps.clock(), RETRY_S)
