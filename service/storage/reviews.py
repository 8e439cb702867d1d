"""What outcomes and closed tickets say in hindsight, with the complaints that came back linked to the first diagnosis."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, select

from service.diagnosis.model import NOT_LOOKED_AT
from service.storage.ledgers import outcomes
from service.storage.tables import tickets

COMES_BACK_WITHIN = timedelta(days=30)
"""A complaint that returns so soon is counted against the first diagnosis."""


@dataclass(frozen=True, slots=True)
class Found:
    """
    One recorded outcome. belief: (cause, share) as shown. forecast: the plan as shown (finish, load, minutes), empty if none
    was. minutes: at the customer's.

    came_back: number of the ticket with which the same complaint returned within 30 days, or None.
    """

    ticket: str
    appliance: str
    source: str
    found: str
    found_words: str
    fixed: bool
    parts: tuple[str, ...]
    belief: tuple[tuple[str, float], ...]
    forecast: Mapping[str, Any]
    evidence: Mapping[str, Any]
    at: datetime
    minutes: int | None = None
    came_back: int | None = None

    @property
    def looked(self) -> bool:
        """Whether anybody saw the machine."""
        return self.found != NOT_LOOKED_AT


@dataclass(frozen=True, slots=True)
class Closed:
    """A closed ticket: the reason, how many questions it took, and each check tried: chance to settle it, whether it did."""

    ticket: str
    appliance: str
    closed: str
    questions: int
    closed_at: datetime
    checks: tuple[tuple[float, bool], ...] = ()


@dataclass(frozen=True, slots=True)
class Complaint:
    """A ticket as far as it may be a return of another, or have one. symptoms: those said to be there."""

    id: str
    number: int
    thread: str
    key: str
    machine: str | None
    appliance: str
    earlier: str | None
    symptoms: frozenset[str]
    opened_at: datetime


def found_since(connection: Connection, shop: str, since: datetime, appliance: str | None = None) -> tuple[Found, ...]:
    """Outcomes recorded from *since* on, oldest first, of one appliance or all."""
    query = select(outcomes).where(outcomes.c.shop == shop, outcomes.c.at >= since)
    if appliance is not None:
        query = query.where(outcomes.c.appliance == appliance)
    rows = list(connection.execute(query.order_by(outcomes.c.at, outcomes.c.id)))
    returned = returns(complaints_since(connection, shop, since), {row.ticket: row.at for row in rows})
    return tuple(
        Found(
            row.ticket, row.appliance, row.source, row.found, row.found_words, row.fixed, tuple(row.parts),
            tuple((str(cause), float(share)) for cause, share in row.belief), row.forecast or {}, row.evidence, row.at,
            row.minutes, returned.get(row.ticket),
        )
        for row in rows
    )  # fmt: skip


def closed_since(
    connection: Connection, shop: str, since: datetime, appliance: str | None = None
) -> tuple[Closed, ...]:
    """Tickets closed from *since* on, oldest first."""
    asked = tickets.c.state["questions"].as_integer()
    tried, chances = tickets.c.state["checks"], tickets.c.state["check_chances"]
    query = select(
        tickets.c.id, tickets.c.appliance, tickets.c.closed, asked, tickets.c.closed_at, tried, chances
    ).where(tickets.c.shop == shop, tickets.c.closed.is_not(None), tickets.c.closed_at >= since)
    if appliance is not None:
        query = query.where(tickets.c.appliance == appliance)
    return tuple(
        Closed(row[0], row[1], row[2], row[3] or 0, row[4], _tried(row[5] or {}, row[6] or {}))
        for row in connection.execute(query.order_by(tickets.c.closed_at, tickets.c.id))
    )


def _tried(checks: Mapping[str, str], chances: Mapping[str, float]) -> tuple[tuple[float, bool], ...]:
    """Of the checks offered with a chance, those that were done: the chance, and whether it settled the complaint."""
    done = [
        (chances[code], result == "fixed")
        for code, result in checks.items()
        if result in ("fixed", "not_fixed") and code in chances
    ]
    return tuple(done)


def complaints_since(connection: Connection, shop: str, since: datetime) -> tuple[Complaint, ...]:
    """Tickets that may be returns of, or have returned from, what was found from *since* on."""
    columns = [tickets.c[name] for name in ("id", "number", "thread", "key", "machine", "appliance", "earlier")]
    query = select(*columns, tickets.c.state["symptoms"], tickets.c.opened_at).where(tickets.c.shop == shop)
    rows = connection.execute(query.where(tickets.c.changed_at >= since).order_by(tickets.c.opened_at, tickets.c.id))
    return tuple(
        Complaint(*row[:7], frozenset(code for code, said in (row[7] or {}).items() if said), row[8]) for row in rows
    )


def returns(complaints: Iterable[Complaint], ended: Mapping[str, datetime]) -> dict[str, int]:
    """
    By ticket, the number of the first one with which its complaint returned within 30 days. ended: when each was recorded.

    The same machine (named by the thread, or known by the household) with a symptom in common, or with none said; or a
    ticket of another number, if the office has confirmed it.
    """
    known = list(complaints)
    machines: dict[str, list[Complaint]] = {}
    threads = {(one.thread, one.key): one for one in known}
    numbers = {f"#{one.number}": one for one in known}
    for one in known:
        if one.machine is not None:
            machines.setdefault(one.machine, []).append(one)
    found: dict[str, int] = {}
    for later in known:
        before = [*machines.get(later.machine or "", ()), threads.get((later.thread, later.earlier or ""))]
        for first in before:
            if first is not None and first.id in ended and _returned(first, later, ended[first.id]):
                found.setdefault(first.id, later.number)
        said = numbers.get(later.earlier or "")
        if said is not None and said.id in ended and _soon(said, later, ended[said.id]):
            found.setdefault(said.id, later.number)
    return found


def _returned(first: Complaint, later: Complaint, ended: datetime) -> bool:
    alike = not later.symptoms or not first.symptoms or not later.symptoms.isdisjoint(first.symptoms)
    return alike and _soon(first, later, ended)


def _soon(first: Complaint, later: Complaint, ended: datetime) -> bool:
    within = timedelta(0) < later.opened_at - ended <= COMES_BACK_WITHIN
    return within and later.appliance == first.appliance
