"""
Which questions are ever asked and which owner checks ever offered: tickets taken to their end along every likely answer.

From each symptom, and from what each cause shows, the line's own next steps are followed. What is never met that way is
never worth it under these rules and this shop's limits.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import count

from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Ask, Evidence, Limits, Stop, Try
from service.diagnosis.questions import next_step
from service.diagnosis.table import Table, compiled
from service.rulebook.folder import ApplianceFolder
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop
from service.workshop.cover.finding import Finding, Findings

STEPS_FROM_A_SYMPTOM = 60
"""Next steps reckoned from one symptom, the likeliest tickets first."""
SHOWN_FROM = 0.4
"""What a cause shows at least this often is said with it in the first text of a ticket that is meant for it."""


@dataclass(slots=True)
class Met:
    """Codes of questions that were asked and checks that were offered, and how many next steps were reckoned."""

    asked: set[str] = field(default_factory=set)
    offered: set[str] = field(default_factory=set)
    steps: int = 0


def in_vain(folder: ApplianceFolder, appliance: Appliance, shop: Shop) -> Findings:
    """Observations for customers that are never asked, and owner checks that are never offered."""
    met = walked(appliance, shop)
    if page := folder.observations:
        for place, item in enumerate(page.model.observations):
            if item.who == "customer" and item.id not in met.asked and not _must_be_told(appliance, item.id):
                found = f"{item.id} is never worth asking: no answer changes what is done next by enough."
                remedy = (
                    'Grade it for the causes it tells apart, lower its price, write "who: technician", or delete it.'
                )
                yield Finding("unasked", page.problem(("observations", place), found, remedy=remedy, blocks=False))
    if checks := folder.checks:
        off = {code for code, own in shop.checks.get(appliance.code, {}).items() if not own.offered}
        for place, check in enumerate(checks.model.checks):
            if check.id not in met.offered | off:
                found = f"{check.id} is never offered: it is not worth its minutes, or something always forbids it."
                remedy = "Look at settles, minutes, effort, when, unsafe_for and never_if; or delete it."
                yield Finding("unreached", checks.problem(("checks", place), found, remedy=remedy, blocks=False))


def _must_be_told(appliance: Appliance, id: str) -> bool:
    """Whether the rules need the answer when it is told unasked: it stops use, or forbids a check."""
    if appliance.observations[id].stop_use:
        return True
    return any(ban.partition("=")[0] == id for check in appliance.checks.values() for ban in check.never_if)


def walked(appliance: Appliance, shop: Shop) -> Met:
    """All that is met from each symptom alone; then, for what was not, from the causes it is about."""
    met, table = Met(), compiled(appliance)
    limits = Limits(questions_max=shop.policies.questions_max, checks_max=shop.policies.checks_max)
    for code in appliance.symptoms:
        _follow(appliance, shop, table, Evidence(symptoms={code: True}), limits, met)
    for start in _meant_starts(appliance, table, met):
        _follow(appliance, shop, table, start, limits, met, most=12)
    return met


def _follow(
    appliance: Appliance, shop: Shop, table: Table, start: Evidence, limits: Limits, met: Met,
    most: int = STEPS_FROM_A_SYMPTOM,
) -> None:  # fmt: skip
    order = count()
    waiting: list[tuple[float, int, Evidence, Limits]] = [(-1.0, next(order), start, limits)]
    done = 0
    while waiting and done < most:
        chance, _, evidence, left = heapq.heappop(waiting)
        step = next_step(appliance, evidence, left, shop)
        done += 1
        if isinstance(step, Stop):
            continue
        if isinstance(step, Ask):
            met.asked.add(step.code)
        else:
            met.offered.add(step.check)
        for share, then, after in _after(table, step, evidence, left):
            heapq.heappush(waiting, (chance * share, next(order), then, after))
    met.steps += done


def _after(
    table: Table, step: Ask | Try, evidence: Evidence, limits: Limits
) -> Iterator[tuple[float, Evidence, Limits]]:
    """The tickets that follow *step*, each with a rough chance: every answer, "don't know", a check that did not help."""
    if isinstance(step, Try):
        left = replace(limits, checks_used=limits.checks_used + 1)
        yield 1 - step.chance, replace(evidence, checks={**evidence.checks, step.check: "not_fixed"}), left
        return
    left = replace(limits, questions_used=limits.questions_used + 1, asked=limits.asked | {step.code})
    if step.kind == "observation":
        rows = table.values[step.code]
        for value, row in rows.items():
            then = replace(evidence, observations={**evidence.observations, step.code: value})
            yield float(row @ table.prior), then, left
    elif step.kind == "symptom":
        yes = float(table.symptoms[step.code] @ table.prior)
        for said, share in ((True, yes), (False, 1 - yes)):
            yield share, replace(evidence, symptoms={**evidence.symptoms, step.code: said}), left
    else:
        for code in step.options:
            yield 1 / len(step.options), replace(evidence, symptoms={**evidence.symptoms, code: True}, one_of=()), left
    yield 0.1, evidence, left


def _meant_starts(appliance: Appliance, table: Table, met: Met) -> Iterator[Evidence]:
    """First texts in which the causes of what was not met yet show themselves plainly."""
    for code in appliance.checks:
        if code not in met.offered:
            check = appliance.checks[code]
            yield from _starts_for(table, check.settles, check.when)
    for code, item in appliance.observations.items():
        if item.who == "customer" and code not in met.asked:
            causes = [cause for cause, rule in appliance.causes.items() if code in rule.evidence]
            yield from _starts_for(table, causes, item.when)


def _starts_for(table: Table, causes: Iterable[str], when: tuple[str, ...]) -> Iterator[Evidence]:
    """First texts with what each of *causes* shows best; then with its answers told too, each left out in turn."""
    for cause in causes:
        column = table.causes.index(cause)
        shown = {code: float(row[column]) for code, row in table.symptoms.items() if row[column] >= SHOWN_FROM}
        best = sorted(shown, key=lambda code: -shown[code])[:2]
        told = {
            code: _usual(rows, column)
            for code, rows in table.values.items()
            if code in table.appliance.causes[cause].evidence and code not in best
        }
        for first in dict.fromkeys((*best, *(code for code in when if code in table.symptoms))):
            yield Evidence(symptoms={first: True})
            yield Evidence(symptoms={first: True, **dict.fromkeys(best, True)})
            for left_out in told:
                yield Evidence({first: True}, observations={c: v for c, v in told.items() if c != left_out})


def _usual(rows: Mapping[str, Floats], column: int) -> str:
    """The answer given most often with the cause in *column*."""
    return max(rows, key=lambda value: float(rows[value][column]))
