"""The technicians' days: read as a Diary, changed by compare-and-set on the day's version, so nobody is booked twice."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, bindparam, insert, select, update

from service.conversation.step import Book, CancelVisit, Move
from service.rulebook.schema.shop import Shop
from service.scheduling.model import Booked, Diary
from service.storage import ready
from service.storage.tables import diary_days, visit_tickets, visits
from service.storage.threads import ThreadRow
from service.storage.tickets import ticket_id
from service.storage.upsert import insert_once

TAKES_TIME = ("tentative", "standing")


_VERSIONS = select(diary_days.c.day, diary_days.c.version).where(
    diary_days.c.shop == bindparam("of_shop"), diary_days.c.day.between(bindparam("first"), bindparam("last"))
)
_BOOKED = (
    select(*(visits.c[name] for name in ("id", "technician", "start_at", "end_at", "minutes", "lat", "lon")))
    .where(visits.c.shop == bindparam("of_shop"), visits.c.day.between(bindparam("first"), bindparam("last")))
    .where(ready.one_of(visits.c.status, TAKES_TIME))
    .order_by(visits.c.start_at, visits.c.id)
)

_ADVANCE = (
    update(diary_days)
    .where(diary_days.c.shop == bindparam("of_shop"), diary_days.c.day == bindparam("of_day"))
    .values(version=diary_days.c.version + 1)
)
_ADVANCE_FROM = _ADVANCE.where(diary_days.c.version == bindparam("seen"))


# Built once: building a statement costs as much as running it.
_INSERT = insert(visits)
_INSERT_TICKETS = insert(visit_tickets)
_DAY_OF = select(visits.c.day).where(visits.c.id == bindparam("visit"))
_CHANGE = update(visits).where(visits.c.id == bindparam("visit")).values(version=visits.c.version + 1)
_CANCEL = _CHANGE.where(ready.one_of(visits.c.status, TAKES_TIME)).values(status="cancelled")


class DayChanged(Exception):
    """A day's diary has changed since it was read: take the turn again with a fresh one."""


def load_diary(connection: Connection, shop: Shop, now: datetime) -> Diary:
    """What stands in the days a window may be offered on, with the version of each day."""
    first = now.astimezone(ZoneInfo(shop.timezone)).date()
    days = [first + timedelta(days=n) for n in range(shop.windows.days_ahead + 1)]
    versions = dict.fromkeys(days, 0)
    span = {"of_shop": shop.shop, "first": days[0], "last": days[-1]}
    versions.update({row.day: row.version for row in ready.rows(connection, _VERSIONS, span)})
    booked = tuple(Booked(*row) for row in ready.rows(connection, _BOOKED, span))
    return Diary(booked=booked, versions=versions)


def apply(
    connection: Connection,
    row: ThreadRow,
    shop: Shop,
    change: Book | Move | CancelVisit,
    seen: Mapping[date, int],
    now: datetime,
) -> None:
    """
    Make one change of the diary.

    seen: the versions of the days as the decision saw them; a day that has moved on raises DayChanged. A day that was not
    loaded (an office booking far ahead) is taken as it stands.
    """
    if isinstance(change, Book):
        _book(connection, row, shop, change, seen, now)
    elif isinstance(change, Move):
        _move(connection, shop, change, seen, now)
    else:
        _cancel(connection, shop, change, now)


def _book(
    connection: Connection, row: ThreadRow, shop: Shop, change: Book, seen: Mapping[date, int], now: datetime
) -> None:
    day = _day(shop, change.start)
    _advance(connection, shop.shop, day, seen.get(day))
    lat, lon = _place(shop, change.postal_code)
    visit = {
        "id": change.visit, "shop": shop.shop, "technician": change.technician, "day": day, "start_at": change.start,
        "end_at": change.end, "minutes": change.minutes, "lat": lat, "lon": lon, "address": change.address,
        "postal_code": change.postal_code, "status": "tentative" if change.tentative else "standing", "version": 0,
        "uid": str(uuid.uuid4()), "created_at": now, "changed_at": now,
    }  # fmt: skip
    ready.change(connection, _INSERT, visit)
    of = [{"shop": shop.shop, "visit": change.visit, "ticket": ticket_id(row.id, key)} for key in change.tickets]
    ready.change_each(connection, _INSERT_TICKETS, of)


def _move(connection: Connection, shop: Shop, change: Move, seen: Mapping[date, int], now: datetime) -> None:
    old = ready.row(connection, _DAY_OF, {"visit": change.visit}).day
    day = _day(shop, change.start)
    for touched in sorted({old, day}):
        _advance(connection, shop.shop, touched, seen.get(touched))
    moved = {"technician": change.technician, "day": day, "start_at": change.start, "end_at": change.end}
    ready.change(connection, _CHANGE, {"visit": change.visit, **moved, "changed_at": now})


def _cancel(connection: Connection, shop: Shop, change: CancelVisit, now: datetime) -> None:
    standing = ready.row(connection, _DAY_OF, {"visit": change.visit})
    if standing is None:
        return
    _advance(connection, shop.shop, standing.day, None)
    ready.change(connection, _CANCEL, {"visit": change.visit, "why": change.why, "changed_at": now})


def _advance(connection: Connection, shop: str, day: date, seen: int | None) -> None:
    which = {"of_shop": shop, "of_day": day}
    if not seen:  # a version above 0 was read from the row, which stays
        insert_once(connection, diary_days, {"shop": shop, "day": day, "version": 0}, ("shop", "day"))
    if seen is None:
        advanced = ready.change(connection, _ADVANCE, which)
    else:
        advanced = ready.change(connection, _ADVANCE_FROM, {**which, "seen": seen})
    if advanced != 1:
        raise DayChanged(f"{shop}'s diary of {day} has changed")


def _day(shop: Shop, moment: datetime) -> date:
    return moment.astimezone(ZoneInfo(shop.timezone)).date()


def _place(shop: Shop, postal_code: str) -> tuple[float, float]:
    """The ZIP's point; outside the area (an office's own choice) the middle of the area."""
    known = shop.area.get(postal_code)
    if known:
        return known.lat, known.lon
    return (
        sum(a.lat for a in shop.area.values()) / len(shop.area),
        sum(a.lon for a in shop.area.values()) / len(shop.area),
    )
