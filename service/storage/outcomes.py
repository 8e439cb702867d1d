"""Outcomes: what was found and done, with the belief as it was shown. A correction replaces the first record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, func, select, update

from service.diagnosis.model import NOT_LOOKED_AT, SOMETHING_ELSE
from service.storage.engine import new_id
from service.storage.ledgers import outcomes
from service.storage.tables import tickets, visits
from service.storage.upsert import insert_or_update


@dataclass(frozen=True, slots=True)
class Unlisted:
    """What a technician found that the rules do not list, in their words. number: of its ticket."""

    appliance: str
    number: int
    words: str
    at: datetime


def record(
    connection: Connection,
    *,
    shop: str,
    visit: str | None,
    ticket: str,
    appliance: str,
    source: str,
    found: str,
    fixed: bool,
    by: str,
    edition: str,
    now: datetime,
    found_words: str = "",
    did: str = "",
    parts: Sequence[str] = (),
    minutes: int | None = None,
    returning: str | None = None,
    belief: Sequence[tuple[str, float]] = (),
    evidence: Mapping[str, Any] | None = None,
    forecast: Mapping[str, Any] | None = None,
) -> None:
    """
    Keep an outcome. source: technician, owner_check or office. found: a cause id or ``something_else``.

    found may be ``not_looked_at``: the visit is missed then, with any other outcome it is done. belief: (cause, share) pairs
    as shown at the time; forecast: what was foretold with it. minutes: at the customer's.
    """
    values = {
        "id": new_id(), "shop": shop, "visit": visit or f"none:{ticket}", "ticket": ticket, "appliance": appliance,
        "source": source, "found": found, "found_words": found_words, "did": did, "parts": list(parts),
        "minutes": minutes, "fixed": fixed, "return_why": returning, "belief": [list(pair) for pair in belief],
        "evidence": dict(evidence or {}), "forecast": dict(forecast) if forecast else None,
        "edition": edition, "by": by, "at": now,
    }  # fmt: skip
    as_shown = ("belief", "evidence", "forecast", "edition") if visit else ()  # a correction changes no forecast
    changed = [name for name in values if name not in ("id", "shop", "visit", "ticket", *as_shown)]
    insert_or_update(connection, outcomes, (values,), ("shop", "visit", "ticket"), changed)
    if visit:
        status = "missed" if found == NOT_LOOKED_AT else "done"
        connection.execute(
            update(visits).where(visits.c.id == visit, visits.c.shop == shop).values(status=status, changed_at=now)
        )


def technicians_outcomes(connection: Connection, shop: str, appliance: str) -> int:
    """How many outcomes technicians have recorded for this appliance, undone visits left out."""
    query = select(func.count()).where(
        outcomes.c.shop == shop, outcomes.c.appliance == appliance, outcomes.c.source == "technician",
        outcomes.c.found != NOT_LOOKED_AT,
    )  # fmt: skip
    return int(connection.execute(query).scalar_one())


def unlisted(connection: Connection, shop: str) -> tuple[Unlisted, ...]:
    """Everything found that the rules do not list, newest first: what an author may want to write a cause for."""
    query = (
        select(outcomes.c.appliance, tickets.c.number, outcomes.c.found_words, outcomes.c.at)
        .join(tickets, tickets.c.id == outcomes.c.ticket)
        .where(outcomes.c.shop == shop, outcomes.c.found == SOMETHING_ELSE, outcomes.c.found_words != "")
        .order_by(outcomes.c.at.desc(), outcomes.c.id)
    )
    return tuple(Unlisted(*row) for row in connection.execute(query))
