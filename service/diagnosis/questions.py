"""The next step of a ticket: ask, try an owner check, or stop; by what changes the plan, against the price of a text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from service.diagnosis.belief import weigh_once
from service.diagnosis.candidates import candidates
from service.diagnosis.checks import chance_to_settle, may_offer, stop_use
from service.diagnosis.costs import Costs
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Ask, Evidence, Limits, NextStep, Stop, Try
from service.diagnosis.table import Question, compiled
from service.diagnosis.tariff import tariff
from service.diagnosis.weighing import (
    LEAST_MIN,
    Ticket,
    Weighed,
    ask_before,
    best_first,
    best_pair,
    open_checks,
    weigh_all,
)
from service.diagnosis.worth import gains_bits
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

SHOWN = 6
PAIRED = 4
"""How many questions are paired for the look ahead: those that tell most."""
MORE_FROM = 0.02
"""Who asks for one more thing to try is offered it from this chance to settle the complaint. Our own choice, no source."""


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
    ticket = ticket_of(appliance, evidence, limits, shop)
    room = limits.questions_max - limits.questions_used
    everything = candidates(ticket.table, evidence, ticket.known, ticket.belief)
    withheld = limits.asked | limits.declined
    free = [q for q in everything if q.code not in withheld]
    if room > 0 and free and free[0].kind == "one_of":
        return _ask(ticket, free[0], weigh_all(ticket, free[:1], with_checks=False).gross[0], ())
    if not limits.questions_used:
        others = [q for q in free if q.kind != "symptom"]  # "is this also so" comes first only where nothing else pays
        free = others if weigh_all(ticket, others).best > LEAST_MIN else free
    weighed = weigh_all(ticket, free)
    considered = _considered(weighed)
    pays = room > 0 and weighed.best > LEAST_MIN
    tries = weighed.tries
    if tries and tries[0].saved > LEAST_MIN and not (pays and ask_before(ticket, weighed)):
        check = tries[0].check
        chance = chance_to_settle(ticket.table, ticket.belief, check)
        return Try(check, chance, appliance.checks[check].minutes, considered)
    if pays:
        best = _most_worth(ticket, weighed)
        return _ask(ticket, free[best], weighed.gross[best], considered)
    if room > 1 and len(free) > 1 and (pair := _pair(ticket, free)) is not None:
        return _ask(ticket, *pair, considered)
    return Stop(_why(ticket, everything, weighed), considered)


def one_more(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> Try | None:
    """
    The owner check for somebody who asks for one more: the likeliest for its minutes; None if none has a fair chance.

    Their time is their own, so neither its worth nor the shop's count of checks holds it back; safety does.
    """
    if evidence.hazards or not limits.checks_max:
        return None
    ticket = ticket_of(appliance, evidence, replace(limits, checks_used=0), shop)
    fair = {
        place: chance
        for place in open_checks(ticket)
        if (chance := float(ticket.belief @ ticket.table.settles[place])) >= MORE_FROM
    }
    best = max(fair, key=lambda place: fair[place] / ticket.table.check_min[place], default=None)
    if best is None:
        return None
    check = ticket.table.checks[best]
    return Try(check, fair[best], appliance.checks[check].minutes)


def ticket_of(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> Ticket:
    """All that a decision on this ticket reckons with."""
    table = compiled(appliance)
    _, known, belief = weigh_once(table, evidence)
    allowed = may_offer(table, evidence, known, limits, shop)
    costs = Costs(table, tariff(appliance, shop, limits.questions_used), belief, known.present, allowed)
    left = limits.checks_max - limits.checks_used if limits.checks_allowed else 0
    return Ticket(table, costs, evidence, known, belief, costs.shares, limits, allowed, left)


def told_bits(ticket: Ticket, questions: Sequence[Question]) -> Floats:
    """How many bits each of *questions* tells of the cause."""
    table, counts = ticket.table, [len(q.answers) for q in questions]
    answers = np.array(table.asking.answers_of(questions), dtype=np.intp)
    rows, bits = table.outcomes.take(answers, axis=0), table.outcome_bits.take(answers, axis=0)
    return gains_bits(ticket.belief, rows, bits, counts)


def _most_worth(ticket: Ticket, weighed: Weighed) -> int:
    """The question with the largest net value; the one that tells most breaks a tie, then the order of the file."""
    tied = [place for place, net in enumerate(weighed.nets) if net >= weighed.best - 1e-6]
    if len(tied) == 1:
        return tied[0]
    return tied[int(told_bits(ticket, [weighed.questions[k] for k in tied]).round(9).argmax())]


def _pair(ticket: Ticket, questions: Sequence[Question]) -> tuple[Question, float] | None:
    """The first of the best two questions that pay together although neither pays alone; None if no two do."""
    order = (-told_bits(ticket, questions).round(9)).argsort(kind="stable").tolist()
    found = best_pair(ticket, [questions[k] for k in order[:PAIRED]])
    return None if found is None else (found[0], found[2])


def _ask(ticket: Ticket, question: Question, value: float, considered: tuple[tuple[str, float], ...]) -> Ask:
    options = question.answers if question.kind != "symptom" else ()
    return Ask(question.kind, question.code, options, value, ticket.price(question), considered)


def _considered(weighed: Weighed) -> tuple[tuple[str, float], ...]:
    """The questions (net minutes saved) and checks (minutes saved by each alone) weighed, best first."""
    codes = [q.code for q in weighed.questions] + [one.check for one in weighed.tries]
    worth = [*weighed.nets, *(one.alone for one in weighed.tries)]
    return tuple([(codes[k], worth[k]) for k in best_first(worth)[:SHOWN]])


def _why(ticket: Ticket, everything: Sequence[Question], weighed: Weighed) -> str:
    if stop_use(ticket.table.appliance, ticket.evidence, ticket.known) is not None:
        return "stop_use"
    if weighed.best > LEAST_MIN:
        return "cap"
    codes = {q.code for q in weighed.questions}
    withheld = [q for q in everything if q.code not in codes]
    if withheld and weigh_all(ticket, withheld, with_checks=False).best > LEAST_MIN:
        return "declined"
    return "no_value" if max(weighed.gross, default=0.0) > LEAST_MIN else "same_plan"
