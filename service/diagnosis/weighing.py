"""What each question and each owner check would save from one belief: both weighed together, in one pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import NamedTuple

import numpy as np

from service.diagnosis.costs import Costs, Places, safe
from service.diagnosis.held import Held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.table import Bools, Question, Table
from service.diagnosis.worth import value_of, value_together

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


class Tried(NamedTuple):
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
    asked, blocks = _answers(ticket, questions)
    answers = 1 + len(asked)
    rows = np.empty((answers + len(checks), len(shares)))
    rows[0] = shares
    np.multiply(asked, shares, out=rows[1:answers])
    np.multiply(1 - costs.settles[checks], shares, out=rows[answers:])
    allowed = np.empty((len(rows), len(ticket.allowed)), dtype=bool)
    allowed[:] = ticket.allowed
    allowed[1:answers] &= ~blocks
    allowed[np.arange(answers, len(rows)), checks] = False
    if len(resets := ticket.table.resets) > 1:
        allowed[answers + np.flatnonzero(np.isin(checks, resets))[:, None], resets] = False
    left = np.full(len(rows), ticket.checks_left)
    left[answers:] -= 1
    cost, at_once = costs.plan(rows, allowed, left)
    counts, told, price = _figures(ticket.table, questions)
    gross = value_of(cost[:answers], counts)
    here = float(shares.sum())
    price = price * (costs.rates.text * here)
    without = at_once[0] - costs.check_min[checks] * here
    saved, alone = without - cost[answers:], without - at_once[answers:]
    order = (-saved.round(9)).argsort(kind="stable")
    ranked = zip(checks[order].tolist(), saved[order].tolist(), alone[order].tolist(), strict=True)
    tries = tuple([Tried(ticket.table.checks[check], *both) for check, *both in ranked])
    return Weighed(questions, gross, gross * told - price, tries, float(cost[0]), float(at_once[0]))


def _answers(ticket: Ticket, questions: Sequence[Question]) -> tuple[Floats, Bools]:
    """All answers to *questions*: likelihoods by the causes reckoned with, and the checks each forbids."""
    table, active = ticket.table, ticket.costs.active
    places = [q.place for q in questions]
    if -1 not in places:
        answers = _stacked(table, places)
        return table.answer_rows[answers[:, None], active], table.answer_blocks.take(answers, axis=0)
    rows = np.concatenate([q.rows for q in questions])
    return rows.take(active, axis=1), np.concatenate([q.blocks for q in questions])


def _stacked(table: Table, places: Sequence[int]) -> Places:
    """Where the answers of the questions at *places* stand in the table's stacks, one after the other."""
    counts, starts = table.asking.counts.take(places), table.asking.starts.take(places)
    ends = counts.cumsum()
    return np.asarray((starts - ends + counts).repeat(counts) + np.arange(ends[-1] if len(ends) else 0))


def _figures(table: Table, questions: Sequence[Question]) -> tuple[Places, Floats, Floats]:
    """By question: how many answers, chance of one, price in texts."""
    places = [q.place for q in questions]
    if -1 not in places:
        asking = table.asking
        return asking.counts.take(places), asking.told.take(places), asking.price.take(places)
    counts = np.array([len(q.answers) for q in questions], dtype=np.intp)
    return counts, np.array([1 - q.dont_know for q in questions]), np.array([q.price for q in questions])


def _open_checks(ticket: Ticket) -> Places:
    """The checks that may be offered now, safety by the whole belief."""
    if ticket.checks_left <= 0:
        return np.zeros(0, dtype=np.intp)
    return np.flatnonzero(ticket.allowed & safe(ticket.table.unsafe, ticket.belief[None, :])[0])


def ask_before(ticket: Ticket, weighed: Weighed) -> bool:
    """
    Whether asking now beats trying the best check now and asking only if it fails.

    What is asked after a failed check is weighed for the visit alone.
    """
    first = weighed.tries[0]
    by_asking, by_trying = weighed.plan - weighed.best, weighed.at_once - first.saved
    margin = ASK_FIRST_SHARE * first.saved
    if by_asking >= by_trying - margin:
        return False
    shares = ticket.shares * (1 - ticket.costs.settles[ticket.table.places[first.check]])
    best = (-weighed.nets).argsort(kind="stable")[:FOLLOWED].tolist()
    later = _best_for_visit(ticket, [weighed.questions[k] for k in best], shares)
    return by_asking < by_trying - max(0.0, later) - margin


def _best_for_visit(ticket: Ticket, questions: Sequence[Question], shares: Floats) -> float:
    """The largest net value of *questions* from *shares* when no check is left and only the visit can change."""
    rows = np.concatenate([np.ones((1, len(shares))), _answers(ticket, questions)[0]]) * shares
    gross: list[float] = value_of(ticket.costs.visit(rows), [len(q.answers) for q in questions]).tolist()
    here = float(shares.sum())
    return max(one * (1 - q.dont_know) - ticket.price(q) * here for one, q in zip(gross, questions, strict=True))


def best_pair(ticket: Ticket, questions: Sequence[Question]) -> tuple[Question, float, float] | None:
    """
    The question to ask first of the two that save most together, with net and gross minutes; None if no two pay.

    All answers to all of *questions*, and to every two of them, are planned for in one pass.
    """
    count, active = len(questions), ticket.costs.active
    pairs = list(combinations(range(count), 2))
    single = [q.rows[:, active] for q in questions]
    both = [(single[i][:, None, :] * single[j][None, :, :]).reshape(-1, len(active)) for i, j in pairs]
    blocked = [q.blocks for q in questions]
    blocked += [(blocked[i][:, None, :] | blocked[j][None, :, :]).reshape(-1, len(ticket.allowed)) for i, j in pairs]
    rows = np.concatenate([np.ones((1, len(active))), *single, *both]) * ticket.shares
    allowed = ticket.allowed & ~np.concatenate([np.zeros((1, len(ticket.allowed)), dtype=bool), *blocked])
    cost = ticket.costs.plan(rows, allowed, np.full(len(rows), ticket.checks_left))[0]
    chance = rows.sum(axis=1)
    ends = np.cumsum([1, *(len(r) for r in single), *(len(r) for r in both)]).tolist()
    parts = [slice(start, end) for start, end in pairwise(ends)]
    best: tuple[Question, float, float] | None = None
    for place, (i, j) in enumerate(pairs):
        together = cost[parts[count + place]].reshape(len(single[i]), len(single[j]))
        for first, second, joint in ((i, j, together), (j, i, together.T)):
            asked, then = questions[first], questions[second]
            alone, here = cost[parts[first]], ticket.price(then) * chance[parts[first]]
            gross = value_together(float(cost[0]), alone, joint, here)
            net = (1 - asked.dont_know) * (1 - then.dont_know) * gross - ticket.price(asked)
            if net > LEAST_MIN and (best is None or net > best[1] + LEAST_MIN):
                best = (asked, net, gross)
    return best
