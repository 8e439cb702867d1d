"""Token buckets as rows, so that all processes together keep to one rate (cf. RFC 2697; computation notes, section 8)."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import BigInteger, Connection, Float, bindparam, case, select, type_coerce, update

from service.storage import ready
from service.storage.ledgers import buckets
from service.storage.upsert import insert_once

_MINE = (buckets.c.shop == bindparam("of_shop"), buckets.c.name == bindparam("named"))
_LOOK = select(buckets.c.tokens, buckets.c.at).where(*_MINE).with_for_update()
_FILL = update(buckets).where(*_MINE)

# What ``filled`` says, said to the database: where there are tokens, and there nearly always are, one statement takes them.
_AT, _NOW = type_coerce(buckets.c.at, BigInteger), type_coerce(bindparam("now", type_=buckets.c.at.type), BigInteger)
_GAINED = case((_NOW > _AT, (_NOW - _AT) * bindparam("per_micro", type_=Float)), else_=0.0)
_HELD, _BURST = buckets.c.tokens + _GAINED, bindparam("burst", type_=Float)
_FILLED = case((_HELD > _BURST, _BURST), else_=_HELD)
_WANTED = bindparam("wanted", type_=Float)
_TAKE = _FILL.where(_FILLED >= _WANTED).values(tokens=_FILLED - _WANTED, at=bindparam("now", type_=buckets.c.at.type))


def filled(tokens: float, at: datetime, now: datetime, *, per_second: float, burst: int) -> float:
    """What is *now* in a bucket that held *tokens* at the moment *at*."""
    # A clock that was set back must not empty the bucket.
    passed_s = max(0.0, (now - at).total_seconds())
    return min(float(burst), tokens + per_second * passed_s)


def draw(
    connection: Connection, shop: str, name: str, *, per_second: float, burst: int, now: datetime, wanted: int = 1
) -> timedelta:
    """
    Take *wanted* tokens of the bucket *name*; zero when they were there, else how long until they will be (none is taken).

    In any span of T seconds at most ``burst + per_second * T`` are given.
    """
    mine = {"of_shop": shop, "named": name}
    rate = {"now": now, "per_micro": per_second / 1_000_000, "burst": float(burst), "wanted": float(wanted)}
    if ready.change(connection, _TAKE, mine | rate) == 1:
        return timedelta()
    row = ready.row(connection, _LOOK, mine)
    if row is None:
        full = {"shop": shop, "name": name, "tokens": float(burst), "at": now}
        insert_once(connection, buckets, full, ("shop", "name"))
        row = ready.row(connection, _LOOK, mine)
    tokens = filled(row.tokens, row.at, now, per_second=per_second, burst=burst)
    wait = timedelta() if tokens >= wanted else timedelta(seconds=(wanted - tokens) / per_second)
    left = tokens - wanted if tokens >= wanted else tokens
    ready.change(connection, _FILL, {**mine, "tokens": left, "at": now})
    return wait
