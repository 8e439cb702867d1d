"""
How long one decision and one visit plan take on the demo shop's largest appliance, one core.

Run alone: ``python -m tests.benchmarks.bench_diagnosis``.
"""

from __future__ import annotations

import time
import timeit
from collections.abc import Callable
from functools import partial
from pathlib import Path

from service.diagnosis.belief import believe
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.questions import next_step
from service.diagnosis.visit import plan_visit
from service.rulebook.loading import load_rulebook

DECISION_MS, PLAN_MS = 0.5, 5.0
"""What one decision of a turn, and a whole visit plan, may take."""


def fastest_ms(action: Callable[[], object], number: int = 20, rounds: int = 40) -> float:
    """The fastest round's mean, in processor time: what the code takes when nothing else takes the core."""
    action()
    return min(timeit.repeat(action, number=number, repeat=rounds, timer=time.process_time)) / number * 1000


def main() -> None:
    """Print a line per complaint: belief and next step together, then the plan."""
    rulebook = load_rulebook(Path(__file__).parents[2] / "rules", "demo")
    appliance = max(rulebook.appliances.values(), key=lambda one: len(one.causes) * len(one.observations))
    print(f"{appliance.code}: {len(appliance.causes)} causes, {len(appliance.observations)} observations,")
    print(f"{len(appliance.checks)} owner checks, {len(appliance.tests)} tests; milliseconds, fastest of 40 rounds")
    print(
        f"{'complaint':16}{'next step':>10}{'belief':>10}{'both':>10}{'plan':>10}   at most {DECISION_MS} and {PLAN_MS}"
    )
    worst = [0.0, 0.0]
    for code in appliance.symptoms:
        evidence = Evidence(symptoms={code: True})
        decision = fastest_ms(partial(next_step, appliance, evidence, Limits(), rulebook.shop))
        belief = fastest_ms(partial(believe, appliance, evidence))
        plan = fastest_ms(partial(plan_visit, appliance, evidence, rulebook.shop), 4)
        worst = [max(worst[0], decision + belief), max(worst[1], plan)]
        print(f"{code:16}{decision:10.3f}{belief:10.3f}{decision + belief:10.3f}{plan:10.2f}")
    print(f"{'slowest':16}{'':20}{worst[0]:10.3f}{worst[1]:10.2f}")


if __name__ == "__main__":
    main()
