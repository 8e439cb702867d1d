"""
How long one decision and one visit plan take on the demo shop's largest appliance, one core.

Run alone: ``python -m tests.benchmarks.bench_diagnosis``.
"""

from __future__ import annotations

import time
import timeit
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.questions import next_step
from service.diagnosis.table import compiled
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

DECISION_MS, PLAN_MS = 0.5, 5.0
"""What one decision of a turn, and a whole visit plan, may take."""


def fastest_ms(action: Callable[[], object], number: int = 20, rounds: int = 40) -> float:
    """The fastest round's mean, in processor time: what the code takes when nothing else takes the core."""
    action()
    return min(timeit.repeat(action, number=number, repeat=rounds, timer=time.process_time)) / number * 1000


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


def main() -> None:
    """Print a line per ticket: belief and next step together, and the plan."""
    rulebook = load_rulebook(Path(__file__).parents[2] / "rules", "demo")
    appliance = max(rulebook.appliances.values(), key=lambda one: len(one.causes) * len(one.observations))
    print(f"{appliance.code}: {len(appliance.causes)} causes, {len(appliance.observations)} observations,")
    print(f"{len(appliance.checks)} owner checks, {len(appliance.tests)} tests; milliseconds, fastest of 40 rounds")
    print(f"{'ticket':16}{'decision':>10}{'plan':>10}   at most {DECISION_MS} and {PLAN_MS}")
    worst = [0.0, 0.0]
    for name, evidence, limits in tickets(appliance):
        decision = fastest_ms(partial(decide, appliance, evidence, limits, rulebook.shop))
        plan = fastest_ms(partial(plan_visit, appliance, evidence, rulebook.shop), 4)
        worst = [max(worst[0], decision), max(worst[1], plan)]
        print(f"{name:16}{decision:10.3f}{plan:10.2f}")
    print(f"{'slowest':16}{worst[0]:10.3f}{worst[1]:10.2f}")


if __name__ == "__main__":
    main()
