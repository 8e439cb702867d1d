"""The next step of a ticket: ask, try an owner check, or stop; by what changes the plan, against the price of a text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np

from service.diagnosis.belief import weigh
from service.diagnosis.checks import chance_to_settle, may_offer, stop_use, worth_of_checks
from service.diagnosis.costs import plan_min, visit_min
from service.diagnosis.held import Held, held
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Ask, Evidence, Limits, NextStep, Stop, Try
from service.diagnosis.table import Bools, Question, Table, compiled
from service.diagnosis.tariff import Tariff, tariff
from service.diagnosis.worth import expected_gain_bits, pair_value, values
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

SHOWN = 6
PAIRED = 5
"""How many questions are paired for the look ahead: those that tell most."""
LEAST_MIN = 1e-9
POSSIBLE = 0.02
"""A symptom is only asked after if a cause with at least this share lists it. Our own choice."""


@dataclass(frozen=True, slots=True, eq=False)
class _Ticket:
    """All that one decision reckons with."""

    table: Table
    evidence: Evidence
    known: Held
    shares: Floats
    limits: Limits
    rates: Tariff
    allowed: Bools

    @property
    def checks_left(self) -> int:
        return self.limits.checks_max - self.limits.checks_used if self.limits.checks_allowed else 0


def next_step(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> NextStep:
    """
    What to do next on this ticket.

    A group of symptoms nobody told apart is told apart first. Then the question with the most value net of its price and
    of "don't know", unless trying an owner check first comes out cheaper. ``Stop.why``: ``danger``; ``stop_use``;
    ``declined`` (a question would pay, but was declined or has no answer); ``cap`` (would pay, but enough were asked);
    ``same_plan`` (no answer changes the plan); ``no_value`` (none is worth its price, nor any two together).
    """
    if evidence.hazards:
        return Stop("danger")
    ticket = _ticket(compiled(appliance), evidence, limits, shop)
    room = limits.questions_max - limits.questions_used
    open_questions = list(candidates(ticket.table, evidence, ticket.known, ticket.shares))
    free = [q for q in open_questions if q.code not in limits.asked and q.code not in limits.declined]
    group = next((q for q in free if q.kind == "one_of"), None)
    if group is not None and room > 0:
        return _ask(ticket, group, values(ticket.shares, [group.rows], _planner(ticket, [group]))[1][0], ())
    nets, gross = _nets(ticket, ticket.shares, free)
    tries = worth_of_checks(ticket.table, ticket.shares, ticket.allowed, ticket.checks_left, ticket.rates)
    considered = _considered(free, nets, tries)
    best = _best(ticket, free, nets) if room > 0 else None
    if tries and tries[0][1] > LEAST_MIN and not (best is not None and _ask_before(ticket, tries[0], free, nets[best])):
        check = tries[0][0]
        minutes = appliance.checks[check].minutes
        return Try(check, chance_to_settle(ticket.table, ticket.shares, check), minutes, considered)
    if best is not None:
        return _ask(ticket, free[best], float(gross[best]), considered)
    if room > 1 and (pair := _pair(ticket, free)) is not None:
        return _ask(ticket, *pair, considered)
    return Stop(_why(ticket, open_questions, nets, gross), considered)


def candidates(table: Table, evidence: Evidence, known: Held, shares: Floats) -> Iterable[Question]:
    """Questions whose answer is not known and that make sense with what was said; asked and declined ones are among them."""
    present = {code for code, yes in evidence.symptoms.items() if yes} | {c for group in known.groups for c in group}
    yield from (_apart(table, group) for group in known.groups if len(group) > 1)
    likely = [c for c, share in zip(table.causes, shares.tolist(), strict=True) if share >= POSSIBLE]
    causes = table.appliance.causes
    listed = {code for cause in likely if cause in causes for code in causes[cause].evidence}
    for question in table.questions.values():
        if question.kind == "observation":
            observation = table.appliance.observations[question.code]
            told = question.code in known.values or not present.isdisjoint(observation.unless)
            if not told and (not observation.when or not present.isdisjoint(observation.when)):
                yield question
        elif question.code in listed and question.code not in evidence.symptoms and question.code not in present:
            yield question


def _ticket(table: Table, evidence: Evidence, limits: Limits, shop: Shop) -> _Ticket:
    known = held(table, evidence)
    rates = tariff(table.appliance, shop, limits.questions_used)
    allowed = may_offer(table, evidence, known, limits, shop)
    return _Ticket(table, evidence, known, weigh(table.prior, known.rows), limits, rates, allowed)


def _apart(table: Table, group: tuple[str, ...]) -> Question:
    """The question which of *group* it is: each symptom's part of the whole, cause by cause."""
    each = np.array([table.symptoms[code] for code in group])
    blocks = np.zeros((len(group), len(table.checks)), dtype=bool)
    return Question("one_of", "|".join(group), group, each / each.sum(axis=0), blocks, 1.0, 0.1)


def _planner(ticket: _Ticket, questions: Sequence[Question]) -> _Planner:
    blocks = np.concatenate([np.zeros((1, len(ticket.table.checks)), dtype=bool), *(q.blocks for q in questions)])
    return _Planner(ticket, ticket.allowed & ~blocks)


@dataclass(frozen=True, slots=True, eq=False)
class _Planner:
    ticket: _Ticket
    allowed: Bools

    def __call__(self, rows: Floats) -> Floats:
        return plan_min(self.ticket.table, rows, self.allowed, self.ticket.checks_left, self.ticket.rates)


def _nets(ticket: _Ticket, shares: Floats, questions: Sequence[Question]) -> tuple[Floats, Floats]:
    """Each question's value less "don't know" and price, and its value before both."""
    if not questions:
        return np.zeros(0), np.zeros(0)
    _, gross = values(shares, [q.rows for q in questions], _planner(ticket, questions))
    told = np.array([1 - q.dont_know for q in questions])
    price = np.array([q.price for q in questions]) * ticket.rates.text * shares.sum()
    return gross * told - price, gross


def _best(ticket: _Ticket, questions: Sequence[Question], nets: Floats) -> int | None:
    """The question with the largest net value above 0; what tells more breaks a tie."""
    if not len(nets) or nets.max() <= LEAST_MIN:
        return None
    tied = np.flatnonzero(nets >= nets.max() - 1e-6).tolist()
    if len(tied) == 1:
        return int(tied[0])
    return int(
        max(tied, key=lambda place: (round(expected_gain_bits(ticket.shares, questions[place].rows), 9), -place))
    )


def _ask_before(ticket: _Ticket, first: tuple[str, float], questions: Sequence[Question], net: float) -> bool:
    """Whether asking now beats trying the check now and asking only if it fails."""
    table, (check, saved) = ticket.table, first
    place = table.checks.index(check)
    left = ticket.shares * (1 - table.settles[place])
    allowed = ticket.allowed.copy()
    allowed[place] = False
    rest = _Ticket(table, ticket.evidence, ticket.known, left, ticket.limits, ticket.rates, allowed)
    later, _ = _nets(rest, left, questions)
    here = ticket.shares[None, :]
    by_asking = plan_min(table, here, ticket.allowed[None, :], ticket.checks_left, ticket.rates)[0] - net
    by_trying = visit_min(table, here, ticket.rates)[0] - saved - max(0.0, float(later.max(initial=0.0)))
    return bool(by_asking < by_trying - LEAST_MIN)


def _pair(ticket: _Ticket, questions: Sequence[Question]) -> tuple[Question, float] | None:
    """The first of the best two questions that pay together although neither pays alone; None if no two do."""
    asked = [q for q in questions if q.kind != "one_of"]
    asked.sort(key=lambda q: -round(expected_gain_bits(ticket.shares, q.rows), 9))
    best: tuple[float, Question, float] | None = None
    for first, second in permutations(asked[:PAIRED], 2):
        told = (1 - first.dont_know) * (1 - second.dont_know)
        blocks = (first.blocks[:, None, :] | second.blocks[None, :, :]).reshape(-1, len(ticket.table.checks))
        free = np.zeros((1, len(ticket.table.checks)), dtype=bool)
        plan = _Planner(ticket, ticket.allowed & ~np.concatenate([free, first.blocks, blocks]))
        value = pair_value(ticket.shares, first.rows, second.rows, plan, second.price * ticket.rates.text)
        net = told * value - first.price * ticket.rates.text
        if net > LEAST_MIN and (best is None or net > best[0] + LEAST_MIN):
            best = (net, first, value)
    return None if best is None else best[1:]


def _ask(ticket: _Ticket, question: Question, value: float, considered: tuple[tuple[str, float], ...]) -> Ask:
    options = question.answers if question.kind != "symptom" else ()
    return Ask(question.kind, question.code, options, float(value), question.price * ticket.rates.text, considered)


def _considered(
    questions: Sequence[Question], nets: Floats, tries: Sequence[tuple[str, float]]
) -> tuple[tuple[str, float], ...]:
    """The questions (net minutes saved) and checks (minutes saved) weighed, best first."""
    weighed = [*((q.code, float(net)) for q, net in zip(questions, nets, strict=True)), *tries]
    weighed.sort(key=lambda one: -round(one[1], 9))
    return tuple(weighed[:SHOWN])


def _why(ticket: _Ticket, questions: Sequence[Question], nets: Floats, gross: Floats) -> str:
    if stop_use(ticket.table.appliance, ticket.evidence, ticket.known) is not None:
        return "stop_use"
    if len(nets) and nets.max() > LEAST_MIN:
        return "cap"
    withheld = [q for q in questions if q.code in ticket.limits.asked or q.code in ticket.limits.declined]
    refused, _ = _nets(ticket, ticket.shares, withheld)
    if len(refused) and refused.max() > LEAST_MIN:
        return "declined"
    return "no_value" if len(gross) and gross.max() > LEAST_MIN else "same_plan"
