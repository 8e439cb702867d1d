"""Pieces of long texts: each a message of its own, and which of them are held until the others have come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select, update

from service.storage.tables import messages

HELD = "part"
"""Stands for the turn of a piece that waits for the others: no turn takes it until it is let go."""

LEFT_OUT = ("machine", "flood")
"""Stand for the turn of texts that get none."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece stands. whole: what all pieces of one text share. number: from 0 or 1. of: how many there are."""

    whole: str
    number: int
    of: int


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece that came. turn: what took it, or one of the words above."""

    id: str
    whole: str
    number: int
    text: str
    at: datetime
    turn: str | None


_PIECES = select(messages.c.id, messages.c.whole, messages.c.part, messages.c.text, messages.c.at, messages.c.turn)


def pieces_since(connection: Connection, shop: str, thread: str, begins: str, since: datetime) -> tuple[Piece, ...]:
    """The pieces of a thread that came since *since* and whose whole begins with *begins*, oldest first."""
    query = _PIECES.where(messages.c.shop == shop, messages.c.thread == thread, messages.c.at >= since)
    query = query.where(messages.c.whole.startswith(begins, autoescape=True))
    return tuple(Piece(*row) for row in connection.execute(query.order_by(messages.c.at, messages.c.id)))


def let_go(connection: Connection, shop: str, thread: str, whole: str, *, left_out: bool) -> int:
    """Let the next turn take the held pieces of *whole*, and with *left_out* those that were to get none; how many."""
    statement = update(messages).where(
        messages.c.shop == shop, messages.c.thread == thread, messages.c.whole == whole,
        messages.c.turn.in_((HELD, *LEFT_OUT) if left_out else (HELD,)),
    )  # fmt: skip
    return int(connection.execute(statement.values(turn=None)).rowcount)


def rewrite(connection: Connection, shop: str, identity: str, text: str) -> None:
    """Keep *text* instead of what a piece said: only to hide what must not be kept."""
    which: Any = (messages.c.shop == shop, messages.c.id == identity)
    connection.execute(update(messages).where(*which).values(text=text))
