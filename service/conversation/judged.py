"""What the diagnosis makes of a ticket. Much of it is asked twice: after one text and before the next nothing has changed."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from service.conversation.state import TicketState
from service.conversation.summary import evidence_of
from service.diagnosis.belief import believe
from service.diagnosis.model import Belief, Evidence, Triage, VisitPlan
from service.diagnosis.on_site import with_time_for_it
from service.diagnosis.triage import triage
from service.diagnosis.visit import plan_visit
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

REMEMBERED = 512
"""Complaints remembered: more than are under way in any shop at a time."""


@dataclass(frozen=True, slots=True)
class _Case:
    """A complaint by the rules of one edition. Two are the same if edition, machine and evidence are."""

    edition: str
    machine: str
    known: str
    urgency: tuple[str, ...]
    rules: Appliance | None = field(compare=False)
    evidence: Evidence = field(compare=False)
    shop: Shop = field(compare=False)


def belief_of(rulebook: Rulebook, ticket: TicketState) -> Belief | None:
    """The belief over the causes of *ticket* as it stands; None for a machine without rules."""
    return _believed(_case(rulebook, ticket))


def plan_of(rulebook: Rulebook, ticket: TicketState) -> VisitPlan | None:
    """The visit that *ticket* would get as it stands; None for a machine without rules."""
    plan = _planned(_case(rulebook, ticket))
    return plan and with_time_for_it(plan, rulebook.on_site, ticket.hazards)


def triage_of(rulebook: Rulebook, ticket: TicketState) -> Triage:
    """How pressing *ticket* is, and why."""
    return _triaged(_case(rulebook, ticket, tuple(ticket.urgency)))


def _case(rulebook: Rulebook, ticket: TicketState, urgency: tuple[str, ...] = ()) -> _Case:
    evidence, rules = evidence_of(ticket), rulebook.appliances.get(ticket.appliance)
    return _Case(rulebook.fingerprint, ticket.appliance, repr(evidence), urgency, rules, evidence, rulebook.shop)


@lru_cache(maxsize=REMEMBERED)
def _believed(case: _Case) -> Belief | None:
    return None if case.rules is None else believe(case.rules, case.evidence)


@lru_cache(maxsize=REMEMBERED)
def _planned(case: _Case) -> VisitPlan | None:
    return None if case.rules is None else plan_visit(case.rules, case.evidence, case.shop)


@lru_cache(maxsize=REMEMBERED)
def _triaged(case: _Case) -> Triage:
    return triage(case.rules, case.evidence, case.urgency)
