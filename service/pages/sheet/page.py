"""The visit sheet: everything a technician wants before the door opens, in the order it is wanted. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from urllib.parse import quote
from zoneinfo import ZoneInfo

from service.conversation.state import Contact, TicketState
from service.diagnosis.model import VisitPlan
from service.pages import words
from service.pages.desk.reading import Fact
from service.pages.plate_words import no_recall_words
from service.pages.sheet.door import Door, door_of
from service.pages.sheet.work import Warned, Work, build_work
from service.rulebook.model import Rulebook
from service.storage.desk import HeardRow, TicketRow
from service.storage.visits_view import MachineRow, OutcomeRow, VisitRow

APPROVES = {
    "landlord": "the landlord: call before work",
    "home_warranty": "the plan: authorization number first",
    "insurance": "the insurer",
    "maker_warranty": "the maker: claim number first",
}


@dataclass(frozen=True, slots=True)
class SheetRows:
    """
    What was read for a sheet. before: earlier tickets of the household or number. plans: ticket id to its plan.

    meant: ticket id to what its plan's chance to finish has come to in this shop; only where enough was recorded. heard:
    what they wrote since the complaint was opened.
    """

    visit: VisitRow
    tickets: tuple[TicketRow, ...]
    before: tuple[TicketRow, ...]
    machines: Mapping[str, MachineRow]
    repairs: tuple[OutcomeRow, ...]
    outcomes: tuple[OutcomeRow, ...]
    plans: Mapping[str, VisitPlan]
    promised: str
    meant: Mapping[str, float]
    heard: tuple[HeardRow, ...] = ()


@dataclass(frozen=True, slots=True)
class OutcomeForm:
    """
    The form for one ticket.

    causes: (id, name), likeliest first. more_causes, more_parts: the others, under a fold. done: what was recorded
    already, in words. usual: minutes expected. early: what is asked where the visit has not begun, else empty.
    """

    key: str
    number: int
    machine: str
    causes: tuple[tuple[str, str], ...]
    more_causes: tuple[tuple[str, str], ...]
    parts: tuple[tuple[str, str], ...]
    more_parts: tuple[tuple[str, str], ...]
    done: str
    usual: int
    early: str
    typed: Mapping[str, str]
    picked: tuple[str, ...]
    errors: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class SheetPage:
    """
    The sheet. over: why there is nothing to drive to, empty if it stands. known: what is known of the customer and the
    danger. care: the gravest caution, where no danger was named. door: the way in and whom to call. bring: all to load.
    """

    title: str
    shop: str
    office_phone: str
    office_tel: str
    path: str
    when: str
    what: str
    known: tuple[str, ...]
    over: str
    danger: tuple[str, ...]
    care: Warned | None
    door: Door
    bring: tuple[str, ...]
    works: tuple[Work, ...]
    repairs: tuple[str, ...]
    recalls: tuple[str, ...]
    no_recall: str
    replacing: tuple[str, ...]
    money: tuple[Fact, ...]
    promised: str
    name: str
    language: str
    address: str
    navigate: str
    forms: tuple[OutcomeForm, ...]
    missing: OutcomeForm | None
    saved: bool


def build_sheet(
    rows: SheetRows, rulebook: Rulebook, now: datetime, *, path: str, forms: tuple[OutcomeForm, ...], saved: bool
) -> SheetPage:
    """The sheet of *rows*. path: its own address. saved: an outcome was just recorded."""
    shop = rulebook.shop
    zone = ZoneInfo(shop.timezone)
    visit = rows.visit
    lead = rows.tickets[0]
    contact = Contact.model_validate(lead.thread_state.get("contact") or {})
    states = [TicketState.model_validate(row.state) for row in rows.tickets]
    works = tuple(
        build_work(
            row, ticket, contact, rows.machines.get(row.id), rulebook, rows.plans.get(row.id), rows.meant.get(row.id),
            _told(rows.heard) if ticket.hazards else (),
        )
        for row, ticket in zip(rows.tickets, states, strict=True)
    )  # fmt: skip
    danger = tuple(dict.fromkeys(hazard for work in works for hazard in work.danger))
    address = f"{visit.address}, {visit.postal_code}"
    return SheetPage(
        title=f"Visit {words.window(visit.start_at, visit.end_at, zone)}",
        shop=shop.name,
        office_phone=words.phone_words(shop.office_phone),
        office_tel=shop.office_phone,
        path=path,
        when=words.window(visit.start_at, visit.end_at, zone),
        what=" and ".join(f"{work.machine}, {work.complaint}" for work in works),
        known=_known(rows, states, danger),
        over="" if visit.status in ("standing", "done") else words.VISITS.get(visit.status, visit.status),
        danger=danger,
        care=None if danger else next((caution for work in works for caution in work.cautions), None),
        door=door_of(contact, lead.phone, rows.heard, visit.address, visit.created_at),
        bring=tuple(dict.fromkeys(item for work in works for item in work.bring)),
        works=works,
        repairs=tuple(_repair(row, rulebook, now, zone) for row in rows.repairs),
        recalls=tuple(f"{work.machine}: {line}" for work in works for line in work.recalls),
        no_recall=no_recall_words(rulebook),
        replacing=tuple(f"{work.machine}: {work.replacing}" for work in works if work.replacing),
        money=_money(contact, rulebook),
        promised=rows.promised,
        name=contact.name or "name not given",
        language={"en": "English", "es": "Spanish"}.get(lead.language, lead.language),
        address=address,
        navigate=f"geo:0,0?q={quote(address)}",
        forms=forms,
        missing=next((form for form in forms if form.errors), None),
        saved=saved,
    )


def _told(heard: Sequence[HeardRow]) -> tuple[str, ...]:
    """All that they wrote of a danger: what was shut off, and by whom, may stand in any of it."""
    return tuple(dict.fromkeys(row.text.strip() for row in heard if len(row.text.split()) > 1))


def _known(rows: SheetRows, states: list[TicketState], danger: tuple[str, ...]) -> tuple[str, ...]:
    """Whether they have been with us and with the same fault; whether a danger was named. Of what nobody said, nothing."""
    hurt = ("somebody was hurt",) if any("injury" in state.hazards for state in states) else ()
    return (_returning(rows, states), *hurt, *(() if danger else ("no danger named",)))


def _returning(rows: SheetRows, states: list[TicketState]) -> str:
    if not rows.before:
        return "first time with us"
    now_said = {(state.appliance, code) for state in states for code, so in state.symptoms.items() if so}
    earlier = [TicketState.model_validate(row.state) for row in rows.before]
    same = any((old.appliance, code) in now_said for old in earlier for code, so in old.symptoms.items() if so)
    return f"returning customer (same fault? {'yes' if same or any(s.earlier for s in states) else 'no'})"


def _repair(row: OutcomeRow, rulebook: Rulebook, now: datetime, zone: ZoneInfo) -> str:
    cause = next((a.causes[row.found].name.en for a in rulebook.appliances.values() if row.found in a.causes), "")
    days = (now.astimezone(zone).date() - row.at.astimezone(zone).date()).days
    parts = f", part: {words.part_words(rulebook, row.found, row.parts)}" if row.parts else ""
    found = cause or row.found_words or words.code_words(row.found)
    return f"#{row.ticket_number}, {days} days ago: {found}{parts}; {'fixed' if row.fixed else 'not fixed'} ({row.by})"


def _money(contact: Contact, rulebook: Rulebook) -> tuple[Fact, ...]:
    payer = words.code_words(contact.payer) if contact.payer else "not said: ask first"
    approves = APPROVES.get(contact.payer or "", "the one who pays")
    return (
        Fact("Who pays", payer),
        Fact("Who approves", approves),
        Fact("Visit fee", words.money(rulebook.shop.fees.visit_cents)),
    )
