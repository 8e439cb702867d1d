"""What each question and each owner check would save from one belief: both weighed together, in one pass."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import accumulate, chain, combinations
from typing import NamedTuple

import numpy as np

from service.diagnosis.costs import Costs
from service.diagnosis.grades import UNSAFE_FROM
from service.diagnosis.held import Held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.prefixes import Places
from service.diagnosis.table import Bools, Question, Table, barring
from service.diagnosis.worth import value_of, value_together

LEAST_MIN = 1e-9
ASK_FIRST_SHARE = 0.05
"""Asking before a check must save at least this part of what the check saves: who can mend it at once is not questioned
for a minute's gain. Our own choice, no source."""
FOLLOWED = 3
"""How many of the best questions are weighed again for asking after a check that failed."""


class Ticket(NamedTuple):
    """
    All that one decision reckons with.

    belief: shares in the table's order. shares: those of the causes that costs reckon with, which sum to 1 as well.
    allowed: checks that nothing but the belief forbids. checks_left: how many more may be offered.
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


class Weighed(NamedTuple):
    """
    Everything that could be done next, in minutes saved.

    gross, nets: by question, before and after its price and "don't know". best: the largest net value, 0 without questions.
    tries: checks, best to do next first. plan: cost of the best plan without asking. at_once: of going without any check.
    rows: the belief now, after each answer and after each check that failed, times the chance of it. ends: where in them the
    answers of each question begin and, last, where all end.
    """

    questions: Sequence[Question]
    gross: Sequence[float]
    nets: Sequence[float]
    best: float
    tries: tuple[Tried, ...]
    plan: float
    at_once: float
    rows: Floats
    ends: Sequence[int]


def weigh_all(ticket: Ticket, questions: Sequence[Question], with_checks: bool = True) -> Weighed:
    """The worth of each of *questions* and, unless left out, of each check that may be offered, from the ticket's belief."""
    costs, shares = ticket.costs, ticket.shares
    checks = open_checks(ticket) if with_checks else ()
    outcomes, bars = _outcomes(ticket.table, questions, checks)
    rows = outcomes.take(costs.active, axis=1) * shares
    counts = [len(q.answers) for q in questions]
    ends = list(accumulate(counts, initial=1))
    failed = ends[-1]
    cost, at_once = costs.plan(rows, bars, ticket.checks_left, failed)
    gross, now = value_of(cost[:failed], counts), float(at_once[0])
    nets = _nets(ticket, questions, gross)
    tries = _tried(ticket.table, checks, now, cost[failed:], at_once[failed:])
    return Weighed(questions, gross, nets, max(nets, default=0.0), tries, float(cost[0]), now, rows, ends)


def _nets(ticket: Ticket, questions: Sequence[Question], gross: Sequence[float], here: float = 1.0) -> list[float]:
    """What *questions* are worth after "don't know" and their price. here: the chance of getting to ask."""
    text = ticket.costs.rates.text * here
    return [worth * (1 - q.dont_know) - q.price * text for q, worth in zip(questions, gross, strict=True)]


def _outcomes(table: Table, questions: Sequence[Question], checks: Sequence[int]) -> tuple[Floats, Floats]:
    """
    What may happen next: nothing, each answer to each of *questions*, each of *checks* failing.

    Likelihoods by causes, and what each bars, by checks and none.
    """
    failing = [table.failing + check for check in checks]
    places = np.array([0, *table.asking.answers_of(questions), *failing], dtype=np.intp)
    rows, bars = table.outcomes.take(places, axis=0), table.bars.take(places, axis=0)
    if questions and questions[0].place < 0:  # groups to tell apart come first
        own = [q for q in questions if q.place < 0]
        rows = np.concatenate([rows[:1], *(q.rows for q in own), rows[1:]])
        bars = np.concatenate([bars[:1], *(barring(q.blocks) for q in own), bars[1:]])
    return rows, bars


def open_checks(ticket: Ticket) -> Sequence[int]:
    """The checks that may be offered now, safety by the whole belief."""
    if ticket.checks_left <= 0:
        return ()
    unsafe = ticket.table.unsafe.dot(ticket.belief >= UNSAFE_FROM)
    offered: list[int] = (ticket.allowed & ~unsafe).nonzero()[0].tolist()
    return offered


def _tried(table: Table, checks: Sequence[int], now: float, cost: Floats, at_once: Floats) -> tuple[Tried, ...]:
    """What each of *checks* saves, best first. now: cost of going at once. cost, at_once: after each check failed."""
    without = [now - table.check_min[check] for check in checks]
    saved = [here - after for here, after in zip(without, cost.tolist(), strict=True)]
    alone = [here - after for here, after in zip(without, at_once.tolist(), strict=True)]
    return tuple([Tried(table.checks[checks[k]], saved[k], alone[k]) for k in best_first(saved)])


def best_first(minutes: Sequence[float]) -> list[int]:
    """The places of the *minutes* saved, most first; what is the same to a billionth of a minute stays in its order."""
    ranks = [-round(one * 1e9) for one in minutes]
    return sorted(range(len(ranks)), key=ranks.__getitem__)


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
    best = sorted(range(len(weighed.nets)), key=weighed.nets.__getitem__, reverse=True)[:FOLLOWED]
    later = _best_for_visit(ticket, weighed, best, ticket.table.places[first.check])
    return by_asking < by_trying - max(0.0, later) - margin


def _best_for_visit(ticket: Ticket, weighed: Weighed, questions: Sequence[int], failed: int) -> float:
    """The largest net value of *questions* once the check *failed*, with no check left: only the visit can change."""
    fails = ticket.table.outcomes[ticket.table.failing + failed].take(ticket.costs.active)
    answers = [range(weighed.ends[k], weighed.ends[k + 1]) for k in questions]
    rows = weighed.rows.take([0, *chain.from_iterable(answers)], axis=0) * fails
    gross = value_of(ticket.costs.visit(rows), [len(one) for one in answers])
    return max(_nets(ticket, [weighed.questions[k] for k in questions], gross, float(rows[0].sum())))


@lru_cache(maxsize=256)
def _every_two(counts: tuple[int, ...]) -> tuple[Places, Places]:
    """Every answer with every answer of a later question, as places among all of them; *counts*: how many each question has."""
    question = np.repeat(np.arange(len(counts)), counts)
    first, second = (question[:, None] < question).nonzero()
    return first, second


def best_pair(ticket: Ticket, questions: Sequence[Question]) -> tuple[Question, float, float] | None:
    """
    The question to ask first of the two that save most together, with net and gross minutes; None if no two pay.

    All answers to all of *questions*, and to every two of them, are planned for in one pass.
    """
    counts = [len(q.answers) for q in questions]
    outcomes, bars = _outcomes(ticket.table, questions, ())
    rows, answers = outcomes.take(ticket.costs.active, axis=1), 1 + sum(counts)
    first, second = _every_two(tuple(counts))
    rows = np.concatenate([rows, rows.take(first + 1, axis=0) * rows.take(second + 1, axis=0)]) * ticket.shares
    bars = np.concatenate([bars, np.minimum(bars.take(first + 1, axis=0), bars.take(second + 1, axis=0))])
    cost = ticket.costs.plan(rows, bars, ticket.checks_left)[0]
    joint = np.zeros((answers - 1, answers - 1))
    joint[first, second] = joint[second, first] = cost[answers:]
    prices = [ticket.price(q) for q in questions]
    later = rows[1:answers].dot(np.ones((rows.shape[1], 1))) * prices
    gross = value_together(float(cost[0]), cost[1:answers], joint, later, counts).tolist()
    best: tuple[Question, float, float] | None = None
    for pair in combinations(range(len(questions)), 2):
        for one, other in (pair, pair[::-1]):
            told = (1 - questions[one].dont_know) * (1 - questions[other].dont_know)
            net = told * gross[one][other] - prices[one]
            if net > LEAST_MIN and (best is None or net > best[1] + LEAST_MIN):
                best = (questions[one], net, gross[one][other])
    return best
