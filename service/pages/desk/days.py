"""The days: who goes where and when, with calendar files. A technician sees their own day, the office everybody's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection

from service.access.guard import Guard
from service.access.sessions import SignedIn
from service.conversation.state import Contact, TicketState
from service.edge.deps import Deps
from service.pages import words
from service.pages.answer import HEADERS, Lost, PageRoute, show
from service.pages.calendar import calendar_of
from service.pages.desk.views import frame_of
from service.pages.frame import Frame
from service.pages.links import sheet_path
from service.rulebook.model import Rulebook
from service.storage import desk, visits_view
from service.storage.desk import TicketRow
from service.storage.engine import reading
from service.storage.visits_view import VisitRow


@dataclass(frozen=True, slots=True)
class Stop:
    """
    A visit in somebody's day. tickets: (address of the page or empty, words). off: it is cancelled or missed. danger: what
    was named and no person has cleared; cleared: what a person has.
    """

    when: str
    status: str
    off: bool
    who: str
    tel: str
    phone: str
    address: str
    tickets: tuple[tuple[str, str], ...]
    sheet: str
    calendar: str
    danger: tuple[str, ...] = ()
    cleared: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Round:
    """One technician's day. note: why there is nothing, if so."""

    id: str
    name: str
    hours: str
    stops: tuple[Stop, ...]


@dataclass(frozen=True, slots=True)
class DayPage:
    """A day of everybody, or of the technician who looks."""

    frame: Frame
    day: str
    title: str
    before: str
    after: str
    rounds: tuple[Round, ...]
    calendar: str


def days_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/day``, its calendar file, and the calendar file of one visit."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    looking = Depends(guard.page("see_days"))

    @router.get("/desk/day")
    def page(session: SignedIn = looking, day: str = "") -> Response:
        rulebook = deps.rulebook_of(session.shop)
        chosen = _day(deps, rulebook, day)
        with reading(deps.engine) as connection:
            frame = frame_of(deps, connection, session, title="Days", here="/desk/day")
            rounds = _rounds(deps, connection, session, rulebook, chosen)
        title = f"{words.day_name(chosen)} {chosen.year}"
        before, after = (chosen - timedelta(days=1)).isoformat(), (chosen + timedelta(days=1)).isoformat()
        iso = chosen.isoformat()
        return show(
            "desk/templates/day.html",
            DayPage(frame, iso, title, before, after, rounds, f"/desk/day/calendar.ics?day={iso}"),
        )

    @router.get("/desk/day/calendar.ics")
    def day_file(session: SignedIn = looking, day: str = "") -> Response:
        chosen = _day(deps, deps.rulebook_of(session.shop), day)
        with reading(deps.engine) as connection:
            found = visits_view.visits_of_day(connection, session.shop, chosen, _only(session))
            body = calendar_of(deps, connection, session.shop, found)
        return _file(body, f"visits-{chosen.isoformat()}.ics")

    @router.get("/desk/visits/{visit}/calendar.ics")
    def visit_file(visit: str, session: SignedIn = looking) -> Response:
        with reading(deps.engine) as connection:
            found = visits_view.visit_by_id(connection, session.shop, visit)
            if found is None or _only(session) not in (None, found.technician):
                raise Lost("There is no such visit.")
            body = calendar_of(deps, connection, session.shop, (found,))
        return _file(body, "visit.ics")

    return router


def _only(session: SignedIn) -> str | None:
    """Whose visits alone somebody may see: a technician's own; None for everybody's."""
    return None if session.may("read_desk") else session.user.technician or "nobody"


def _day(deps: Deps, rulebook: Rulebook, written: str) -> date:
    try:
        return date.fromisoformat(written)
    except ValueError:
        return deps.clock().astimezone(ZoneInfo(rulebook.shop.timezone)).date()


def _file(body: bytes, name: str) -> Response:
    headers = {**HEADERS, "Content-Disposition": f'attachment; filename="{name}"'}
    return Response(body, media_type="text/calendar; charset=utf-8", headers=headers)


def _rounds(deps: Deps, connection: Connection, session: SignedIn, rulebook: Rulebook, day: date) -> tuple[Round, ...]:
    only = _only(session)
    found = visits_view.visits_of_day(connection, session.shop, day, only)
    ids = [ticket for visit in found for ticket in visit.tickets]
    tickets = {row.id: row for row in desk.tickets_by_id(connection, session.shop, ids)}
    rounds = []
    for technician in rulebook.shop.technicians:
        if only not in (None, technician.id):
            continue
        span = technician.days.get(("mon", "tue", "wed", "thu", "fri", "sat", "sun")[day.weekday()])
        hours = "off" if span is None or day in technician.off or day in rulebook.shop.closed else words.span(span)
        stops = tuple(
            stop_of(visit, tickets, rulebook, sheet_path(deps, session.shop, visit), linked=only is None)
            for visit in found
            if visit.technician == technician.id
        )
        rounds.append(Round(technician.id, technician.name, hours, stops))
    return tuple(rounds)


def stop_of(visit: VisitRow, tickets: dict[str, TicketRow], rulebook: Rulebook, sheet: str, *, linked: bool) -> Stop:
    """The visit as a line. linked: whether the ticket's page may be opened by whoever looks."""
    rows = [tickets[ticket] for ticket in visit.tickets if ticket in tickets]
    contact = Contact.model_validate(rows[0].thread_state.get("contact") or {}) if rows else Contact()
    states = [TicketState.model_validate(row.state) for row in rows]
    said = tuple(
        (
            f"/desk/tickets/{row.number}" if linked else "",
            f"#{row.number} {words.appliance_words(rulebook, row.appliance)}: "
            + words.complaint_words(rulebook, ticket),
        )
        for row, ticket in zip(rows, states, strict=True)
    )
    phone = rows[0].phone if rows else ""
    return Stop(
        when=words.hours(visit.start_at, visit.end_at, ZoneInfo(rulebook.shop.timezone)),
        status=words.VISITS.get(visit.status, visit.status),
        off=visit.status in ("cancelled", "missed"),
        who=contact.name or "",
        tel=phone,
        phone=words.phone_words(phone),
        address=f"{visit.address}, {visit.postal_code}",
        tickets=said,
        sheet=sheet,
        calendar=f"/desk/visits/{visit.id}/calendar.ics",
        danger=_hazards(rulebook, [ticket for ticket in states if not ticket.hazards_cleared]),
        cleared=_hazards(rulebook, [ticket for ticket in states if ticket.hazards_cleared]),
    )


def _hazards(rulebook: Rulebook, tickets: Sequence[TicketState]) -> tuple[str, ...]:
    return words.hazard_names(rulebook, dict.fromkeys(code for ticket in tickets for code in ticket.hazards))
