"""Every text that came or went, each carrier message once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, exists, func, select, update

from service.storage import ready
from service.storage.engine import new_id
from service.storage.parts import Place
from service.storage.tables import messages
from service.storage.upsert import insert_each_once, insert_once, insert_once_telling


@dataclass(frozen=True, slots=True)
class Waiting:
    """
    A text that no turn has taken yet. whole, part, of: of a piece of a long text, what its pieces share, its number, and how
    many there are.
    """

    id: str
    text: str
    media: int
    at: datetime
    carrier_at: datetime | None
    whole: str | None = None
    part: int | None = None
    of: int | None = None


@dataclass(frozen=True, slots=True)
class Arrived:
    """A text that was kept as taken by a turn. others: whether texts of its thread wait beside it."""

    text: Waiting
    others: bool


_OF_WAITING = (
    messages.c.id, messages.c.text, messages.c.media, messages.c.at, messages.c.carrier_at, messages.c.whole,
    messages.c.part, messages.c.parts,
)  # fmt: skip
_WAITING = (
    select(*_OF_WAITING)
    .where(messages.c.shop == bindparam("of_shop"), messages.c.thread == bindparam("of_thread"))
    .where(messages.c.turn.is_(None), messages.c.direction == "in")
    .order_by(func.coalesce(messages.c.carrier_at, messages.c.at), messages.c.at, messages.c.id)
)
_TAKE = (
    update(messages)
    .where(messages.c.shop == bindparam("of_shop"), messages.c.thread == bindparam("of_thread"))
    .where(messages.c.turn.is_(None), messages.c.direction == "in")
    .values(turn=bindparam("by_turn"))
    .returning(*_OF_WAITING)
)
_OTHERS_WAIT = select(
    exists()
    .where(messages.c.shop == bindparam("of_shop"), messages.c.thread == bindparam("of_thread"))
    .where(messages.c.turn.is_(None), messages.c.direction == "in")
).scalar_subquery()
_CHANGE = update(messages).where(messages.c.id == bindparam("message"))
_OF_DELIVERY = (
    messages.c.shop == bindparam("of_shop"),
    messages.c.gateway == bindparam("by"),
    messages.c.carrier_id == bindparam("carrier"),
)
_DELIVERY = ("shop", "gateway", "carrier_id")
_KEPT_ANSWER = select(messages.c.answer).where(*_OF_DELIVERY)
_IDENTITY = select(messages.c.id).where(*_OF_DELIVERY)


def record_inbound(
    connection: Connection,
    *,
    shop: str,
    thread: str,
    gateway: str,
    carrier_id: str,
    text: str,
    media: Sequence[str],
    carrier_at: datetime | None,
    now: datetime,
    place: Place | None = None,
) -> str | None:
    """Keep a text that came, or with *place* a piece of one; its id, or None if the carrier has delivered it before."""
    row = {
        **_came(shop, thread, gateway, carrier_id, text, media, carrier_at, now),
        "whole": place.whole if place else None, "part": place.number if place else None, "parts": place.of if place else None,
    }  # fmt: skip
    return str(row["id"]) if insert_once(connection, messages, row, _DELIVERY) else None


def record_taken(
    connection: Connection,
    *,
    shop: str,
    thread: str,
    gateway: str,
    carrier_id: str,
    text: str,
    media: Sequence[str],
    carrier_at: datetime | None,
    now: datetime,
    turn: str,
) -> Arrived | None:
    """
    As ``record_inbound`` for a text that *turn* takes at once: cheaper than keeping it first and taking it then.

    Whoever takes another turn or none must say so by ``mark_turn`` or ``put_back``.
    """
    row = _came(shop, thread, gateway, carrier_id, text, media, carrier_at, now)
    values = {**row, "turn": turn, "of_shop": shop, "of_thread": thread}
    told = insert_once_telling(connection, messages, values, _DELIVERY, _OTHERS_WAIT)
    if told is None:
        return None
    return Arrived(Waiting(str(row["id"]), text, len(media), now, carrier_at), others=bool(told[0]))


def _came(
    shop: str, thread: str, gateway: str, carrier_id: str, text: str, media: Sequence[str], carrier_at: datetime | None,
    now: datetime,
) -> dict[str, Any]:  # fmt: skip
    return {
        "id": new_id(), "shop": shop, "thread": thread, "direction": "in", "gateway": gateway, "carrier_id": carrier_id,
        "author": "customer", "text": text, "media": list(media), "carrier_at": carrier_at, "at": now,
    }  # fmt: skip


class Outbound(NamedTuple):
    """A text that went out. key: its outbox key, so that a repeated mark keeps it once."""

    shop: str
    thread: str
    gateway: str
    key: str
    author: str
    text: str


def record_outbound(connection: Connection, sent: Sequence[Outbound], now: datetime) -> None:
    """Keep texts that went out, each once however often this is said."""
    rows: list[dict[str, Any]] = [
        {
            "id": new_id(), "shop": one.shop, "thread": one.thread, "direction": "out", "gateway": one.gateway,
            "carrier_id": f"out:{one.key}", "author": one.author, "text": one.text, "media": [], "carrier_at": None,
            "at": now, "turn": None,
        }
        for one in sent
    ]  # fmt: skip
    insert_each_once(connection, messages, rows, _DELIVERY)


def waiting(connection: Connection, shop: str, thread: str) -> tuple[Waiting, ...]:
    """Texts no turn has taken, by the carrier's time, then by arrival."""
    rows = ready.rows(connection, _WAITING, {"of_shop": shop, "of_thread": thread})
    return tuple(_waiting(row) for row in rows)


def take_waiting(
    connection: Connection, shop: str, thread: str, turn: str, arrived: Arrived | None = None
) -> tuple[Waiting, ...]:
    """As ``waiting``, and from now on they are taken by *turn*, as *arrived* is already."""
    if arrived and not arrived.others:
        return (arrived.text,)
    rows = ready.rows(connection, _TAKE, {"of_shop": shop, "of_thread": thread, "by_turn": turn})
    taken = [*(_waiting(row) for row in rows), *((arrived.text,) if arrived else ())]
    return tuple(sorted(taken, key=lambda w: (w.carrier_at or w.at, w.at, w.id)))


def _waiting(row: Any) -> Waiting:
    return Waiting(row.id, row.text, len(row.media or ()), row.at, row.carrier_at, row.whole, row.part, row.parts)


def mark_turn(connection: Connection, ids: Sequence[str], turn: str) -> None:
    """These texts were taken by that turn."""
    if ids:
        ready.change_each(connection, _CHANGE, [{"message": identity, "turn": turn} for identity in ids])


def put_back(connection: Connection, identity: str) -> None:
    """No turn has taken that text: it waits again."""
    ready.change(connection, _CHANGE, {"message": identity, "turn": None})


def keep_answer(connection: Connection, identity: str, answer: Any) -> None:
    """Keep what the HTTP answer said, so that a repeat of the delivery is told the same."""
    ready.change(connection, _CHANGE, {"message": identity, "answer": answer})


def kept_answer(connection: Connection, shop: str, gateway: str, carrier_id: str) -> Any:
    """What the first delivery was answered, or None."""
    which = {"of_shop": shop, "by": gateway, "carrier": carrier_id}
    return connection.execute(_KEPT_ANSWER, which).scalar_one_or_none()


def identity_of(connection: Connection, shop: str, gateway: str, carrier_id: str) -> str | None:
    """The stored message of a delivery, or None."""
    which = {"of_shop": shop, "by": gateway, "carrier": carrier_id}
    return connection.execute(_IDENTITY, which).scalar_one_or_none()


def media_of(connection: Connection, shop: str, message: str) -> tuple[str, ...]:
    """The links that came with a text of *shop*, in the gateway's order; none for a text that is not there."""
    query = select(messages.c.media).where(
        messages.c.shop == shop, messages.c.id == message, messages.c.direction == "in"
    )
    return tuple(str(link) for link in connection.execute(query).scalar() or ())
