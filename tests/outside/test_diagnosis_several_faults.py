"""
Several faults at once, which the line does not reckon with: its arithmetic is right there too; what it costs to think of one.

Sources: noisy-OR, Pearl 1988 and Henrion 1989, with figures on which pgmpy 1.1.2 and pyAgrum 3.3.1 agree to six decimals;
the cost of repairing independent faults one after the other, by brute force over every order.
"""

from __future__ import annotations

from itertools import permutations, product
from math import prod

import numpy as np
import pytest

from service.diagnosis.actions import Actions
from service.diagnosis.belief import weigh
from service.diagnosis.tests_order import best_order

PRIOR = (0.20, 0.15, 0.10)
"""A refrigerator that does not cool: door seal, fan, coil; each broken or not, whatever the others are."""
WARM, FROST, NOISE = (0.35, 0.85, 0.70), (0.60, 0.10, 0.05), (0.03, 0.75, 0.05)
LEAK_WARM, LEAK_FROST, LEAK_NOISE = 0.05, 0.02, 0.04
STATES = tuple(product((0, 1), repeat=3))
"""Every set of faults, from none to all three, as one cause of its own."""


def seen(net: tuple[float, ...], leak: float) -> np.ndarray:
    """How often a sign is seen in each state: it is absent if no fault that is there shows it, nor the leak."""
    return np.array(
        [1 - (1 - leak) * prod(1 - w for w, there in zip(net, state, strict=True) if there) for state in STATES]
    )


def test_e2_2_a_belief_over_sets_of_faults_is_the_noisy_or() -> None:
    prior = np.array([prod(q if on else 1 - q for q, on in zip(PRIOR, state, strict=True)) for state in STATES])
    rows = np.array([seen(WARM, LEAK_WARM), 1 - seen(FROST, LEAK_FROST), seen(NOISE, LEAK_NOISE)])
    assert float(prior @ rows.prod(axis=0)) == pytest.approx(0.08425750, abs=5e-9)
    joint = weigh(prior, rows)
    published = [0.014236, 0.047276, 0.736769, 0.088188, 0.018732, 0.007062, 0.078701, 0.009036]
    assert joint.tolist() == pytest.approx(published, abs=1e-6)
    assert (joint @ np.array(STATES)).tolist() == pytest.approx([0.113531, 0.912694, 0.151561], abs=1e-6)


def until_it_works(q: list[float], minutes: list[float], order: tuple[int, ...]) -> float:
    """Expected minutes of mending in *order* until a broken machine works, when each part is broken with its own chance *q*."""
    broken = 1 - prod(1 - one for one in q)
    still = [1 - prod(1 - q[part] for part in order[step:]) for step in range(len(order))]
    return sum(minutes[part] * chance for part, chance in zip(order, still, strict=True)) / broken


def one_fault_order(q: list[float], minutes: list[float]) -> tuple[int, ...]:
    """The order as the line has it: as if one of the parts were broken, each as likely as its chance among them all."""
    shares = np.array([*q, 0.0]) / sum(q)
    return best_order(Actions(shares, np.eye(len(q), len(q) + 1), np.array(minutes)))


def test_e1_7_with_frequent_faults_the_order_for_one_fault_is_dearer_than_the_best() -> None:
    q, minutes = [0.80, 0.45, 0.10], [10.0, 5.0, 4.0]
    order = one_fault_order(q, minutes)
    assert order == (1, 0, 2)
    assert until_it_works(q, minutes, order) == pytest.approx(14.544950, abs=1e-6)
    best = min(permutations(range(3)), key=lambda one: until_it_works(q, minutes, one))
    assert best == (0, 1, 2)
    assert until_it_works(q, minutes, best) == pytest.approx(13.246393, abs=1e-6)


def test_e1_7_with_rare_faults_the_order_for_one_fault_is_the_best_to_a_thousandth() -> None:
    rng = np.random.default_rng(17)
    ratios = []
    for _ in range(200):
        count = int(rng.integers(2, 6))
        q, minutes = rng.uniform(0.001, 0.05, count).tolist(), rng.uniform(1, 20, count).tolist()
        costs = [until_it_works(q, minutes, order) for order in permutations(range(count))]
        ratios.append(until_it_works(q, minutes, one_fault_order(q, minutes)) / min(costs))
    assert max(ratios) < 1.001
    assert np.mean(np.isclose(ratios, 1.0, rtol=1e-9)) > 0.9
