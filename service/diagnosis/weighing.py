"""What each question and each owner check would save from one belief: both weighed together, in one pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.diagnosis.costs import Costs, Places, safe
from service.diagnosis.held import Held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.table import Bools, Question, Table
from service.diagnosis.worth import pair_value, value_of

LEAST_MIN = 1e-9
ASK_FIRST_SHARE = 0.05
"""Asking before a check must save at least this part of what the check saves: who can mend it at once is not questioned
for a minute's gain. Our own choice, no source."""
FOLLOWED = 3
"""How many of the best questions are weighed again for asking after a check that failed."""


@dataclass(frozen=True, slots=True, eq=False)
class Ticket:
    """
    All that one decision reckons with.

    belief: shares in the table's order. shares: those of the causes that costs reckon with; their sum is the chance of
    getting here. allowed: checks that nothing but the belief forbids. checks_left: how many more may be offered.
    """

    table: Table
    costs: Costs
    evidence: Evidence
    known: Held
    belief: Floats
    shares: Floats
    limits: Limits
    allowed: Bools
    checks_left: int

    def price(self, question: Question) -> float:
        """Minutes of patience the question costs now."""
        return question.price * self.costs.rates.text


@dataclass(frozen=True, slots=True)
class Tried:
    """A check with the minutes it saves against going at once: done next with the best plan after it, and done alone."""

    check: str
    saved: float
    alone: float


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """
    Everything that could be done next, in minutes saved.

    gross, nets: by question, before and after its price and "don't know". tries: checks, best to do next first. plan: cost of
    the best plan without asking. at_once: of going without any check.
    """

    questions: Sequence[Question]
    gross: Floats
    nets: Floats
    tries: tuple[Tried, ...]
    plan: float
    at_once: float

    @property
    def best(self) -> float:
        """The largest net value of a question; 0 if there is none."""
        return float(self.nets.max()) if len(self.nets) else 0.0


def weigh_all(ticket: Ticket, questions: Sequence[Question], with_checks: bool = True) -> Weighed:
    """The worth of each of *questions* and, unless left out, of each check that may be offered, from the ticket's belief."""
    costs, shares = ticket.costs, ticket.shares
    checks = _open_checks(ticket) if with_checks else np.zeros(0, dtype=np.intp)
    asked = [np.ones((1, len(ticket.belief))), *(q.rows for q in questions)]
    rows = np.concatenate([np.concatenate(asked)[:, costs.active], 1 - costs.settles[checks]]) * shares
    allowed = np.repeat(ticket.allowed[None, :], len(rows), axis=0)
    answers = len(rows) - len(checks)
    if questions:
        allowed[1:answers] &= ~np.concatenate([q.blocks for q in questions])
    allowed[answers + np.arange(len(checks)), checks] = False
    left = np.full(len(rows), ticket.checks_left)
    left[answers:] -= 1
    cost, at_once = costs.plan(rows, allowed, left)
    gross = value_of(cost[:answers], [len(q.answers) for q in questions])
    told = np.array([1 - q.dont_know for q in questions])
    price = np.array([ticket.price(q) for q in questions]) * shares.sum()
    without = at_once[0] - costs.check_min[checks] * shares.sum()
    saved, alone = without - cost[answers:], without - at_once[answers:]
    order = (-saved.round(9)).argsort(kind="stable").tolist()
    tries = tuple(Tried(ticket.table.checks[checks[k]], float(saved[k]), float(alone[k])) for k in order)
    return Weighed(questions, gross, gross * told - price, tries, float(cost[0]), float(at_once[0]))


def _open_checks(ticket: Ticket) -> Places:
    """The checks that may be offered now, safety by the whole belief."""
    if ticket.checks_left <= 0:
        return np.zeros(0, dtype=np.intp)
    return np.flatnonzero(ticket.allowed & safe(ticket.table.unsafe, ticket.belief[None, :])[0])


def ask_before(ticket: Ticket, weighed: Weighed) -> bool:
    """Whether asking now beats trying the best check now and asking only if it fails."""
    first = weighed.tries[0]
    by_asking, by_trying = weighed.plan - weighed.best, weighed.at_once - first.saved
    margin = ASK_FIRST_SHARE * first.saved
    if by_asking >= by_trying - margin:
        return False
    place = ticket.table.checks.index(first.check)
    allowed = ticket.allowed.copy()
    allowed[place] = False
    shares = ticket.shares * (1 - ticket.costs.settles[place])
    then = replace(ticket, shares=shares, allowed=allowed, checks_left=ticket.checks_left - 1)
    best = (-weighed.nets).argsort(kind="stable")[:FOLLOWED].tolist()
    later = weigh_all(then, [weighed.questions[k] for k in best], with_checks=False).best
    return by_asking < by_trying - max(0.0, later) - margin


def worth_of_pair(ticket: Ticket, first: Question, second: Question) -> tuple[float, float]:
    """Net and gross minutes saved by asking *first* and then, where it pays, *second*."""
    both = (first.blocks[:, None, :] | second.blocks[None, :, :]).reshape(-1, len(ticket.allowed))
    free = np.zeros((1, len(ticket.allowed)), dtype=bool)
    allowed = ticket.allowed & ~np.concatenate([free, first.blocks, both])
    left = np.full(len(allowed), ticket.checks_left)

    def plan(rows: Floats) -> Floats:
        return ticket.costs.plan(rows, allowed, left)[0]

    active = ticket.costs.active
    price = ticket.price(second)
    gross = pair_value(ticket.shares, first.rows[:, active], second.rows[:, active], plan, price)
    told = (1 - first.dont_know) * (1 - second.dont_know)
    return told * gross - ticket.price(first), gross
