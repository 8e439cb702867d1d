"""What the visit sheet reads, in one view of the database, and the plan made of it."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from service.conversation.state import TicketState
from service.diagnosis.model import VisitPlan
from service.diagnosis.on_site import with_time_for_it
from service.diagnosis.review import finish_forecasts
from service.diagnosis.scores import ENOUGH
from service.diagnosis.visit import plan_visit
from service.pages.answer import Lost
from service.pages.desk.talk import whole_texts
from service.pages.reports.gather import jobs_of
from service.pages.sheet.page import SheetRows
from service.pages.sheet.work import evidence_for
from service.rulebook.model import Rulebook
from service.storage import desk, outcomes, visits_view
from service.storage.desk import HeardRow, TicketRow
from service.storage.reviews import found_since
from service.storage.teaching import BEGINNING
from service.storage.visits_view import MachineRow, VisitRow

RESTS = timedelta(minutes=10)
"""A ticket is opened by the turn that takes the text: the text itself is older, by its rest and its pieces."""


def sheet_rows(connection: Connection, shop: str, visit_id: str, rulebook: Rulebook) -> SheetRows:
    """Everything of a visit. Raises Lost."""
    visit = visits_view.visit_by_id(connection, shop, visit_id)
    tickets = desk.tickets_by_id(connection, shop, visit.tickets) if visit else ()
    if visit is None or not tickets:
        raise Lost("This visit is not in the diary any more. Ask the office.")
    ids = [row.id for row in tickets]
    own_thread = desk.tickets_of_thread(connection, shop, tickets[0].thread)
    machines: dict[str, MachineRow] = {}
    for row in tickets:
        machine = visits_view.machine_by_id(connection, shop, row.machine)
        if machine:
            machines[row.id] = machine
    plans, meant = _plans(connection, tickets, visit, rulebook)
    return SheetRows(
        visit=visit,
        tickets=tickets,
        before=tuple(row for row in own_thread if row.id not in ids and row.opened_at < tickets[0].opened_at),
        machines=machines,
        repairs=tuple(
            outcome for row in tickets for outcome in visits_view.earlier_repairs(connection, shop, row.machine, ids)
        ),
        outcomes=visits_view.outcomes_of_tickets(connection, shop, ids),
        plans=plans,
        meant=meant,
        promised=desk.text_about_visit(connection, shop, visit.id, visit.version) or "",
        heard=_heard(connection, shop, tickets),
    )


def _heard(connection: Connection, shop: str, tickets: tuple[TicketRow, ...]) -> tuple[HeardRow, ...]:
    """What they wrote since the first of these complaints was opened, pieces of a long text made one, oldest first."""
    opened = min(row.opened_at for row in tickets) - RESTS
    texts = whole_texts(desk.heard(connection, shop, tickets[0].thread))
    return tuple(text for text in texts if text.at >= opened)


def _plans(
    connection: Connection, tickets: tuple[TicketRow, ...], visit: VisitRow, rulebook: Rulebook
) -> tuple[dict[str, VisitPlan], dict[str, float]]:
    """By ticket its plan; and, from enough outcomes on, what the plan's chance to finish has come to in this shop."""
    litres = next((t.van_litres for t in rulebook.shop.technicians if t.id == visit.technician), 120.0)
    plans: dict[str, VisitPlan] = {}
    meant: dict[str, float] = {}
    for row in tickets:
        appliance = rulebook.appliances.get(row.appliance)
        if appliance is None:
            continue
        own = outcomes.technicians_outcomes(connection, rulebook.shop.shop, row.appliance)
        state = TicketState.model_validate(row.state)
        plan = plan_visit(appliance, evidence_for(rulebook, state), rulebook.shop, van_litres=litres, outcomes=own)
        plan = with_time_for_it(plan, rulebook.on_site, state.hazards)
        plans[row.id] = plan
        come = _come_to(connection, rulebook, row.appliance, plan.finish) if own >= ENOUGH else None
        if come is not None:
            meant[row.id] = come
    return plans, meant


def _come_to(connection: Connection, rulebook: Rulebook, appliance: str, chance: float) -> float | None:
    """How often a first visit foretold with this *chance* has finished the job, by the shop's own outcomes."""
    found = found_since(connection, rulebook.shop.shop, BEGINNING, appliance)
    return finish_forecasts(jobs_of(found, ZoneInfo(rulebook.shop.timezone))).has_meant(chance)
