"""The desk's first page: what needs somebody now, before everything else. Built from rows, without a database."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from service.conversation.state import TicketState
from service.pages import words
from service.pages.frame import Frame
from service.rulebook.model import Rulebook
from service.storage.alarms import AlarmRow
from service.storage.desk import TalkRow, TicketRow
from service.storage.visits_view import VisitRow


@dataclass(frozen=True, slots=True)
class Line:
    """One ticket (or a conversation without one) in the list. level: the code, for its mark; level_words: what it says."""

    href: str
    id: str
    number: str
    level: str
    level_words: str
    machine: str
    complaint: str
    who: str
    said: str
    stage: str
    heard: str
    flags: tuple[str, ...]
    visit: str


@dataclass(frozen=True, slots=True)
class Group:
    """Tickets that need the same of somebody. pressing: a person should act before reading on."""

    id: str
    title: str
    pressing: bool
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class ListPage:
    """The list. shown: open, closed or all. total: lines that need somebody; resting: the others. empty: said if none is."""

    frame: Frame
    search: str
    shown: str
    query: str
    groups: tuple[Group, ...]
    total: int
    resting: int
    empty: str
    marker: str


@dataclass(frozen=True, slots=True)
class ListRows:
    """What was read for the list, in one view of the database. last: thread id to the customer's last text."""

    tickets: tuple[TicketRow, ...]
    talks: tuple[TalkRow, ...]
    visits: Mapping[str, VisitRow]
    waiting: Mapping[str, Mapping[str, int]]
    alarms: tuple[AlarmRow, ...]
    last: Mapping[str, str]
    marker: str


GROUPS: tuple[tuple[str, str, bool], ...] = (
    ("danger", "Danger: nobody has it in hand", True),
    ("held_danger", "Danger: not cleared yet", True),
    ("person", "A person is asked for", True),
    ("undelivered", "Not delivered", True),
    ("confirm", "Visits to confirm", True),
    ("drafts", "Drafts to send", True),
    ("now", "Now", False),
    ("today", "Today", False),
    ("soon", "Soon", False),
    ("routine", "In turn", False),
    ("booked", "A visit stands: nothing to do", False),
    ("answered", "Answered: waits for the customer", False),
    ("closed", "Closed", False),
)
"""In the order they are shown; a ticket stands in the first that fits."""
DECIDED_BY_US = ("arranged", "visited", "deciding", "parts")
"""Stages in which the next step is the shop's, whoever wrote last. *arranged* without a visit ahead is one that is over."""
RESTING = ("booked", "answered", "closed")
"""Groups in which nobody has anything to do."""


def build_list(
    rows: ListRows, rulebook: Rulebook, frame: Frame, now: datetime, *, search: str, shown: str, query: str
) -> ListPage:
    """The page for *rows*; *query* is the address's own, for the part that renews itself."""
    held: dict[str, list[Line]] = {key: [] for key, _, _ in GROUPS}
    for row in sorted(rows.tickets, key=_longest_waiting):
        held[_group_of(row, rows, now)].append(_ticket_line(row, rows, rulebook, now))
    for talk in rows.talks if shown != "closed" else ():
        held[_talk_group(talk, rows)].append(_talk_line(talk, rows, rulebook, now))
    groups = tuple(Group(key, title, pressing, tuple(held[key])) for key, title, pressing in GROUPS if held[key])
    empty = (
        "Nothing found. Try fewer words, or look among all tickets."
        if search
        else "Nothing waits. New texts appear here."
    )
    resting = sum(len(group.lines) for group in groups if group.id in RESTING)
    total = sum(len(group.lines) for group in groups) - resting
    return ListPage(frame, search, shown, query, groups, total, resting, empty, rows.marker)


def _longest_waiting(row: TicketRow) -> tuple[bool, float]:
    moment = row.last_in_at or row.opened_at
    return row.closed is not None, -moment.timestamp() if row.closed else moment.timestamp()


def _group_of(row: TicketRow, rows: ListRows, now: datetime) -> str:
    if row.closed and not _rings(rows, row.thread, "danger"):
        return "closed"
    waits = rows.waiting.get(row.thread, {})
    visit = rows.visits.get(row.id)
    if _rings(rows, row.thread, "danger"):
        return "danger"
    danger = row.thread_state.get("danger") or {}
    named = row.state.get("hazards") and not row.state.get("hazards_cleared")
    if danger.get("ticket") == row.key or named:
        return "held_danger"
    if (row.needs_person and not row.held_by) or _rings(rows, row.thread, "person", "trouble"):
        return "person"
    if waits.get("failed") or waits.get("unsure") or _rings(rows, row.thread, "undelivered"):
        return "undelivered"
    if visit is not None and visit.status == "tentative":
        return "confirm"
    if waits.get("draft"):
        return "drafts"
    if (resting := _rests(row, visit, now)) is not None:
        return resting
    return row.level if row.level in words.LEVELS else "routine"


def _rests(row: TicketRow, visit: VisitRow | None, now: datetime) -> str | None:
    """The group of a ticket that asks nothing of anybody: a visit is ahead, or the customer has the last word from us."""
    answered = _answered(row.last_in_at, row.last_out_at)
    if row.needs_person and not answered:
        return None
    if visit is not None and now < visit.end_at and (answered or not row.held_by):
        return "booked"
    if visit is None and answered and row.stage not in DECIDED_BY_US:
        return "answered"
    return None


def _answered(last_in: datetime | None, last_out: datetime | None) -> bool:
    """Whether our last text is younger than theirs."""
    return last_out is not None and (last_in is None or last_in <= last_out)


def _talk_group(talk: TalkRow, rows: ListRows) -> str:
    waits = rows.waiting.get(talk.id, {})
    if _rings(rows, talk.id, "danger"):
        return "danger"
    if _rings(rows, talk.id, "person", "trouble"):
        return "person"
    if waits.get("failed") or waits.get("unsure") or _rings(rows, talk.id, "undelivered"):
        return "undelivered"
    if waits.get("draft"):
        return "drafts"
    return "answered" if _answered(talk.last_in_at, talk.last_out_at) else "routine"


def _rings(rows: ListRows, thread: str, *kinds: str) -> bool:
    return any(alarm.thread == thread and alarm.kind in kinds for alarm in rows.alarms)


def _ticket_line(row: TicketRow, rows: ListRows, rulebook: Rulebook, now: datetime) -> Line:
    ticket = TicketState.model_validate(row.state)
    visit = rows.visits.get(row.id)
    zone = ZoneInfo(rulebook.shop.timezone)
    closed = f"closed: {words.CLOSED.get(row.closed, row.closed)}" if row.closed else ""
    return Line(
        href=f"/desk/tickets/{row.number}",
        id=f"ticket-{row.number}",
        number=f"#{row.number}",
        level=row.level,
        level_words=words.LEVELS.get(row.level, row.level),
        machine=words.appliance_words(rulebook, row.appliance),
        complaint=words.complaint_words(rulebook, ticket),
        who=_who(row.thread_state, row.phone),
        said=_said(ticket, rows.last.get(row.thread, "")),
        stage=closed or row.stage,
        heard=f"wrote {words.ago_words(row.last_in_at, now)}" if row.last_in_at else "phoned in",
        flags=_flags(row.held_by, row.needs_person, rows.waiting.get(row.thread, {}), _hazards(ticket, rulebook)),
        visit=words.window(visit.start_at, visit.end_at, zone) if visit and not row.closed else "",
    )


def _talk_line(talk: TalkRow, rows: ListRows, rulebook: Rulebook, now: datetime) -> Line:
    danger = (talk.state.get("danger") or {}).get("codes", ())
    return Line(
        href=f"/desk/threads/{talk.id}",
        id=f"thread-{talk.id}",
        number="no ticket",
        level="routine",
        level_words="",
        machine="Conversation",
        complaint="no ticket yet",
        who=_who(talk.state, talk.phone),
        said=_short(rows.last.get(talk.id, "")),
        stage="",
        heard=f"wrote {words.ago_words(talk.last_in_at, now)}" if talk.last_in_at else "",
        flags=_flags(talk.held_by, None, rows.waiting.get(talk.id, {}), words.hazard_names(rulebook, danger))
        + ((f"parked: {talk.parked}",) if talk.parked else ()),
        visit="",
    )


def _hazards(ticket: TicketState, rulebook: Rulebook) -> tuple[str, ...]:
    return () if ticket.hazards_cleared else words.hazard_names(rulebook, ticket.hazards)


def _flags(
    held_by: str | None, needs_person: str | None, waits: Mapping[str, int], hazards: Sequence[str]
) -> tuple[str, ...]:
    found = [*hazards]
    if needs_person and not (hazards and needs_person.startswith("danger")):
        found.append(words.without_quote(needs_person))
    if held_by:
        found.append(f"held by {held_by}")
    for status, word in (("draft", "to send"), ("failed", "not delivered"), ("unsure", "perhaps not delivered")):
        if waits.get(status):
            found.append(f"{waits[status]} {word}")
    return tuple(found)


def _who(state: Mapping[str, object], phone: str) -> str:
    contact = state.get("contact")
    known = contact if isinstance(contact, dict) else {}
    parts = [known.get("name"), words.phone_words(phone), known.get("postal_code")]
    return " · ".join(str(part) for part in parts if part)


def _said(ticket: TicketState, last: str) -> str:
    """The complaint as they first put it, then what they wrote last: a gate code alone says nothing of a machine."""
    first = ticket.words[0] if ticket.words else ""
    if not first or not last or " ".join(last.split()) == " ".join(first.split()):
        return _short(first or last)
    return f"{_short(first, 90)} … {_short(last, 50)}"


def _short(text: str, most: int = 140) -> str:
    flat = " ".join(text.split())
    return flat if len(flat) <= most else flat[: most - 1].rstrip() + "…"
