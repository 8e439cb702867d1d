"""Booking, moving and cancelling a visit by hand: windows the diary offers, or any other that the technician can keep."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Response
from sqlalchemy import Connection
from starlette.concurrency import run_in_threadpool

from service.access.guard import Acting, Form, Guard
from service.access.sessions import SignedIn
from service.conversation.judged import plan_of
from service.conversation.step import Step
from service.edge.deps import Deps
from service.pages import words
from service.pages.answer import PageRoute, show
from service.pages.desk.place import Action, Where, at_ticket, back
from service.pages.desk.refusing import pick_of, refusal_words
from service.pages.desk.views import frame_for_page
from service.pages.frame import Frame
from service.scheduling.model import Diary, Job, Offer
from service.scheduling.offers import find_offers, why_not
from service.storage import diary, visits_view
from service.storage.engine import reading

OFFERS = 6


@dataclass(frozen=True, slots=True)
class Window:
    """A window to choose. value: what the form posts."""

    value: str
    when: str
    who: str
    travel: str


@dataclass(frozen=True, slots=True)
class PlanPage:
    """The form. standing: the visit in words, empty if none. typed: what was filled in; errors: field to words."""

    frame: Frame
    base: str
    number: int
    complaint: str
    standing: str
    minutes: str
    windows: tuple[Window, ...]
    none_why: str
    technicians: tuple[tuple[str, str], ...]
    starts: tuple[tuple[str, str], ...]
    earliest: str
    opted_out: bool
    typed: Mapping[str, str]
    errors: Mapping[str, str]


class Taken(Exception):
    """Between looking and booking somebody else took the time."""


def planning_router(deps: Deps, guard: Guard) -> APIRouter:
    """``/desk/tickets/{number}/visit`` and ``/desk/tickets/{number}/cancel``."""
    router = APIRouter(route_class=PageRoute, include_in_schema=False)
    office = Depends(guard.page("act_desk"))
    acting_office = Depends(guard.acting("act_desk"))

    @router.get("/desk/tickets/{number}/visit")
    def page(number: int, session: SignedIn = office) -> Response:
        return _show(at_ticket(deps, session, number), {}, {}, 200)

    @router.post("/desk/tickets/{number}/visit")
    async def book(number: int, acting: Acting = acting_office) -> Response:
        return await run_in_threadpool(lambda: _book(at_ticket(deps, acting.session, number), acting.form))

    @router.post("/desk/tickets/{number}/cancel")
    async def cancel(number: int, acting: Acting = acting_office) -> Response:
        return await run_in_threadpool(lambda: _cancel(at_ticket(deps, acting.session, number), acting.form))

    return router


def job_for(where: Where, postal_code: str) -> Job:
    """The work of the ticket's visit, measured from its ZIP; outside the area from the area's middle."""
    shop, ticket = where.rulebook.shop, where.ticket
    rules = where.rulebook.appliances.get(ticket.appliance)
    plan = plan_of(where.rulebook, ticket)
    place = shop.area.get(postal_code)
    points = [place] if place else list(shop.area.values())
    return Job(
        lat=sum(p.lat for p in points) / len(points),
        lon=sum(p.lon for p in points) / len(points),
        minutes_usual=plan.minutes_usual if plan else 60,
        minutes_promise=plan.minutes_promise if plan else 90,
        skills=frozenset({ticket.appliance, *(rules.basics.skills if rules else ())}),
        language=where.thread.language,
    )


def _show(where: Where, typed: Mapping[str, str], errors: Mapping[str, str], status: int) -> Response:
    shop, now = where.rulebook.shop, where.deps.clock()
    zone = ZoneInfo(shop.timezone)
    contact, visit = where.contact, where.ticket.visit
    zip_code = typed.get("postal_code", contact.postal_code or "")
    job = job_for(where, zip_code)
    with reading(where.deps.engine) as connection:
        seen = diary.load_diary(connection, shop, now)
    found = find_offers(shop, seen, job, None, now, count=OFFERS, moving=visit.id if visit else None)
    names = {technician.id: technician.name for technician in shop.technicians}
    windows = tuple(
        Window(_value(o), words.window(o.start, o.end, zone), names.get(o.technician, o.technician), travel_words(o))
        for o in found.offers
    )
    fields = {  # nothing is chosen beforehand: a button pressed unread would book, and text the customer
        "pick": "" if windows else "other", "technician": "", "day": "", "start": "", "tell": "yes",
        "address": contact.address or "", "postal_code": zip_code, "name": contact.name or "",
    }  # fmt: skip
    page = PlanPage(
        frame=frame_for_page(where.deps, where.session, title=f"Visit for #{where.row.number if where.row else ''}"),
        base=where.base,
        number=where.row.number if where.row else 0,
        complaint=words.complaint_words(where.rulebook, where.ticket),
        standing=f"{words.window(visit.start, visit.end, zone)}, {names.get(visit.technician, '')}" if visit else "",
        minutes=f"about {job.minutes_usual} minutes of work, {job.minutes_promise} kept free",
        windows=windows,
        none_why=found.why,
        technicians=tuple(names.items()),
        starts=tuple(
            (s.strftime("%H:%M"), words.clock_words(datetime.combine(date.min, s))) for s in shop.windows.starts
        ),
        earliest=now.astimezone(zone).date().isoformat(),
        opted_out=where.thread.consent == "out",
        typed={**fields, **typed},
        errors=errors,
    )
    return show("desk/templates/plan.html", page, status=status)


def _book(where: Where, form: Form) -> Response:
    names = ("pick", "technician", "day", "start", "address", "postal_code", "name", "tell")
    typed = {name: form.text(name, 300) for name in names}
    errors = {}
    if not re.fullmatch(r"\d{5}", typed["postal_code"]):
        errors["postal_code"] = "A ZIP code has 5 digits."
    if not typed["address"]:
        errors["address"] = "The technician needs an address."
    offer, wrong = _chosen(where, typed)
    errors |= wrong
    if errors or offer is None:
        return _show(where, typed, errors, 422)
    old = where.ticket.visit
    data: dict[str, object] = {
        "technician": offer.technician, "start": offer.start.isoformat(), "end": offer.end.isoformat(),
        "minutes": offer.minutes, "quiet": not typed["tell"],
        "address": typed["address"], "postal_code": typed["postal_code"], "name": typed["name"],
    }  # fmt: skip
    action: Action = "move" if old else "book"

    def also(connection: Connection, step: Step | None) -> None:
        booked = next((t.visit for t in step.state.tickets if t.key == where.ticket.key), None) if step else None
        if booked is None or _why_not(connection, where, offer, typed["postal_code"], booked.id):
            raise Taken
        visits_view.make_stand(connection, where.session.shop, booked.id, where.deps.clock())

    try:
        return back(
            where, where.act(action, data, also=also, window=offer.start.isoformat(), technician=offer.technician)
        )
    except Taken:
        gone = "" if typed["pick"] != "other" else "other"
        return _show(where, {**typed, "pick": gone}, {"pick": "Somebody took this time meanwhile. Choose again."}, 409)


def _chosen(where: Where, typed: Mapping[str, str]) -> tuple[Offer | None, dict[str, str]]:
    """The window that was picked or filled in; or what is wrong with it, by field."""
    shop = where.rulebook.shop
    zone, length = ZoneInfo(shop.timezone), timedelta(minutes=shop.windows.minutes)
    technician, day, start = typed["technician"], typed["day"], typed["start"]
    pick, wrong = pick_of(typed)
    if wrong:
        return None, {"pick": wrong}
    if pick != "other":
        technician, _, moment = pick.partition("@")
        day, _, start = moment.partition("T")
    errors = {}
    if technician not in {t.id for t in shop.technicians}:
        errors["technician"] = "Choose a technician."
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", day):
        errors["day"] = "Choose a day."
    if not re.fullmatch(r"\d{2}:\d{2}", start):
        errors["start"] = "Choose when the window begins."
    if errors:
        return None, errors
    try:
        begin = datetime.combine(date.fromisoformat(day), time.fromisoformat(start), zone)
    except ValueError:
        return None, {"day": "There is no such day or time."}
    if begin <= where.deps.clock():
        return None, {"day": "This window has begun already."}
    minutes = job_for(where, typed["postal_code"]).minutes_promise
    offer = Offer(technician, begin, begin + length, minutes, 0.0)
    old = where.ticket.visit
    with reading(where.deps.engine) as connection:
        wrong = _why_not(connection, where, offer, typed["postal_code"], old.id if old else None)
    return (None, {"pick": wrong}) if wrong else (offer, {})


def _why_not(connection: Connection, where: Where, offer: Offer, postal_code: str, visit: str | None) -> str:
    """Why the technician cannot keep *offer* beside what stands that day, *visit* itself left out; empty if they can."""
    shop, now, job = where.rulebook.shop, where.deps.clock(), job_for(where, postal_code)
    booked = visits_view.booked_on(connection, shop.shop, offer.start.date())
    refusal = why_not(shop, Diary(booked=booked), job, offer, now, moving=visit)
    others = [one for one in booked if one.visit_id != visit]
    return refusal_words(where.rulebook, refusal, offer, job, others) if refusal else ""


def _cancel(where: Where, form: Form) -> Response:
    why = form.text("why", 200)
    if where.ticket.visit is None:
        return back(where, False, "No visit stands for this ticket.")
    return back(where, where.act("cancel", {"why": why, "quiet": not form.text("tell")}, why=why or "no reason given"))


def _value(offer: Offer) -> str:
    return f"{offer.technician}@{offer.start:%Y-%m-%dT%H:%M}"


def travel_words(offer: Offer) -> str:
    """What the window costs in driving."""
    return f"{round(offer.cost_min)} min more on the road" if offer.cost_min >= 1 else "on the way"
