"""
The sender's side of the outbox: which texts are next, who is sending one, and what came of it.

A lease has an end and a fencing token: a mark counts only while its token still stands on the row, so a sender that was
slow or was thought dead cannot overwrite what another has done since.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from typing import Any

from sqlalchemy import Connection, and_, bindparam, case, exists, or_, select, update

from service.storage import ready
from service.storage.engine import new_id
from service.storage.messages import Outbound, record_outbound
from service.storage.outbox import ALWAYS_GOES
from service.storage.tables import outbox, shops, threads, visits


@dataclass(frozen=True, slots=True)
class Leased:
    """
    A row in a sender's hands, with what it must look at again before it sends.

    attempts: this one counted. consent, held_by: of the thread now. visit_now: the version of the visit it speaks of, if
    that still stands.
    """

    id: str
    lease: str
    shop: str
    thread: str
    key: str
    number: str
    gateway: str
    kind: str
    author: str
    text: str
    segments: int
    seq: int
    attempts: int
    not_after: datetime | None
    visit: str | None
    visit_version: int | None
    ticket: str | None
    consent: str | None
    held_by: str | None
    paused: bool
    visit_now: int | None
    shop_number: str | None


@dataclass(frozen=True, slots=True)
class Work:
    """Whether there may be something to do: leases that ended, texts due inside this service, texts due outside it."""

    expired: bool
    local: bool
    outside: bool


_OF_THREAD = (
    select(outbox.c.id)
    .where(outbox.c.shop == bindparam("of_shop"), outbox.c.thread == bindparam("of_thread"), outbox.c.kind != "on_call")
    .where(outbox.c.status == "waiting", outbox.c.due_at <= bindparam("now"))
    .with_for_update(skip_locked=True)
)
_LEASE = (
    update(outbox)
    .where(outbox.c.id == bindparam("row"), outbox.c.status == "waiting")
    .values(status="leased", attempts=outbox.c.attempts + 1)
)
_MARK = update(outbox).where(outbox.c.id == bindparam("row"), outbox.c.lease == bindparam("token"))
# A receipt can overtake the gateway's answer; it has set the state then, and that state stays.
_SENT = _MARK.values(status=case((outbox.c.status == "leased", "sent"), else_=outbox.c.status))
_TOKENS = select(outbox.c.id, outbox.c.lease).where(outbox.c.id.in_(bindparam("ids", expanding=True)))
_LAST_OUT = update(threads).where(threads.c.id == bindparam("of_thread"), threads.c.shop == bindparam("of_shop"))


def look(connection: Connection, now: datetime, local: Collection[str]) -> Work:
    """A look without a lock; it says yes too often rather than no."""
    found = ready.row(connection, _looking(tuple(local)), {"now": now})
    return Work(*(bool(one) for one in found))


@cache  # statements are built once for each list of gateways: building one costs more than running it
def _looking(local: tuple[str, ...]) -> Any:
    due = (outbox.c.status == "waiting", outbox.c.due_at <= bindparam("now"))
    ended = exists().where(outbox.c.status == "leased", outbox.c.lease_until < bindparam("now"))
    inside = exists().where(*due, ready.one_of(outbox.c.gateway, local))
    outside = exists().where(*due, ~ready.one_of(outbox.c.gateway, local))
    return select(ended, inside, outside)


def lease(
    connection: Connection,
    now: datetime,
    until: datetime,
    limit: int,
    *,
    local: tuple[Collection[str], bool],
    younger_left: tuple[Collection[str], timedelta],
) -> tuple[Leased, ...]:
    """
    Take up to *limit* texts that are due, danger first, one number at a time and in order.

    local: the gateways inside this service, and whether theirs are wanted or all others. younger_left: gateways whose
    replies travel in the HTTP answer, and for how long a row is left to that answer.
    """
    inside, wanted = local
    gateways, grace = younger_left
    query = _next(tuple(inside), wanted, tuple(gateways))
    span = {"now": now, "most": limit, "left_until": now - grace}
    return _take(connection, [row.id for row in ready.rows(connection, query, span)], until)


@cache
def _next(inside: tuple[str, ...], wanted: bool, gateways: tuple[str, ...]) -> Any:
    query = select(outbox.c.id).where(outbox.c.status == "waiting", outbox.c.due_at <= bindparam("now"), _may_go())
    here = ready.one_of(outbox.c.gateway, inside)
    query = query.where(here if wanted else ~here)
    if gateways:
        query = query.where(
            or_(~ready.one_of(outbox.c.gateway, gateways), outbox.c.created_at <= bindparam("left_until"))
        )
    query = query.order_by(_pressing(), outbox.c.due_at, outbox.c.seq).limit(bindparam("most"))
    return query.with_for_update(skip_locked=True, of=outbox)


def lease_of_thread(
    connection: Connection, shop: str, thread: str, now: datetime, until: datetime
) -> tuple[Leased, ...]:
    """Take everything of one thread that is due now, in order: for a reply that travels in the HTTP answer."""
    which = {"of_shop": shop, "of_thread": thread, "now": now}
    return _take(connection, [row.id for row in ready.rows(connection, _OF_THREAD, which)], until)


def _pressing() -> Any:
    return case((outbox.c.kind == "danger", 0), (outbox.c.kind == "on_call", 1), else_=2)


def _may_go() -> Any:
    """Nothing of the same number stands before it. A danger waits behind nothing; ordinary texts keep their order."""
    other = outbox.alias("other")
    same = and_(other.c.shop == outbox.c.shop, other.c.number == outbox.c.number, other.c.id != outbox.c.id)
    earlier = and_(
        other.c.status == "waiting",
        other.c.seq < outbox.c.seq,
        # What we begin ourselves may wait for the morning; answers written meanwhile do not wait for it.
        or_(other.c.kind != "started", other.c.due_at <= bindparam("now"), other.c.attempts > 0),
    )
    ahead = exists().where(same, or_(other.c.status == "leased", earlier))
    always_ahead = exists().where(
        same, or_(other.c.status == "leased", earlier), ready.one_of(other.c.kind, ALWAYS_GOES)
    )
    always = ready.one_of(outbox.c.kind, ALWAYS_GOES)
    paused = exists().where(shops.c.shop == outbox.c.shop, shops.c.paused.is_(True))
    return or_(
        outbox.c.kind == "danger",
        and_(always, ~always_ahead),
        and_(~always, ~ahead, ~paused),
    )


def _take(connection: Connection, ids: Collection[str], until: datetime) -> tuple[Leased, ...]:
    if not ids:
        return ()
    token = new_id()
    ready.change_each(connection, _LEASE, [{"row": identity, "lease": token, "lease_until": until} for identity in ids])
    return tuple(row for row in leased_by(connection, token) if row.id in ids)


def leased_by(connection: Connection, token: str) -> tuple[Leased, ...]:
    """The rows on which the lease *token* stands."""
    return tuple(Leased(*row) for row in ready.rows(connection, _leased(), {"token": token}))


@cache
def _leased() -> Any:
    visit_now = case((ready.one_of(visits.c.status, ("tentative", "standing")), visits.c.version), else_=None)
    own = [outbox.c[name] for name in Leased.__slots__[:17]]
    return (
        select(*own, threads.c.consent, threads.c.held_by, shops.c.paused, visit_now, shops.c.number)
        .select_from(outbox)
        .outerjoin(threads, and_(threads.c.id == outbox.c.thread, threads.c.shop == outbox.c.shop))
        .outerjoin(shops, shops.c.shop == outbox.c.shop)
        .outerjoin(visits, and_(visits.c.id == outbox.c.visit, visits.c.shop == outbox.c.shop))
        .where(outbox.c.lease == bindparam("token"))
        .order_by(_pressing(), outbox.c.seq)
    )


def drop_before(connection: Connection, row: Leased, reason: str) -> int:
    """Drop the ordinary texts of *row*'s number that were written before it and are not on their way; how many."""
    statement = (
        update(outbox)
        .where(outbox.c.shop == row.shop, outbox.c.number == row.number, outbox.c.seq < row.seq)
        .where(outbox.c.status.in_(("waiting", "draft")), outbox.c.kind.not_in(ALWAYS_GOES))
    )
    return int(connection.execute(statement.values(status="dropped", reason=reason)).rowcount)


def mark_sent(connection: Connection, row: Leased, now: datetime, carrier_ref: str | None = None) -> bool:
    """The carrier took it: kept as an outbound message. False if the lease was lost meanwhile."""
    return bool(mark_all_sent(connection, [(row, carrier_ref)], now))


def mark_all_sent(connection: Connection, taken: Sequence[tuple[Leased, str | None]], now: datetime) -> Collection[str]:
    """
    As ``mark_sent`` for several, each with its carrier's reference, in as many statements as for one.

    Gives the ids of those whose lease was not lost meanwhile.
    """
    marks = [
        {"row": row.id, "token": row.lease, "sent_at": now, "carrier_ref": carrier_ref, "reason": None}
        for row, carrier_ref in taken
    ]
    if ready.change_each(connection, _SENT, marks) != len(marks):
        stands = connection.execute(_TOKENS, {"ids": [row.id for row, _ in taken]})
        tokens = {row.id: row.lease for row in stands}
        taken = [(row, carrier_ref) for row, carrier_ref in taken if tokens.get(row.id) == row.lease]
    _note_sent(connection, [row for row, _ in taken], now)
    return {row.id for row, _ in taken}


def note_sent(connection: Connection, shop: str, identity: str, now: datetime) -> None:
    """Keep a sent text among the thread's messages, once however often this is said; texts to our own people are not."""
    row = connection.execute(select(outbox).where(outbox.c.shop == shop, outbox.c.id == identity)).one()
    _note_sent(connection, [row], now)


def _note_sent(connection: Connection, rows: Sequence[Any], now: datetime) -> None:
    # In the order of their threads, so that two senders never wait for each other's.
    told = sorted((row for row in rows if row.kind != "on_call"), key=lambda row: str(row.thread))
    if not told:
        return
    record_outbound(
        connection, [Outbound(row.shop, row.thread, row.gateway, row.key, row.author, row.text) for row in told], now
    )
    out = [{"of_shop": row.shop, "of_thread": row.thread, "last_out_at": now} for row in told]
    ready.change_each(connection, _LAST_OUT, out)


def mark_dropped(connection: Connection, row: Leased, reason: str) -> bool:
    """It must not be sent any more."""
    before = row.attempts - 1  # this lease sent nothing; an earlier one may have, when its sender died before the mark
    told = f"{reason}; an earlier try may have arrived" if before else reason
    return _mark(connection, row, status="dropped", reason=told[:200], attempts=before, lease=None, lease_until=None)


def reason_of(connection: Connection, row: Leased) -> str | None:
    """Why *row* was not sent the last time, or None."""
    return connection.execute(select(outbox.c.reason).where(outbox.c.id == row.id)).scalar()


def mark_later(connection: Connection, row: Leased, due_at: datetime, reason: str | None, *, tried: bool) -> bool:
    """Try at *due_at*; *tried* says whether this attempt counts."""
    attempts = row.attempts if tried else row.attempts - 1
    return _mark(
        connection, row, status="waiting", due_at=due_at, reason=reason, attempts=attempts, lease=None, lease_until=None
    )


def mark_dead(connection: Connection, row: Leased, status: str, reason: str) -> bool:
    """``failed``, or ``unsure`` whether the carrier took it: a person decides what becomes of it."""
    return _mark(connection, row, status=status, reason=reason[:200], lease=None, lease_until=None)


def _mark(connection: Connection, row: Leased, **values: object) -> bool:
    return ready.change(connection, _MARK, {"row": row.id, "token": row.lease, **values}) == 1


def expired(connection: Connection, now: datetime, limit: int = 100) -> tuple[Leased, ...]:
    """Rows whose sender has not been heard of since its lease ended, leased anew to the caller to decide about."""
    query = select(outbox.c.id).where(outbox.c.status == "leased", outbox.c.lease_until < now).limit(limit)
    ids = [row.id for row in connection.execute(query.with_for_update(skip_locked=True))]
    if not ids:
        return ()
    token = new_id()
    lost = update(outbox).where(outbox.c.id.in_(ids), outbox.c.status == "leased", outbox.c.lease_until < now)
    connection.execute(lost.values(lease=token))
    return leased_by(connection, token)


def end_all(connection: Connection, now: datetime) -> None:
    """Let every lease end now: nobody is there any more who could hold one."""
    ended = update(outbox).where(outbox.c.status == "leased")
    connection.execute(ended.values(lease_until=now - timedelta(seconds=1)))
