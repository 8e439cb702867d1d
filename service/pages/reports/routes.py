"""The reports page and its files: for those who may read the desk; nothing on it changes anything."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection

from service.access.guard import Guard
from service.access.sessions import SignedIn
from service.edge.deps import Deps
from service.pages.answer import HEADERS, Lost, PageRoute, show
from service.pages.desk.views import frame_of
from service.pages.frame import Frame
from service.pages.reports.files import file_rows
from service.pages.reports.gather import jobs_of, month_of, talks_of
from service.pages.reports.measures import BY_ID, MEASURES, Judged
from service.pages.reports.sections import Names, Section, section_of
from service.pages.words import appliance_words
from service.rulebook.model import Rulebook
from service.storage import reviews
from service.storage.engine import reading

SPANS = (3, 6, 12, 24)
"""Months that may be looked at, the one under way included."""
USUAL_SPAN = 12


@dataclass(frozen=True, slots=True)
class ReportsPage:
    """The report. appliances: code, name and whether it is picked. spans: the same for months. empty: nothing to judge."""

    frame: Frame
    appliances: tuple[tuple[str, str, bool], ...]
    spans: tuple[tuple[int, bool], ...]
    shown: str
    empty: bool
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked at: an appliance or all, and how many months back."""

    appliance: str | None
    span: int

    @property
    def query(self) -> str:
        """The same in an address."""
        return urlencode({"appliance": self.appliance or "", "months": self.span})


def reports_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/reports``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    reader = Depends(guard.page("read_desk"))

    @router.get("/desk/reports")
    def report(session: SignedIn = reader, appliance: str = "", months: str = "") -> Response:
        rulebook = deps.rulebook_of(session.shop)
        wanted = _wanted(rulebook, appliance, months)
        with reading(deps.engine) as connection:
            judged = _judged(deps, connection, rulebook, wanted)
            frame = frame_of(deps, connection, session, title="Reports", here="/desk/reports")
        return show("reports/templates/reports.html", _page(deps, rulebook, frame, judged, wanted))

    @router.get("/desk/reports/{name}.csv")
    def file(name: str, session: SignedIn = reader, appliance: str = "", months: str = "") -> Response:
        measure = BY_ID.get(name)
        if measure is None:
            raise Lost("There is no such report. Open the reports page and take the file from there.")
        rulebook = deps.rulebook_of(session.shop)
        with reading(deps.engine) as connection:
            judged = _judged(deps, connection, rulebook, _wanted(rulebook, appliance, months))
        written = io.StringIO(newline="")
        csv.writer(written).writerows(file_rows(measure, judged))
        headers = {**HEADERS, "Content-Disposition": f'attachment; filename="{name}.csv"'}
        return Response(written.getvalue(), media_type="text/csv; charset=utf-8", headers=headers)

    return router


def months_until(now: datetime, span: int) -> tuple[str, ...]:
    """The last *span* months, the one of *now* (in the shop's zone) included, oldest first."""
    last = now.year * 12 + now.month - 1
    return tuple(f"{month // 12}-{month % 12 + 1:02d}" for month in range(last - span + 1, last + 1))


def _wanted(rulebook: Rulebook, appliance: str, months: str) -> Wanted:
    known = appliance if appliance in rulebook.appliances else None
    return Wanted(known, int(months) if months in map(str, SPANS) else USUAL_SPAN)


def _judged(deps: Deps, connection: Connection, rulebook: Rulebook, wanted: Wanted) -> Judged:
    shop, zone = rulebook.shop.shop, ZoneInfo(rulebook.shop.timezone)
    months = months_until(deps.clock().astimezone(zone), wanted.span)
    first = datetime.strptime(months[0], "%Y-%m").replace(tzinfo=zone)
    # A job whose first visit lies before the first month belongs to none of the months shown: looked up, then left out.
    before = first - timedelta(days=90)
    found = reviews.found_since(connection, shop, before, wanted.appliance)
    jobs = jobs_of(found, zone)
    returned = {one.ticket for one in found if one.came_back is not None}
    talks = talks_of(reviews.closed_since(connection, shop, first, wanted.appliance), zone, returned)
    return Judged(tuple(job for job in jobs if job.month >= month_of(first, zone)), talks)


def _page(deps: Deps, rulebook: Rulebook, frame: Frame, judged: Judged, wanted: Wanted) -> ReportsPage:
    zone = ZoneInfo(rulebook.shop.timezone)
    months = months_until(deps.clock().astimezone(zone), wanted.span)
    names = _names(rulebook)
    sections: Sequence[Section] = [
        section_of(measure, judged, months, names, wanted.query) for measure in MEASURES
    ]  # fmt: skip
    appliances = [("", "All appliances", wanted.appliance is None)]
    appliances += [(code, names.appliance(code), code == wanted.appliance) for code in rulebook.appliances]
    shown = f"{names.appliance(wanted.appliance) if wanted.appliance else 'All appliances'}, last {wanted.span} months"
    return ReportsPage(
        frame, tuple(appliances), tuple((span, span == wanted.span) for span in SPANS), shown,
        not judged.jobs and not judged.talks, tuple(sections),
    )  # fmt: skip


def _names(rulebook: Rulebook) -> Names:
    def part(appliance: str, code: str) -> str:
        rules = rulebook.appliances.get(appliance)
        return rules.parts[code].name.en if rules and code in rules.parts else code.replace("_", " ")

    return Names(lambda code: appliance_words(rulebook, code), part)
