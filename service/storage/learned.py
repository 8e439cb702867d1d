"""What a shop has accepted from its outcomes, what it holds fast, and from when on it counts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, select

from service.storage.ledgers import learned, learning_nights
from service.storage.upsert import insert_once, insert_or_update


@dataclass(frozen=True, slots=True)
class LearnedRow:
    """
    One appliance's learning. weights: cause to weight; evidence: cause to code to grade or grades, as accepted.

    frozen: causes and codes that stay as they are. since: outcomes before it are not counted. jobs: behind what was accepted.
    """

    appliance: str
    weights: Mapping[str, float]
    evidence: Mapping[str, Any]
    frozen: frozenset[str]
    since: datetime | None
    jobs: float
    by: str
    at: datetime


def learned_of(connection: Connection, shop: str) -> dict[str, LearnedRow]:
    """By appliance what the shop has learned, where anything was ever decided."""
    rows = connection.execute(select(learned).where(learned.c.shop == shop).order_by(learned.c.appliance))
    return {
        row.appliance: LearnedRow(
            row.appliance, row.weights, row.evidence, frozenset(row.frozen), row.since, row.jobs, row.by, row.at
        )
        for row in rows
    }


def keep_learned(connection: Connection, shop: str, row: LearnedRow) -> None:
    """Keep *row*, in place of what was decided for its appliance before."""
    values = {
        "shop": shop, "appliance": row.appliance, "weights": dict(row.weights), "evidence": dict(row.evidence),
        "frozen": sorted(row.frozen), "since": row.since, "jobs": row.jobs, "by": row.by, "at": row.at,
    }  # fmt: skip
    changed = [name for name in values if name not in ("shop", "appliance")]
    insert_or_update(connection, learned, (values,), ("shop", "appliance"), changed)


def take_night(connection: Connection, shop: str, day: date, now: datetime) -> bool:
    """True for the one process that does the learning of the night before *day*."""
    return insert_once(connection, learning_nights, {"shop": shop, "day": day, "at": now}, ("shop", "day"))
