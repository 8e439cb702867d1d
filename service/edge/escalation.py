"""Dangers nobody has acknowledged: after hours the on-call phones are texted, one after the other, until somebody does."""

from __future__ import annotations

import hashlib
import re
from datetime import datetime, timedelta

from sqlalchemy import Connection

from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.rulebook.schema.shop import OnCall, Shop
from service.scheduling.hours import is_open
from service.storage import alarms, outbox
from service.storage.alarms import DESK_ONLY, AlarmRow
from service.storage.engine import reading, writing
from service.storage.messages import mark_turn, record_inbound
from service.wording.segments import count, plain

ROUNDS = 3
"""How often the list of on-call phones is gone through before the line gives up until the desk opens."""

STAFF_THREAD = "staff"
"""The thread of texts from our own people: kept like all texts, but no conversation of a customer."""

THANKS = "Noted: you have it in hand. The other phones will not be texted about it."

_IN_HAND = re.compile(r"\W*(ok|okay|yes|si|sí|got it|on it|ack)\b", re.IGNORECASE)


def escalate(deps: Deps) -> int:
    """Text the next on-call phone of every alarm whose time has come; how many were texted."""
    with reading(deps.engine) as connection:
        standing = [row for row in alarms.open_alarms(connection) if row.rung != DESK_ONLY]
    return sum(_climb(deps, row) for row in standing)


def _climb(deps: Deps, row: AlarmRow) -> bool:
    try:
        shop, now = deps.rulebook_of(row.shop).shop, deps.clock()
    except KeyError:  # a shop that is not served any more; its alarm stays for whoever serves it again
        return False
    if not shop.on_call or row.rung >= ROUNDS * len(shop.on_call) or is_open(shop, now):
        return False
    person = shop.on_call[row.rung % len(shop.on_call)]
    with writing(deps.engine) as connection:
        told_at = _last_told(connection, row)
        if told_at is not None and now - told_at < timedelta(seconds=shop.policies.escalate_s):
            return False
        if not alarms.climb(connection, row.id, row.rung):
            return False
        return _tell(connection, deps, shop, person, row, now)


def _last_told(connection: Connection, row: AlarmRow) -> datetime | None:
    return None if row.rung == 0 else outbox.written_at(connection, row.shop, _key(row, row.rung - 1))


def _key(row: AlarmRow, rung: int) -> str:
    return f"alarm:{row.id}:{rung}"


def _tell(connection: Connection, deps: Deps, shop: Shop, person: OnCall, row: AlarmRow, now: datetime) -> bool:
    desk = deps.settings.base_url.rstrip("/")
    text = plain(f"{shop.name} line, after hours: {row.text} Desk: {desk}/desk Reply OK if you have it in hand.", "en")
    outgoing = outbox.Outgoing(
        shop=row.shop, thread=row.thread or "", key=_key(row, row.rung), number=person.number, gateway=shop.gateway,
        kind="on_call", text=text, segments=len(count(text).parts), due_at=now, ticket=row.ticket,
    )  # fmt: skip
    return outbox.put(connection, outgoing, now)


def taken_as_answer(deps: Deps, inbound: Inbound) -> bool:
    """
    Whether *inbound* is an on-call person's word that they have in hand what they were told of; then it is kept and acted
    on here. The phones are told in their order, so one is told once the alarm has climbed past its place.

    Anything else an on-call phone texts goes the way of every text: its owner may have a machine that leaks, too.
    """
    shop = deps.rulebook_of(inbound.shop).shop
    place = next((place for place, one in enumerate(shop.on_call) if one.number == inbound.sender), None)
    if place is None or not _IN_HAND.match(inbound.text):
        return False
    person = shop.on_call[place]
    now, key = deps.clock(), _thanks_key(inbound)
    with writing(deps.engine) as connection:
        told = [row for row in alarms.open_alarms(connection, inbound.shop) if row.rung > place]
        if not told:
            return outbox.written_at(connection, inbound.shop, key) is not None  # a repeat of what was thanked for
        fresh = record_inbound(
            connection, shop=inbound.shop, thread=STAFF_THREAD, gateway=inbound.gateway, carrier_id=inbound.carrier_id,
            text=inbound.text, media=inbound.media, carrier_at=inbound.carrier_at, now=now,
        )  # fmt: skip
        if fresh is not None:
            mark_turn(connection, [fresh], STAFF_THREAD)
            for row in told:
                alarms.acknowledge(connection, shop=row.shop, identity=row.id, by=person.name, now=now)
            _thank(connection, shop, person, inbound.gateway, key, now)
    return True


def _thanks_key(inbound: Inbound) -> str:
    identity = f"{inbound.gateway}\x1f{inbound.carrier_id}"
    return "in_hand:" + hashlib.sha256(identity.encode()).hexdigest()


def _thank(connection: Connection, shop: Shop, person: OnCall, gateway: str, key: str, now: datetime) -> None:
    outgoing = outbox.Outgoing(
        shop=shop.shop, thread="", key=key, number=person.number, gateway=gateway, kind="on_call", text=THANKS,
        segments=len(count(THANKS).parts), due_at=now,
    )  # fmt: skip
    outbox.put(connection, outgoing, now)
