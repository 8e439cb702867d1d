"""The outcome: found, did, parts, minutes, fixed or coming back. Read from the form, kept with the belief as it was shown."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from service.access.guard import Form
from service.conversation.events import TechnicianDid
from service.conversation.state import TicketState
from service.conversation.step import Step
from service.conversation.summary import evidence_of
from service.diagnosis.model import NOT_LOOKED_AT, SOMETHING_ELSE, VisitPlan
from service.edge import exchange
from service.edge.deps import Deps
from service.pages import words
from service.pages.sheet.page import OutcomeForm, SheetRows
from service.pages.sheet.work import cause_name
from service.rulebook.model import Rulebook
from service.storage import alarms, audit, outcomes
from service.storage.desk import TicketRow
from service.storage.engine import writing
from service.storage.teaching import written
from service.storage.visits_view import OutcomeRow

FIELDS = ("found", "found_words", "did", "minutes", "ended", "why", "early")
UNDONE = "undone"
ENDINGS = {
    "fixed": "fixed", "returning": "coming back", "open": "not fixed, the office decides", UNDONE: "not looked at",
}  # fmt: skip
STAGES = {"parts": "returning", "deciding": "open"}
"""How a job ended that is not finished, by the stage it left the ticket in."""
CAUSES_SHOWN = 8
PARTS_SHOWN = 6


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was filled in. minutes: None where nobody looked at it."""

    found: str
    found_words: str
    did: str
    parts: tuple[str, ...]
    minutes: int | None
    ended: str
    why: str


def forms_of(
    rows: SheetRows, rulebook: Rulebook, now: datetime, *, filled: str = "", form: Form | None = None,
    errors: Mapping[str, str] | None = None,
) -> tuple[OutcomeForm, ...]:  # fmt: skip
    """A form for each ticket of the visit; the one with key *filled* keeps what was typed and shows *errors*."""
    begins = early_words(rows, rulebook, now)
    found = []
    for row in rows.tickets:
        mine = form if form is not None and row.key == filled else None
        kept = _kept(row, rows)
        typed, picked = _typed(row, kept), tuple(kept.parts) if kept else ()
        if mine:
            typed, picked = {name: mine.text(name, 500) for name in FIELDS}, mine.all("parts")
        causes, parts = causes_of(row, rows, rulebook), parts_of(row, rows, rulebook)
        found.append(
            OutcomeForm(
                key=row.key, number=row.number, machine=words.appliance_words(rulebook, row.appliance),
                causes=causes[:CAUSES_SHOWN], more_causes=_by_name(causes[CAUSES_SHOWN:]),
                parts=parts[:PARTS_SHOWN], more_parts=parts[PARTS_SHOWN:], done=_done(row, kept, rulebook),
                usual=rows.plans[row.id].minutes_usual if row.id in rows.plans else 0, early=begins,
                typed=typed, picked=picked, errors=errors if mine and errors else {},
            )
        )  # fmt: skip
    return tuple(found)


def causes_of(row: TicketRow, rows: SheetRows, rulebook: Rulebook) -> tuple[tuple[str, str], ...]:
    """All causes that the rules list, likeliest first: what is found is often not what was likely."""
    appliance, plan = rulebook.appliances.get(row.appliance), rows.plans.get(row.id)
    if not appliance or not plan:
        return ()
    likely = (item.cause for item in plan.belief.likely if item.cause != SOMETHING_ELSE)
    return tuple((cause, cause_name(appliance, cause)) for cause in likely)


def parts_of(row: TicketRow, rows: SheetRows, rulebook: Rulebook) -> tuple[tuple[str, str], ...]:
    """Parts to tap: those weighed for this visit, then the machine's others."""
    appliance, plan = rulebook.appliances.get(row.appliance), rows.plans.get(row.id)
    if appliance is None:
        return ()
    weighed = [item.part for item in plan.load if item.part in appliance.parts] if plan else []
    return tuple((part, appliance.parts[part].name.en) for part in dict.fromkeys([*weighed, *appliance.parts]))


def early_words(rows: SheetRows, rulebook: Rulebook, now: datetime) -> str:
    """What is asked before an outcome is taken of a visit that has not begun by its window; empty once it has."""
    visit = rows.visit
    if now >= visit.start_at:
        return ""
    when = words.window(visit.start_at, visit.end_at, ZoneInfo(rulebook.shop.timezone))
    return f"This visit is {when}, and that has not begun. Yes, it is done: record it now."


def read_outcome(form: Form, causes: Container[str], early: bool = False) -> tuple[Outcome | None, dict[str, str]]:
    """
    The outcome, or by field what is wrong with it, in the order of the form.

    causes: ids that may be found, besides something else. early: the visit has not begun, so a yes is needed.
    """
    errors = {}
    found, found_words = form.text("found", 64), form.text("found_words", 500)
    minutes, ended, why = form.text("minutes", 6), form.text("ended"), form.text("why", 190)
    if ended == UNDONE:
        found = NOT_LOOKED_AT
    elif found != SOMETHING_ELSE and found not in causes:
        errors["found"] = "Tap what was found."
    elif found == SOMETHING_ELSE and not found_words:
        errors["found_words"] = "Say in a few words what it was."
    if ended not in ENDINGS:
        errors["ended"] = "Tap how it ended."
    elif ended != "fixed" and not why:
        errors["why"] = "Say why, so that the office can go on."
    if not (ended == UNDONE and not minutes) and (not minutes.isdigit() or not 1 <= int(minutes) <= 900):
        errors["minutes"] = "Minutes at the customer's, as a whole number."
    if early and form.text("early") != "yes":
        errors["early"] = "The visit has not begun. Tap that it is done all the same, or record it later."
    if errors:
        return None, errors
    spent = int(minutes) if minutes else None
    return Outcome(found, found_words, form.text("did", 500), form.all("parts"), spent, ended, why), {}


def record(deps: Deps, shop: str, rows: SheetRows, row: TicketRow, outcome: Outcome) -> bool:
    """
    Let the conversation take the outcome, with its row in the same transaction; False if the turn failed.

    A ticket that is closed already only gets its record corrected; if that says that it is not fixed, the desk is told.
    """
    by, now = rows.visit.technician, deps.clock()

    def keep(connection: Connection, step: Step | None) -> None:
        if step is not None:
            _keep(connection, deps, shop, rows, row, outcome)

    if row.closed:
        with writing(deps.engine) as connection:
            _keep(connection, deps, shop, rows, row, outcome)
            if outcome.ended != "fixed":
                text = f"The technician corrected the outcome of #{row.number}: {ENDINGS[outcome.ended]}."
                alarms.raise_alarm(
                    connection, shop=shop, kind="trouble", text=text, now=now, thread=row.thread, ticket=row.id
                )
        return True
    event = TechnicianDid(
        ticket=row.key, found=outcome.found, fixed=outcome.ended == "fixed", returning=outcome.ended == "returning",
        why=outcome.why, by=by, at=now,
    )  # fmt: skip
    return exchange.act(deps, shop, row.thread, event, also=keep) is not None


def _keep(connection: Connection, deps: Deps, shop: str, rows: SheetRows, row: TicketRow, outcome: Outcome) -> None:
    plan, ticket = rows.plans.get(row.id), TicketState.model_validate(row.state)
    evidence = written(evidence_of(ticket), ticket.asked)
    outcomes.record(
        connection, shop=shop, visit=rows.visit.id, ticket=row.id, appliance=row.appliance, source="technician",
        found=outcome.found, fixed=outcome.ended == "fixed", by=rows.visit.technician,
        edition=deps.rulebook_of(shop).fingerprint, now=deps.clock(), found_words=outcome.found_words, did=outcome.did,
        parts=outcome.parts, minutes=outcome.minutes, returning=outcome.why or None,
        belief=[(item.cause, round(item.share, 4)) for item in plan.belief.likely] if plan else (), evidence=evidence,
        forecast=_forecast(plan) if plan else None,
    )  # fmt: skip
    audit.record(
        connection, shop=shop, at=deps.clock(), who=rows.visit.technician, did="outcome", subject=f"ticket:{row.number}",
        detail={"found": outcome.found, "ended": outcome.ended},
    )  # fmt: skip


def _forecast(plan: VisitPlan) -> dict[str, object]:
    """The plan as it was shown, as far as it can come true or not."""
    return {
        "finish": round(plan.finish, 4), "usual": plan.minutes_usual, "promise": plan.minutes_promise,
        "load": [[item.part, round(item.chance, 4), item.carry] for item in plan.load],
    }  # fmt: skip


def _kept(row: TicketRow, rows: SheetRows) -> OutcomeRow | None:
    """What was recorded for this ticket on this visit, if anything was."""
    return next((o for o in rows.outcomes if o.ticket == row.id and o.visit == rows.visit.id), None)


def _typed(row: TicketRow, kept: OutcomeRow | None) -> dict[str, str]:
    """What the form's fields hold before anybody types: what was recorded, so that a correction changes one thing only."""
    if kept is None:
        return dict.fromkeys(FIELDS, "")
    undone = kept.found == NOT_LOOKED_AT
    return {
        "found": "" if undone else kept.found, "found_words": kept.found_words, "did": kept.did,
        "minutes": str(kept.minutes or ""), "why": kept.returning or "",
        "ended": "fixed" if kept.fixed else UNDONE if undone else STAGES.get(row.stage, ""), "early": "",
    }  # fmt: skip


def _by_name(causes: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(causes, key=lambda one: one[1].casefold()))


def _done(row: TicketRow, kept: OutcomeRow | None, rulebook: Rulebook) -> str:
    """What was recorded for this ticket on this visit, in words; empty if nothing was."""
    if kept is None:
        return ""
    appliance = rulebook.appliances.get(row.appliance)
    found = cause_name(appliance, kept.found) if appliance else words.code_words(kept.found)
    ended = "fixed" if kept.fixed else f"not finished: {kept.returning}"
    at = kept.at.astimezone(ZoneInfo(rulebook.shop.timezone))
    return f"{found}{f' ({kept.found_words})' if kept.found_words else ''}; {ended}. Recorded {words.day_words(at)}."
