"""What each question and each owner check would save from one belief: both weighed together, in one pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.diagnosis.costs import Costs, safe
from service.diagnosis.held import Held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.table import Bools, Question
from service.diagnosis.worth import pair_value, value_of

LEAST_MIN = 1e-9
FOLLOWED = 3
"""How many of the best questions are weighed again for asking after a check that failed."""


@dataclass(frozen=True, slots=True, eq=False)
class Ticket:
    """
    All that one decision reckons with.

    shares: belief in the table's order; its sum is the chance of getting here. allowed: checks that nothing but the belief
    forbids. checks_left: how many more may be offered.
    """

    costs: Costs
    evidence: Evidence
    known: Held
    shares: Floats
    limits: Limits
    allowed: Bools
    checks_left: int

    def price(self, question: Question) -> float:
        """Minutes of patience the question costs now."""
        return question.price * self.costs.rates.text


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """
    Everything that could be done next, in minutes saved.

    gross, nets: by question, before and after its price and "don't know". tries: checks by what doing them next saves
    against going at once, best first. plan: cost of the best plan without asking. at_once: of going without any check.
    """

    questions: Sequence[Question]
    gross: Floats
    nets: Floats
    tries: tuple[tuple[str, float], ...]
    plan: float
    at_once: float

    @property
    def best(self) -> float:
        """The largest net value of a question; 0 if there is none."""
        return float(self.nets.max()) if len(self.nets) else 0.0


def weigh_all(ticket: Ticket, questions: Sequence[Question], with_checks: bool = True) -> Weighed:
    """The worth of each of *questions* and, unless left out, of each check that may be offered, from the ticket's belief."""
    table, shares = ticket.costs.table, ticket.shares
    usable = ticket.allowed & safe(table.unsafe, shares[None, :])[0]
    checks = np.flatnonzero(usable) if with_checks and ticket.checks_left > 0 else np.zeros(0, dtype=np.intp)
    asked = [q.rows for q in questions]
    rows = np.concatenate([shares[None, :], *(r * shares for r in asked), shares * (1 - table.settles[checks])])
    allowed = np.repeat(ticket.allowed[None, :], len(rows), axis=0)
    answers = len(rows) - len(checks)
    if questions:
        allowed[1:answers] &= ~np.concatenate([q.blocks for q in questions])
    allowed[answers + np.arange(len(checks)), checks] = False
    left = np.full(len(rows), ticket.checks_left)
    left[answers:] -= 1
    cost, at_once = ticket.costs.plan(rows, allowed, left)
    gross = value_of(cost[:answers], [len(r) for r in asked])
    told = np.array([1 - q.dont_know for q in questions])
    price = np.array([ticket.price(q) for q in questions]) * shares.sum()
    saved = at_once[0] - table.check_min[checks] * shares.sum() - cost[answers:]
    order = (-saved.round(9)).argsort(kind="stable").tolist()
    tries = tuple((table.checks[checks[k]], float(saved[k])) for k in order)
    return Weighed(questions, gross, gross * told - price, tries, float(cost[0]), float(at_once[0]))


def ask_before(ticket: Ticket, weighed: Weighed) -> bool:
    """Whether asking now beats trying the best check now and asking only if it fails."""
    check, saved = weighed.tries[0]
    place = ticket.costs.table.checks.index(check)
    allowed = ticket.allowed.copy()
    allowed[place] = False
    shares = ticket.shares * (1 - ticket.costs.table.settles[place])
    then = replace(ticket, shares=shares, allowed=allowed, checks_left=ticket.checks_left - 1)
    best = (-weighed.nets).argsort(kind="stable")[:FOLLOWED].tolist()
    later = weigh_all(then, [weighed.questions[k] for k in best], with_checks=False).best
    return weighed.plan - weighed.best < weighed.at_once - saved - max(0.0, later) - LEAST_MIN


def worth_of_pair(ticket: Ticket, first: Question, second: Question) -> tuple[float, float]:
    """Net and gross minutes saved by asking *first* and then, where it pays, *second*."""
    both = (first.blocks[:, None, :] | second.blocks[None, :, :]).reshape(-1, len(ticket.allowed))
    free = np.zeros((1, len(ticket.allowed)), dtype=bool)
    allowed = ticket.allowed & ~np.concatenate([free, first.blocks, both])
    left = np.full(len(allowed), ticket.checks_left)

    def plan(rows: Floats) -> Floats:
        return ticket.costs.plan(rows, allowed, left)[0]

    gross = pair_value(ticket.shares, first.rows, second.rows, plan, ticket.price(second))
    told = (1 - first.dont_know) * (1 - second.dont_know)
    return told * gross - ticket.price(first), gross
