"""Calendar files of visits, for the office's and the technician's calendar: one visit, or a day's in one file."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection

from service.conversation.state import Contact, TicketState
from service.edge.deps import Deps
from service.pages import words
from service.pages.links import public, sheet_path
from service.rulebook.model import Rulebook
from service.scheduling.calendar_file import visit_file
from service.storage import desk
from service.storage.desk import TicketRow
from service.storage.visits_view import VisitRow

_BEGIN, _END = b"BEGIN:VEVENT", b"END:VCALENDAR"


def calendar_of(deps: Deps, connection: Connection, shop: str, visits: Sequence[VisitRow]) -> bytes:
    """One file with *visits*; a cancelled one alone is a cancellation, among others it is left out."""
    rulebook = deps.rulebook_of(shop)
    ids = [ticket for visit in visits for ticket in visit.tickets]
    tickets = {row.id: row for row in desk.tickets_by_id(connection, shop, ids)}
    told = [visit for visit in visits if len(visits) == 1 or visit.status != "cancelled"]
    files = [_one(deps, rulebook, visit, [tickets[t] for t in visit.tickets if t in tickets]) for visit in told]
    if not files:
        return b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Plainfault//visits//EN\r\n" + _END + b"\r\n"
    head = files[0].partition(_BEGIN)[0]
    events = b"".join(_BEGIN + file.partition(_BEGIN)[2].partition(_END)[0] for file in files)
    return head + events + _END + b"\r\n"


def _one(deps: Deps, rulebook: Rulebook, visit: VisitRow, rows: Sequence[TicketRow]) -> bytes:
    contact = Contact.model_validate(rows[0].thread_state.get("contact") or {}) if rows else Contact()
    what = " and ".join(
        f"{words.appliance_words(rulebook, row.appliance)}, "
        f"{words.complaint_words(rulebook, TicketState.model_validate(row.state))}"
        for row in rows
    )
    phone = words.phone_words(rows[0].phone) if rows else ""
    sheet = public(deps, sheet_path(deps, rulebook.shop.shop, visit))
    return visit_file(
        rulebook.shop,
        uid=visit.uid,
        sequence=visit.version,
        start=visit.start_at,
        end=visit.end_at,
        stamp=visit.changed_at,
        summary=" · ".join(part for part in (what, contact.name) if part),
        description="\n".join(part for part in (phone, f"Visit sheet: {sheet}") if part),
        location=f"{visit.address}, {visit.postal_code}",
        cancelled=visit.status == "cancelled",
    )
