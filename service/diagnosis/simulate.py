"""Invented customers with a true fault, and what asking one way or another costs them and the shop. Seeded by the caller."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from random import Random
from typing import TypeVar

from service.diagnosis.candidates import candidates
from service.diagnosis.learning import Outcome
from service.diagnosis.model import Ask, Evidence, Limits, NextStep, Stop, Try
from service.diagnosis.questions import next_step, ticket_of, told_bits
from service.diagnosis.table import Question, Table, compiled
from service.diagnosis.weighing import Ticket
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

Key = TypeVar("Key")
Policy = Callable[[Appliance, Evidence, Limits, Shop], NextStep]
"""What is done next on a ticket."""

DRAWS = 30
"""How often a customer's symptoms are drawn anew until there is one to complain of."""


@dataclass(frozen=True, slots=True)
class Customer:
    """
    One complaint with its truth: everything they would say if asked.

    cause: id of the fault. complains: the symptom the first text tells. symptoms, values: what they would answer. cannot:
    questions they cannot answer. helps: checks that would settle it for them.
    """

    cause: str
    complains: str
    symptoms: Mapping[str, bool]
    values: Mapping[str, str]
    cannot: frozenset[str]
    helps: frozenset[str]


@dataclass(frozen=True, slots=True)
class Run:
    """One complaint from first text to its end, in minutes for everybody. found: what it teaches."""

    minutes: float
    questions: int
    checks: int
    settled: bool
    second_trip: bool
    found: Outcome


def draw_customer(truth: Appliance, rng: Random) -> Customer:
    """A customer of a shop whose machines fail as *truth* says."""
    table = compiled(truth)
    cause = _one(dict(enumerate(table.prior.tolist())), rng)
    symptoms = _symptoms(table, cause, rng)
    told = {code: float(table.symptoms[code][cause]) for code, yes in symptoms.items() if yes}
    values = {
        code: _one({value: float(row[cause]) for value, row in rows.items()}, rng)
        for code, rows in table.values.items()
    }
    return Customer(
        cause=table.causes[cause],
        complains=_one(told, rng),
        symptoms=symptoms,
        values=values,
        cannot=frozenset(code for code, question in table.questions.items() if rng.random() < question.dont_know),
        helps=frozenset(check for k, check in enumerate(table.checks) if rng.random() < table.settles[k, cause]),
    )


def run(customer: Customer, appliance: Appliance, shop: Shop, policy: Policy) -> Run:
    """The complaint of *customer* under the rules *appliance* and *policy*; a visit at its end unless a check settles it."""
    evidence = Evidence(symptoms={customer.complains: True})
    limits = Limits(questions_max=shop.policies.questions_max, checks_max=shop.policies.checks_max)
    minutes = 0.0
    while not isinstance(step := policy(appliance, evidence, limits, shop), Stop):
        if isinstance(step, Ask):
            minutes += step.price
            limits = replace(limits, asked=limits.asked | {step.code}, questions_used=limits.questions_used + 1)
            evidence = answered(evidence, step, customer)
        else:
            table = compiled(appliance)
            minutes += float(table.check_min[table.checks.index(step.check)])
            limits = replace(limits, checks_used=limits.checks_used + 1)
            evidence = replace(evidence, checks={**evidence.checks, step.check: "not_fixed"})
            if step.check in customer.helps:
                return _ended(customer, evidence, limits, minutes, settled=True)
    spent, trip = ticket_of(appliance, evidence, limits, shop).costs.visit_of(customer.cause)
    return _ended(customer, evidence, limits, minutes + spent, trip=trip)


def answered(evidence: Evidence, step: Ask, customer: Customer) -> Evidence:
    """*evidence* with what the customer says to the question; unchanged if they cannot tell."""
    if step.code in customer.cannot:
        return evidence
    if step.kind == "symptom":
        return replace(evidence, symptoms={**evidence.symptoms, step.code: customer.symptoms[step.code]})
    return replace(evidence, observations={**evidence.observations, step.code: customer.values[step.code]})


def by_value(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> NextStep:
    """As the line does it."""
    return next_step(appliance, evidence, limits, shop)


def in_file_order(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> NextStep:
    """A fixed list: every question that fits, as the file has them, up to the cap; then the same checks."""
    return _listed(appliance, evidence, limits, shop, lambda _ticket, _fitting: 0)


def by_entropy(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> NextStep:
    """The question that tells most of the cause, whatever it changes, up to the cap; then the same checks."""
    return _listed(appliance, evidence, limits, shop, lambda ticket, asked: int(told_bits(ticket, asked).argmax()))


POLICIES: Mapping[str, Policy] = {"by value": by_value, "in file order": in_file_order, "by entropy": by_entropy}


def _listed(
    appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop, which: Callable[[Ticket, list[Question]], int]
) -> NextStep:
    if limits.questions_used < limits.questions_max and limits.checks_used == 0:
        ticket = ticket_of(appliance, evidence, limits, shop)
        fitting = candidates(ticket.table, evidence, ticket.known, ticket.belief)
        asked = [q for q in fitting if q.kind == "observation" and q.code not in limits.asked]
        if asked:
            best = asked[which(ticket, asked)]
            return Ask(best.kind, best.code, best.answers, price=ticket.price(best))
    step = next_step(appliance, evidence, replace(limits, questions_max=0), shop)
    return step if isinstance(step, Try) else Stop("cap")


def _ended(
    customer: Customer, evidence: Evidence, limits: Limits, minutes: float, settled: bool = False, trip: bool = False
) -> Run:
    """The run, with what it teaches: the true cause, and only what was said when asked."""
    asked = {code: yes for code, yes in evidence.symptoms.items() if code != customer.complains}
    found = Outcome({customer.cause: 1.0}, asked, dict(evidence.observations))
    return Run(minutes, limits.questions_used, limits.checks_used, settled, trip, found)


def _symptoms(table: Table, cause: int, rng: Random) -> dict[str, bool]:
    """Symptoms of the cause as drawn; if nothing shows in many draws, the one it shows most often."""
    chances = {code: float(row[cause]) for code, row in table.symptoms.items() if code != "vague"}
    for _ in range(DRAWS):
        drawn = {code: rng.random() < chance for code, chance in chances.items()}
        if any(drawn.values()):
            return drawn
    return {code: code == max(chances, key=lambda one: chances[one]) for code in chances}


def _one(chances: Mapping[Key, float], rng: Random) -> Key:
    return rng.choices(list(chances), weights=list(chances.values()))[0]


def runs(customers: Iterable[Customer], appliance: Appliance, shop: Shop, policy: Policy) -> list[Run]:
    """The runs of all *customers*, in their order."""
    return [run(customer, appliance, shop, policy) for customer in customers]
