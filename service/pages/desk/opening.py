"""A ticket for somebody who phoned: one form, and what was typed is read as a text would be."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Form, Guard
from service.access.sessions import SignedIn
from service.conversation.events import OfficeDid
from service.conversation.step import Step
from service.edge import exchange
from service.edge.deps import Deps
from service.edge.numbers import kind_of, one_spelling
from service.pages import words
from service.pages.answer import PageRoute, go, notice, show
from service.pages.desk.views import frame_for_page
from service.pages.frame import Frame
from service.reading.readers import reader_for
from service.rulebook.model import Rulebook
from service.storage import alarms, audit, desk
from service.storage.engine import writing

FIELDS = ("phone", "name", "appliance", "words", "brand", "address", "postal_code", "access", "language")


@dataclass(frozen=True, slots=True)
class OpeningPage:
    """The form, with what was typed and, by field, what is wrong with it."""

    frame: Frame
    machines: tuple[tuple[str, str], ...]
    typed: Mapping[str, str]
    errors: Mapping[str, str]


def opening_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/new``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    office = Depends(guard.page("act_desk"))
    acting_office = Depends(guard.acting("act_desk"))

    @router.get("/desk/new")
    def page(session: SignedIn = office) -> Response:
        return _show(deps, session, {}, {}, 200)

    @router.post("/desk/new")
    async def open_(acting: Acting = acting_office) -> Response:
        return await run_in_threadpool(_open, deps, acting.session, acting.form)

    return router


def _show(deps: Deps, session: SignedIn, typed: Mapping[str, str], errors: Mapping[str, str], status: int) -> Response:
    rulebook = deps.rulebook_of(session.shop)
    page = OpeningPage(
        frame=frame_for_page(deps, session, title="New ticket", here="/desk/new"),
        machines=words.machine_choices(rulebook),
        typed={**dict.fromkeys(FIELDS, ""), "language": "en", **typed},
        errors=errors,
    )
    return show("desk/templates/opening.html", page, status=status)


def _open(deps: Deps, session: SignedIn, form: Form) -> Response:
    rulebook = deps.rulebook_of(session.shop)
    typed = {name: form.text(name, 600) for name in FIELDS}
    number = one_spelling(typed["phone"])
    errors = mistakes(typed, number, rulebook)
    if errors:
        return _show(deps, session, typed, errors, 422)
    event = OfficeDid(action="open", data=data_of(typed, rulebook), by=session.user.login, at=deps.clock())
    thread, step = exchange.open_ticket(deps, session.shop, number, rulebook.shop.gateway, event)
    with writing(deps.engine) as connection:
        made = _number_of(connection, session.shop, thread, step)
        if made is not None:
            audit.record(
                connection, shop=session.shop, at=deps.clock(), who=session.user.login, did="opened",
                subject=f"ticket:{made}", detail={"by": "phone"},
            )  # fmt: skip
            _ring(connection, deps, session.shop, thread, typed["words"])
    if made is None:
        return notice(
            409, "Not done", "The line could not take this in; an alarm is on the desk.", "/desk", "To the desk"
        )
    return go(f"/desk/tickets/{made}")


def mistakes(typed: Mapping[str, str], number: str, rulebook: Rulebook) -> dict[str, str]:
    """Field to what is wrong with it."""
    found = {}
    if kind_of(number) != "phone":
        found["phone"] = "Give the number with its area code, such as (505) 555-0142."
    if typed["appliance"] not in dict(words.machine_choices(rulebook)):
        found["appliance"] = "Choose the machine."
    if not typed["words"]:
        found["words"] = "Type what they said is wrong, in their words."
    if typed["postal_code"] and not re.fullmatch(r"\d{5}", typed["postal_code"]):
        found["postal_code"] = "A ZIP code has 5 digits."
    elif typed["postal_code"] and typed["postal_code"] not in rulebook.shop.area:
        found["postal_code"] = "This ZIP is outside the area. Leave it empty to take the ticket all the same."
    return found


def data_of(typed: Mapping[str, str], rulebook: Rulebook) -> dict[str, object]:
    """What was typed, as the conversation takes it; signs and facts are read from their words."""
    appliance = typed["appliance"]
    heard = reader_for(rulebook).read(typed["words"], about=appliance)
    symptoms: dict[str, object] = {f.code: True for f in heard.symptoms if f.appliance in (appliance, "unknown")}
    symptoms |= {f.code: False for f in heard.denied if f.appliance in (appliance, "unknown")}
    facts = {name: list(v) if isinstance(v, tuple) else v for name, v in heard.facts.items()}
    if typed["brand"]:
        facts["brand"] = typed["brand"]
    contact: dict[str, object] = {n: typed[n] for n in ("name", "address", "postal_code") if typed[n]}
    if typed["access"]:
        contact["access"] = [part.strip() for part in typed["access"].split(",") if part.strip()]
    return {
        "appliance": appliance, "words": typed["words"], "symptoms": symptoms, "facts": facts, "contact": contact,
        "language": typed["language"], "urgency": list(heard.urgency),
        "hazards": list(dict.fromkeys(found.code for found in heard.hazards)),
        "observations": {seen.id: seen.value for seen in heard.observations if seen.appliance == appliance},
    }  # fmt: skip


def _ring(connection: Connection, deps: Deps, shop: str, thread: str, said: str) -> None:
    """A danger named on the phone stands on the desk like one that was texted: somebody must have it in hand."""
    rulebook = deps.rulebook_of(shop)
    hazards = reader_for(rulebook).hazards(said)
    if hazards:
        told = "; ".join(words.hazard_names(rulebook, dict.fromkeys(found.code for found in hazards)))
        text = f"Named on the phone: {told}."
        alarms.raise_alarm(connection, shop=shop, kind="danger", text=text, now=deps.clock(), thread=thread)


def _number_of(connection: Connection, shop: str, thread: str, step: Step | None) -> int | None:
    if step is None:
        return None
    key = step.state.focus
    return next((t.number for t in desk.tickets_of_thread(connection, shop, thread) if t.key == key), None)
