"""
How long one decision and one visit plan take on the demo shop's largest appliance, one core.

Tickets made up for the purpose, a line each, and those that invented customers pass through, as a whole. Run alone:
``python -m tests.benchmarks.bench_diagnosis``.
"""

from __future__ import annotations

import time
import timeit
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from math import inf
from pathlib import Path
from random import Random
from statistics import median

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits, NextStep
from service.diagnosis.questions import next_step
from service.diagnosis.simulate import draw_customer, run
from service.diagnosis.table import compiled
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

DECISION_MS, PLAN_MS = 0.5, 5.0
"""What one decision of a turn, and a whole visit plan, may take."""
WALKED = 120
"""So many tickets of invented customers, at least, are timed."""


def fastest_ms(
    actions: Sequence[Callable[[], object]], number: int = 5, rounds: int = 5, sweeps: int = 12
) -> list[float]:
    """
    Each action's fastest round in processor time, its mean: what the code takes when nothing else takes the core.

    All actions take their turn *sweeps* times, so that a busy second is not one action's bad luck.
    """
    best = [inf] * len(actions)
    for _ in range(sweeps):
        for place, action in enumerate(actions):
            action()
            took = min(timeit.repeat(action, number=number, repeat=rounds, timer=time.process_time))
            best[place] = min(best[place], took / number * 1000)
    return best


def decide(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> None:
    """What a turn asks: belief and next step, on evidence that nobody has weighed before."""
    compiled(appliance).latest.clear()
    believe(appliance, evidence)
    next_step(appliance, evidence, limits, shop)


def tickets(appliance: Appliance) -> Iterator[tuple[str, Evidence, Limits]]:
    """First texts, one symptom each; then two symptoms, a group, a ticket far on, one with many "don't knows"."""
    for code in appliance.symptoms:
        yield code, Evidence(symptoms={code: True}), Limits()
    first, second, third = [code for code in appliance.symptoms if code != "vague"][:3]
    seen = list(appliance.observations.values())
    yield "two symptoms", Evidence(symptoms={first: True, second: True}), Limits()
    yield "a group", Evidence(one_of=((first, second, third),)), Limits()
    answers = {one.id: one.values[0] for one in seen[:4]}
    far_on = Evidence(
        symptoms={first: True, second: False}, observations=answers, checks={next(iter(appliance.checks)): "not_fixed"},
        facts={"age_years": 9, "tried": ("reset_breaker",)},
    )  # fmt: skip
    yield "far on", far_on, Limits(questions_used=3, checks_used=1)
    unknown = Limits(questions_used=3, asked=frozenset(one.id for one in seen[::2]))
    yield "don't knows", Evidence(symptoms={first: True, second: True}), unknown


def walked(appliance: Appliance, shop: Shop) -> list[tuple[Evidence, Limits]]:
    """The different tickets on which the line decides while invented customers text it, from first text to last."""
    found: dict[str, tuple[Evidence, Limits]] = {}

    def noting(appliance: Appliance, evidence: Evidence, limits: Limits, shop: Shop) -> NextStep:
        found.setdefault(repr((evidence, sorted(limits.asked))), (evidence, limits))
        return next_step(appliance, evidence, limits, shop)

    rng = Random(1)
    while len(found) < WALKED:
        run(draw_customer(appliance, rng), appliance, shop, noting)
    return list(found.values())


def main() -> None:
    """Print a line per ticket: belief and next step together, and the plan; then how long walked tickets take."""
    rulebook = load_rulebook(Path(__file__).parents[2] / "rules", "demo")
    appliance, shop = (
        max(rulebook.appliances.values(), key=lambda one: len(one.causes) * len(one.observations)),
        rulebook.shop,
    )
    print(f"{appliance.code}: {len(appliance.causes)} causes, {len(appliance.observations)} observations,")
    print(f"{len(appliance.checks)} owner checks, {len(appliance.tests)} tests; milliseconds, fastest of 60 rounds")
    named = list(tickets(appliance))
    decisions = fastest_ms([partial(decide, appliance, evidence, limits, shop) for _, evidence, limits in named])
    plans = fastest_ms([partial(plan_visit, appliance, evidence, shop) for _, evidence, _ in named], 2)
    print(f"{'ticket':16}{'decision':>10}{'plan':>10}   at most {DECISION_MS} and {PLAN_MS}")
    for (name, _, _), decision, plan in zip(named, decisions, plans, strict=True):
        print(f"{name:16}{decision:10.3f}{plan:10.2f}")
    print(f"{'slowest':16}{max(decisions):10.3f}{max(plans):10.2f}")
    found = walked(appliance, shop)
    times = fastest_ms([partial(decide, appliance, evidence, limits, shop) for evidence, limits in found])
    within = sum(one <= DECISION_MS for one in times)
    print(
        f"{len(found)} tickets walked: middle {median(times):.3f}, slowest {max(times):.3f}, {within} within {DECISION_MS}"
    )


if __name__ == "__main__":
    main()
