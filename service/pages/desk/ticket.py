"""A ticket's page: their words, the whole conversation with our reasons, what was understood, what may be done. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from zoneinfo import ZoneInfo

from service.conversation.state import Contact, TicketState
from service.pages import words
from service.pages.desk.reading import Fact, Understood, understood
from service.pages.desk.saying import Said, said_of
from service.pages.desk.talk import Talk, build_talk
from service.pages.frame import Frame
from service.rulebook.model import Rulebook
from service.storage.alarms import AlarmRow
from service.storage.audit import AuditRow
from service.storage.comebacks import Earlier, named
from service.storage.desk import HeardRow, TalkRow, TicketRow, TurnRow
from service.storage.outbox import Standing
from service.storage.visits_view import OutcomeRow, VisitRow


@dataclass(frozen=True, slots=True)
class TicketRows:
    """
    Everything read for a ticket (or, with ``ticket`` None, for a thread), in one view of the database. typed: what whoever
    looks has typed and not sent.
    """

    ticket: TicketRow | None
    thread: TalkRow
    heard: tuple[HeardRow, ...]
    replies: tuple[Standing, ...]
    turns: Mapping[str, TurnRow]
    turn_of: Mapping[str, str | None]
    alarms: tuple[AlarmRow, ...]
    siblings: tuple[TicketRow, ...]
    visits: tuple[VisitRow, ...]
    outcomes: tuple[OutcomeRow, ...]
    trail: tuple[AuditRow, ...]
    marker: str
    earlier: tuple[Earlier, ...] = ()
    later: tuple[int, ...] = ()
    typed: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Bell:
    """An open alarm of the thread."""

    id: str
    kind: str
    text: str
    since: str


@dataclass(frozen=True, slots=True)
class VisitLine:
    """A visit of the ticket. stands: it is not over; sheet: the address of its sheet."""

    id: str
    version: int
    when: str
    who: str
    status: str
    tentative: bool
    stands: bool
    sheet: str
    calendar: str


@dataclass(frozen=True, slots=True)
class Return:
    """A ticket of another number that this one may come back from. counts: confirmed, or the same machine on record."""

    number: int
    said: str
    why: str
    confirmed: bool
    counts: bool


@dataclass(frozen=True, slots=True)
class Head:
    """A ticket's own facts. level: the code; why: the reasons for it."""

    number: int
    key: str
    machine: str
    complaint: str
    level: str
    level_words: str
    why: tuple[str, ...]
    stage: str
    closed: str
    needs_person: str
    just_send: bool


@dataclass(frozen=True, slots=True)
class TicketPage:
    """One ticket as the office sees it, or one conversation without a ticket (``head`` and ``read`` None)."""

    frame: Frame
    base: str
    marker: str
    phone: str
    tel: str
    who: str
    language: str
    consent: str
    held_by: str
    mine: bool
    parked: str
    head: Head | None
    bells: tuple[Bell, ...]
    danger: tuple[str, ...]
    said: Said
    talk: Talk
    read: Understood | None
    visits: tuple[VisitLine, ...]
    outcomes: tuple[Fact, ...]
    siblings: tuple[Fact, ...]
    returns: tuple[Return, ...]
    later: tuple[int, ...]
    trail: tuple[Fact, ...]
    reasons: tuple[tuple[str, str], ...]
    can_act: bool
    once: str
    unsent: str


def build_ticket(
    rows: TicketRows,
    rulebook: Rulebook,
    frame: Frame,
    now: datetime,
    *,
    sheets: Mapping[str, str],
    me: str,
    can_act: bool,
    once: str,
) -> TicketPage:
    """
    The page for *rows*.

    sheets: visit id to the address of its sheet. me: the login that looks. once: makes a text that is posted twice go once.
    """
    zone = ZoneInfo(rulebook.shop.timezone)
    contact = Contact.model_validate(rows.thread.state.get("contact") or {})
    ticket = TicketState.model_validate(rows.ticket.state) if rows.ticket else None
    customer = contact.name or "Customer"
    talk = build_talk(
        rows.heard, rows.replies, rows.turns, rows.turn_of, customer=customer, now=now, zone=zone,
        typed=rows.typed,
    )  # fmt: skip
    return TicketPage(
        frame=frame,
        base=f"/desk/tickets/{rows.ticket.number}" if rows.ticket else f"/desk/threads/{rows.thread.id}",
        marker=rows.marker,
        phone=words.phone_words(rows.thread.phone),
        tel=rows.thread.phone,
        who=customer,
        language={"en": "English", "es": "Spanish"}.get(rows.thread.language, rows.thread.language),
        consent=rows.thread.consent,
        held_by=rows.thread.held_by or "",
        mine=rows.thread.held_by == me,
        parked=rows.thread.parked or "",
        head=_head(rows.ticket, ticket, rulebook) if rows.ticket and ticket else None,
        bells=tuple(
            Bell(a.id, a.kind, words.without_quote(a.text), words.when_words(a.raised_at, now, zone)) for a in rows.alarms
        ),
        danger=words.hazard_names(rulebook, _uncleared(rows.thread, ticket)),
        said=said_of(rows.ticket, ticket, contact, rows.heard, rows.replies, rows.turns, rows.turn_of)
        if rows.ticket and ticket
        else Said(),
        talk=talk,
        read=understood(rulebook, ticket, contact) if ticket else None,
        visits=tuple(_visit(visit, rulebook, zone, sheets) for visit in rows.visits),
        outcomes=tuple(
            _outcome(row, rulebook, rows.ticket, now, zone, newest=place == 0)
            for place, row in enumerate(rows.outcomes)
        ),
        siblings=tuple(_sibling(row, rulebook, rows.ticket) for row in rows.siblings if row != rows.ticket),
        returns=tuple(_return(one, rows.ticket, rulebook, now, zone) for one in rows.earlier),
        later=rows.later,
        trail=tuple(
            Fact(f"{row.who}, {words.when_words(row.at, now, zone)}", _deed(row)) for row in rows.trail
        ),
        reasons=tuple(words.CLOSED.items()),
        can_act=can_act,
        once=once,
        unsent=rows.typed.get(f"ticket:{rows.ticket.number}" if rows.ticket else f"thread:{rows.thread.id}", ""),
    )  # fmt: skip


def _uncleared(thread: TalkRow, ticket: TicketState | None) -> tuple[str, ...]:
    """Codes of the dangers that no person has cleared: told to the thread, or named on the ticket (on the phone, or closed)."""
    held = thread.state.get("danger")
    told = tuple(held["codes"]) if isinstance(held, dict) else ()
    named = ticket.hazards if ticket and not ticket.hazards_cleared else ()
    return tuple(dict.fromkeys((*told, *named)))


def _head(row: TicketRow, ticket: TicketState, rulebook: Rulebook) -> Head:
    return Head(
        number=row.number,
        key=row.key,
        machine=words.appliance_words(rulebook, row.appliance),
        complaint=words.complaint_words(rulebook, ticket),
        level=row.level,
        level_words=words.LEVELS.get(row.level, row.level),
        why=ticket.level_why,
        stage=words.STAGES.get(row.stage, row.stage),
        closed=words.CLOSED.get(row.closed, row.closed) if row.closed else "",
        needs_person=words.without_quote(row.needs_person or ""),
        just_send=ticket.just_send,
    )


def _visit(visit: VisitRow, rulebook: Rulebook, zone: ZoneInfo, sheets: Mapping[str, str]) -> VisitLine:
    names = {technician.id: technician.name for technician in rulebook.shop.technicians}
    return VisitLine(
        id=visit.id,
        version=visit.version,
        when=words.window(visit.start_at, visit.end_at, zone),
        who=names.get(visit.technician, visit.technician),
        status=words.VISITS.get(visit.status, visit.status) + (f" ({visit.why})" if visit.why else ""),
        tentative=visit.status == "tentative",
        stands=visit.status in ("tentative", "standing"),
        sheet=sheets.get(visit.id, ""),
        calendar=f"/desk/visits/{visit.id}/calendar.ics",
    )


def _outcome(
    row: OutcomeRow, rulebook: Rulebook, ticket: TicketRow | None, now: datetime, zone: ZoneInfo, *, newest: bool
) -> Fact:
    appliance = rulebook.appliances.get(ticket.appliance) if ticket else None
    cause = appliance.causes[row.found].name.en if appliance and row.found in appliance.causes else row.found_words
    ended = words.ended_words(row.fixed, row.found, row.returning, ticket.stage if ticket and newest else "")
    parts = words.part_words(rulebook, row.found, row.parts)
    said = "; ".join(part for part in (cause or words.code_words(row.found), row.did, parts, ended) if part)
    return Fact(f"{row.by}, {words.when_words(row.at, now, zone)}", said)


def _sibling(row: TicketRow, rulebook: Rulebook, shown: TicketRow | None) -> Fact:
    ticket = TicketState.model_validate(row.state)
    state = words.CLOSED.get(row.closed, row.closed) if row.closed else row.stage
    said = f"#{row.number} {words.appliance_words(rulebook, row.appliance)}: {words.complaint_words(rulebook, ticket)}"
    link = ""
    if shown is not None and shown.earlier == row.key:
        link = "; this one comes back from it"
    elif shown is not None and row.earlier == shown.key:
        link = "; comes back from this one"
    return Fact(f"/desk/tickets/{row.number}", f"{said} ({state}{link})")


def _return(one: Earlier, shown: TicketRow | None, rulebook: Rulebook, now: datetime, zone: ZoneInfo) -> Return:
    confirmed = shown is not None and shown.earlier == named(one.number)
    complaint = words.complaint_words(rulebook, TicketState.model_validate(one.state))
    said = f"#{one.number} from {words.phone_words(one.phone)}: {complaint}, ended {words.when_words(one.ended, now, zone)}"
    return Return(one.number, said, f"same {' and '.join(one.alike)}", confirmed, confirmed or one.same_machine)


def _deed(row: AuditRow) -> str:
    detail = ", ".join(f"{name} {value}" for name, value in row.detail.items())
    return words.code_words(row.did) + (f": {detail}" if detail else "")
