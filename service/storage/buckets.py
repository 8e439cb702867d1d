"""Token buckets as rows, so that all processes together keep to one rate (cf. RFC 2697; computation notes, section 8)."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Connection, bindparam, select, update

from service.storage.ledgers import buckets
from service.storage.upsert import insert_once

_MINE = (buckets.c.shop == bindparam("of_shop"), buckets.c.name == bindparam("named"))
_LOOK = select(buckets.c.tokens, buckets.c.at).where(*_MINE).with_for_update()
_FILL = update(buckets).where(*_MINE)


def filled(tokens: float, at: datetime, now: datetime, *, per_second: float, burst: int) -> float:
    """What is *now* in a bucket that held *tokens* at the moment *at*."""
    # A clock that was set back must not empty the bucket.
    passed_s = max(0.0, (now - at).total_seconds())
    return min(float(burst), tokens + per_second * passed_s)


def draw(connection: Connection, shop: str, name: str, *, per_second: float, burst: int, now: datetime) -> timedelta:
    """
    Take one token of the bucket *name*; zero when there was one, else how long until there will be (none is taken).

    In any span of T seconds at most ``burst + per_second * T`` are given.
    """
    mine = {"of_shop": shop, "named": name}
    row = connection.execute(_LOOK, mine).one_or_none()
    if row is None:
        full = {"shop": shop, "name": name, "tokens": float(burst), "at": now}
        insert_once(connection, buckets, full, ("shop", "name"))
        row = connection.execute(_LOOK, mine).one()
    tokens = filled(row.tokens, row.at, now, per_second=per_second, burst=burst)
    wait = timedelta() if tokens >= 1 else timedelta(seconds=(1 - tokens) / per_second)
    left = tokens - 1 if tokens >= 1 else tokens
    connection.execute(_FILL, {**mine, "tokens": left, "at": now})
    return wait
