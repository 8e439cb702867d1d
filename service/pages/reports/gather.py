"""From recorded outcomes and closed tickets to what is judged: one job a ticket, first forecast against last finding."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from service.diagnosis.review import Job, Talk, grouped
from service.storage.reviews import Closed, Found

TECHNICIAN = "technician"


def jobs_of(found: Iterable[Found], zone: ZoneInfo) -> tuple[Job, ...]:
    """
    A job for each ticket a technician has looked at.

    An undone visit is no visit. What was forecast before the first one is judged by what was found in the end.
    """
    seen = [one for one in found if one.source == TECHNICIAN and one.looked]
    return tuple(_job(visits, zone) for visits in grouped(seen, lambda one: one.ticket).values())


def talks_of(closed: Iterable[Closed], zone: ZoneInfo, returned: Collection[str] = ()) -> tuple[Talk, ...]:
    """
    Closed tickets of a machine the shop works on: those turned away say nothing of the questions.

    returned: tickets whose complaint was back within 30 days; no check settled those.
    """
    return tuple(
        Talk(
            one.appliance,
            month_of(one.closed_at, zone),
            one.questions,
            one.closed == "settled_by_owner" and one.ticket not in returned,
            tuple((chance, settled and one.ticket not in returned) for chance, settled in one.checks),
        )
        for one in closed
        if one.closed not in ("out_of_area", "not_ours", "referred") and one.appliance != "unknown"
    )


def month_of(moment: datetime, zone: ZoneInfo) -> str:
    """``2026-11``, where the shop is."""
    return f"{moment.astimezone(zone):%Y-%m}"


def _job(visits: list[Found], zone: ZoneInfo) -> Job:
    first, last = visits[0], visits[-1]
    came_back = any(one.came_back is not None for one in visits)
    chance = first.forecast.get("finish")
    load = first.forecast.get("load", ())
    return Job(
        appliance=first.appliance,
        month=month_of(first.at, zone),
        found=last.found,
        belief=first.belief,
        finish=float(chance) if chance is not None else None,
        finished=first.fixed and not came_back,
        came_back=came_back,
        carried=frozenset(part for part, _, carried in load if carried),
        used=frozenset(part for one in visits for part in one.parts),
        planned=bool(first.forecast),
        in_time=_in_time(first),
    )


def _in_time(first: Found) -> bool | None:
    promised = first.forecast.get("promise")
    return None if promised is None or first.minutes is None else first.minutes <= promised
