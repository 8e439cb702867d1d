"""Recorded outcomes as lessons: what a technician confirmed, and what an owner check settled. Nothing inferred teaches."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Connection

from service.conversation.state import State, TicketState
from service.conversation.summary import evidence_of
from service.diagnosis.belief import believe, weigh
from service.diagnosis.checks import chance_to_settle
from service.diagnosis.held import held
from service.diagnosis.learning import Outcome
from service.diagnosis.model import SOMETHING_ELSE, Evidence
from service.diagnosis.table import compiled
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.storage import outcomes, tickets
from service.storage.reviews import Found, found_since
from service.storage.threads import ThreadRow

OWNER_CHECK = "owner_check"
BEGINNING = datetime(1970, 1, 1, tzinfo=UTC)


def lessons(connection: Connection, shop: str, book: Appliance, since: datetime | None = None) -> tuple[Outcome, ...]:
    """
    What the shop's outcomes of this appliance teach, oldest first, one a ticket: the last finding counts.

    book: the rules as written, nothing learned laid over them: belief over an owner's cause must not teach itself. Findings
    that the rules no longer know are left out.
    """
    last: dict[str, Found] = {}
    returned: set[str] = set()
    for one in found_since(connection, shop, since or BEGINNING, book.code):
        if one.looked:
            last.pop(one.ticket, None)
            last[one.ticket] = one
        if one.came_back is not None:
            returned.add(one.ticket)
    taught = ((one, causes_of(one, book)) for one in last.values())
    return tuple(
        Outcome(causes, *_answered(one.evidence), came_back=one.ticket in returned) for one, causes in taught if causes
    )


def causes_of(one: Found, book: Appliance) -> Mapping[str, float]:
    """What it was, as shares: the cause confirmed; or, settled by a check, the belief among the causes it settles."""
    if one.source != OWNER_CHECK:
        return {one.found: 1.0} if one.found in book.causes or one.found == SOMETHING_ELSE else {}
    check = book.checks.get(str(one.forecast.get("check", "")))
    if check is None or not one.evidence:
        return {one.found: 1.0} if one.found in book.causes else {}
    belief = believe(book, _evidence(one.evidence))
    shares = {cause: belief.share(cause) for cause in check.settles if cause in book.causes}
    total = sum(shares.values())
    return {cause: share / total for cause, share in shares.items()} if total > 0 else {}


def record_settled(
    connection: Connection, row: ThreadRow, rulebook: Rulebook, before: State, after: State, now: datetime
) -> None:
    """Keep an outcome of each ticket that this turn closed because an owner check settled it."""
    for ticket in after.tickets:
        was = before.ticket(ticket.key)
        if ticket.closed == "settled_by_owner" and (was is None or was.open):
            _record_one(connection, row, rulebook, ticket, now)


def _record_one(connection: Connection, row: ThreadRow, rulebook: Rulebook, ticket: TicketState, now: datetime) -> None:
    rules = rulebook.appliances.get(ticket.appliance)
    check = next((code for code, result in ticket.checks.items() if result == "fixed"), None)
    if rules is None or check not in rules.checks or ticket.cause_found is None:
        return  # it works by itself, or nobody knows which check did it: nothing is learned from a guess
    evidence = evidence_of(ticket)
    untried = Evidence(
        symptoms=evidence.symptoms, one_of=evidence.one_of, observations=evidence.observations, hedged=evidence.hedged,
        checks={code: result for code, result in evidence.checks.items() if code != check}, facts=evidence.facts,
        theories=evidence.theories, hazards=evidence.hazards,
    )  # fmt: skip
    table = compiled(rules)
    chance = chance_to_settle(table, weigh(table.prior, held(table, untried).rows), check)
    shown = believe(rules, untried).likely
    outcomes.record(
        connection, shop=row.shop, visit=None, ticket=tickets.ticket_id(row.id, ticket.key), appliance=ticket.appliance,
        source=OWNER_CHECK, found=ticket.cause_found, fixed=True, by="customer", edition=rulebook.fingerprint, now=now,
        belief=[(item.cause, round(item.share, 4)) for item in shown], evidence=written(evidence, ticket.asked),
        forecast={"check": check, "chance": round(chance, 4)},
    )  # fmt: skip


def written(evidence: Evidence, asked: Iterable[str]) -> dict[str, Any]:
    """*evidence* as it is kept with an outcome, and what of it was asked."""
    names = ("symptoms", "one_of", "observations", "hedged", "checks", "facts", "theories", "hazards")
    kept = {name: getattr(evidence, name) for name in names}
    plain = {name: sorted(value) if isinstance(value, frozenset) else value for name, value in kept.items()}
    return {**plain, "asked": list(asked)}


def _evidence(kept: Mapping[str, Any]) -> Evidence:
    return Evidence(
        symptoms=kept.get("symptoms", {}),
        one_of=tuple(tuple(group) for group in kept.get("one_of", ())),
        observations=kept.get("observations", {}),
        hedged=frozenset(kept.get("hedged", ())),
        checks=kept.get("checks", {}),
        facts=kept.get("facts", {}),
        theories=tuple(kept.get("theories", ())),
        hazards=frozenset(kept.get("hazards", ())),
    )


def _answered(kept: Mapping[str, Any]) -> tuple[dict[str, bool], dict[str, str]]:
    """Symptoms and observations that were answered when asked, without doubt: what was complained of is always a yes."""
    asked = set(kept.get("asked", ())) - set(kept.get("hedged", ()))
    symptoms = {code: bool(yes) for code, yes in kept.get("symptoms", {}).items() if code in asked}
    observations = {code: str(value) for code, value in kept.get("observations", {}).items() if code in asked}
    return symptoms, observations
