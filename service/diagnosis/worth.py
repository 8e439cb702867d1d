"""What an answer is worth: expected change of the plan's cost, and bits of entropy for ties. Works on bare arrays."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from service.diagnosis.likelihoods import Floats

Plan = Callable[[Floats], Floats]
"""Rows of belief (sums are chances of getting there) to the cost of the best plan from each."""


def entropy_bits(shares: Floats) -> float:
    """Shannon's entropy of *shares* in bits."""
    some = shares[shares > 0]
    return float(-(some * np.log2(some)).sum())


def expected_gain_bits(shares: Floats, answers: Floats) -> float:
    """How many bits an answer takes from the entropy on average: Lindley 1956. *answers*: likelihoods, answers by causes."""
    joint = answers * shares
    chances = joint.sum(axis=1)
    known = joint[joint > 0]
    spread = -float((known * np.log2(known)).sum()) - entropy_bits(chances)
    return max(0.0, entropy_bits(shares) - spread)


def values(shares: Floats, questions: Sequence[Floats], plan: Plan) -> tuple[float, Floats]:
    """The plan's cost now, and what each question's answer lowers it by on average: Howard 1966. Never negative."""
    rows = np.concatenate([shares[None, :], *(answers * shares for answers in questions)])
    costs = plan(rows)
    return float(costs[0]), value_of(costs, [len(answers) for answers in questions])


def value_of(costs: Floats, answers: Sequence[int]) -> Floats:
    """Value by question, from the cost now and then of every answer of every question; *answers*: how many each has."""
    if not answers:
        return np.zeros(0)
    starts = np.cumsum([0, *answers[:-1]])
    return np.asarray(np.maximum(0.0, costs[0] - np.add.reduceat(costs[1:], starts)))


def pair_value(shares: Floats, first: Floats, second: Floats, plan: Plan, price: float) -> float:
    """
    Worth of asking *first* and then, only where it pays *price*, *second*; before the first one's own price.

    Two answers together may turn a plan that neither turns alone.
    """
    between = first * shares
    both = (between[:, None, :] * second[None, :, :]).reshape(-1, len(shares))
    costs = plan(np.concatenate([shares[None, :], between, both]))
    here, single, pairs = costs[0], costs[1 : 1 + len(first)], costs[1 + len(first) :].reshape(len(first), len(second))
    asked = pairs.sum(axis=1) + price * between.sum(axis=1)
    return float(max(0.0, here - np.minimum(single, asked).sum()))
