"""What the simulated phone reads: the texts of one number as they went and came."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from service.storage.tables import messages, threads


@dataclass(frozen=True, slots=True)
class Bubble:
    """A text. mine: it came from the phone."""

    mine: bool
    text: str
    at: datetime
    media: int


def texts_of(connection: Connection, shop: str, thread: str, limit: int = 200) -> tuple[Bubble, ...]:
    """The last *limit* texts of a thread that have left or come, oldest first."""
    query = (
        select(messages.c.direction, messages.c.text, messages.c.at, messages.c.media)
        .where(messages.c.shop == shop, messages.c.thread == thread)
        .order_by(messages.c.at.desc(), messages.c.direction.desc(), messages.c.carrier_id.desc())
        .limit(limit)
    )
    found = [Bubble(row.direction == "in", row.text, row.at, len(row.media or ())) for row in connection.execute(query)]
    return tuple(reversed(found))


def simulated_numbers(connection: Connection, shop: str, gateway: str, limit: int = 20) -> tuple[str, ...]:
    """Numbers that wrote through *gateway*, the latest first."""
    query = (
        select(threads.c.number)
        .where(threads.c.shop == shop, threads.c.gateway == gateway)
        .order_by(threads.c.last_in_at.desc())
        .limit(limit)
    )
    return tuple(connection.execute(query).scalars())
