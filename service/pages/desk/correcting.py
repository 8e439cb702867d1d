"""Putting right what was read: every sign, fact and contact of a ticket in one form; only what was changed is taken."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Depends, Response
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Form, Guard
from service.access.sessions import SignedIn
from service.conversation.state import Contact, TicketState
from service.edge.deps import Deps
from service.pages import words
from service.pages.answer import PageRoute, go, show
from service.pages.desk.place import Where, at_ticket, back
from service.pages.desk.reading import CONTACT_LABELS, FACT_LABELS
from service.pages.desk.views import frame_for_page
from service.pages.frame import Frame
from service.rulebook.model import Rulebook

Option = tuple[str, str]
YES_NO: tuple[Option, ...] = (("", "not said"), ("yes", "yes"), ("no", "no"))
GATHERED = ("after", "tried")
FACTS = ("brand", "model", "serial", "age_years", "fuel", "variant", "code", "since", "pattern", "after", "tried")
CHOICES: dict[str, tuple[str, ...]] = {
    "pattern": ("always", "sometimes", "worsening", "once"),
    "fuel": ("gas", "electric", "induction"),
    "payer": ("owner", "landlord", "tenant", "home_warranty", "maker_warranty", "insurance"),
}
HELP = {
    "after": "what happened just before; several with commas",
    "tried": "several with commas",
    "access": "gate code, pets, parking, who will be there; with commas",
    "age_years": "a number",
    "postal_code": "5 digits",
}


@dataclass(frozen=True, slots=True)
class Entry:
    """One field. was: what it held when the page was made. options: for a choice. error: stands beside it."""

    name: str
    label: str
    value: str
    was: str
    options: tuple[Option, ...]
    help: str
    error: str


@dataclass(frozen=True, slots=True)
class Part:
    """Fields that belong together."""

    title: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class CorrectPage:
    """The form."""

    frame: Frame
    base: str
    number: int
    complaint: str
    parts: tuple[Part, ...]
    mistakes: int


def correct_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/tickets/{number}/correct``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    office = Depends(guard.page("act_desk"))
    acting_office = Depends(guard.acting("act_desk"))

    @router.get("/desk/tickets/{number}/correct")
    def page(number: int, session: SignedIn = office) -> Response:
        return _show(at_ticket(deps, session, number), {}, {}, 200)

    @router.post("/desk/tickets/{number}/correct")
    async def correct(number: int, acting: Acting = acting_office) -> Response:
        return await run_in_threadpool(lambda: _correct(at_ticket(deps, acting.session, number), acting.form))

    return router


def _show(where: Where, typed: Mapping[str, str], errors: Mapping[str, str], status: int) -> Response:
    parts = build_parts(where.rulebook, where.ticket, where.contact, typed, errors)
    number = where.row.number if where.row else 0
    page = CorrectPage(
        frame=frame_for_page(where.deps, where.session, title=f"Correct #{number}"),
        base=where.base,
        number=number,
        complaint=words.complaint_words(where.rulebook, where.ticket),
        parts=parts,
        mistakes=len(errors),
    )
    return show("desk/templates/correct.html", page, status=status)


def _correct(where: Where, form: Form) -> Response:
    parts = build_parts(where.rulebook, where.ticket, where.contact, {}, {})
    names = [entry.name for part in parts for entry in part.entries]
    typed = {name: form.text(name, 300) for name in names}
    changed = {name: typed[name] for name in names if typed[name] != form.text(f"was.{name}", 300)}
    errors = mistakes(changed)
    if errors:
        return _show(where, typed, errors, 422)
    if not changed:
        return go(where.base)
    data = data_of(changed)
    return back(where, where.act("correct", data, corrected=", ".join(sorted(changed))))


def build_parts(
    rulebook: Rulebook, ticket: TicketState, contact: Contact, typed: Mapping[str, str], errors: Mapping[str, str]
) -> tuple[Part, ...]:
    """The form's fields as the ticket stands, with what was *typed* and the *errors* found."""

    def entry(name: str, label: str, was: str, options: tuple[Option, ...] = (), help: str = "") -> Entry:
        return Entry(name, label, typed.get(name, was), was, options, help, errors.get(name, ""))

    appliance = rulebook.appliances.get(ticket.appliance)
    choices = words.machine_choices(rulebook)
    standing = () if ticket.appliance in dict(choices) else (ticket.appliance,)
    machines = (*((code, words.appliance_words(rulebook, code)) for code in standing), *choices)
    signs = []
    for code in dict.fromkeys([*ticket.symptoms, *(appliance.symptoms if appliance else ())]):
        said = ticket.symptoms.get(code)
        was = "" if said is None else "yes" if said else "no"
        signs.append(entry(f"symptom.{code}", words.symptom_words(rulebook, ticket.appliance, code), was, YES_NO))
    seen = []
    for code, observation in (appliance.observations if appliance else {}).items():
        told = {answer.value: answer.say.en for answer in observation.answers}
        options = (("", "not said"), *((value, told.get(value, value)) for value in observation.values))
        seen.append(entry(f"observation.{code}", observation.trade, ticket.observations.get(code, ""), options))
    facts = [
        entry(f"fact.{name}", FACT_LABELS[name], _plain(ticket.facts.get(name)), _options(name), HELP.get(name, ""))
        for name in FACTS
    ]
    told_contact = contact.model_dump()
    who = [
        entry(f"contact.{name}", label, _plain(told_contact.get(name)), _options(name), HELP.get(name, ""))
        for name, label in CONTACT_LABELS.items()
    ]
    machine = Part("Machine", (entry("appliance", "Machine", ticket.appliance, machines), *facts))
    parts = (machine, Part("Signs", tuple(signs)), Part("Observations", tuple(seen)), Part("Who and where", tuple(who)))
    return tuple(part for part in parts if part.entries)


def mistakes(changed: Mapping[str, str]) -> dict[str, str]:
    """Field to what is wrong with it."""
    found = {}
    zip_code, age, email = (
        changed.get(name, "") for name in ("contact.postal_code", "fact.age_years", "contact.email")
    )
    if zip_code and not re.fullmatch(r"\d{5}", zip_code):
        found["contact.postal_code"] = "A ZIP code has 5 digits."
    if age and not (re.fullmatch(r"\d{1,2}(\.\d)?", age)):
        found["fact.age_years"] = "Give the age in years as a number, such as 6."
    if email and not re.fullmatch(r"[^@\s]+@[^@\s]+\.[^@\s]+", email):
        found["contact.email"] = "An email address looks like name@place.example."
    return found


def data_of(changed: Mapping[str, str]) -> dict[str, object]:
    """What was changed, as the conversation takes it."""
    data: dict[str, object] = {}
    kinds: dict[str, dict[str, object]] = {"symptom": {}, "observation": {}, "fact": {}, "contact": {}}
    for name, value in changed.items():
        kind, _, code = name.partition(".")
        if name == "appliance":
            data["appliance"] = value
        elif kind == "symptom":
            kinds[kind][code] = None if not value else value == "yes"
        elif kind in ("fact", "contact") and code in (*GATHERED, "access"):
            kinds[kind][code] = [part.strip() for part in value.split(",") if part.strip()]
        elif code == "age_years" and value:
            kinds[kind][code] = float(value)
        else:
            kinds[kind][code] = value or None
    for kind, name in (
        ("symptom", "symptoms"),
        ("observation", "observations"),
        ("fact", "facts"),
        ("contact", "contact"),
    ):
        if kinds[kind]:
            data[name] = kinds[kind]
    return data


def _options(name: str) -> tuple[Option, ...]:
    return (("", "not said"), *((v, words.code_words(v)) for v in CHOICES[name])) if name in CHOICES else ()


def _plain(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, tuple | list):
        return ", ".join(str(item) for item in value)
    return str(int(value)) if isinstance(value, float) and value.is_integer() else str(value)
