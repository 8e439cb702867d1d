"""What an answer is worth: expected change of the plan's cost, and bits of entropy for ties. Works on bare arrays."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

import numpy as np

from service.diagnosis.likelihoods import Floats

LEAST = float(np.finfo(np.float64).tiny)
"""What stands for nothing in a logarithm."""


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


def gains_bits(shares: Floats, answers: Floats, answer_bits: Floats, counts: Sequence[int]) -> Floats:
    """
    ``expected_gain_bits`` of several questions in one pass.

    answers: of all questions, stacked. answer_bits: ``xlog2x`` of them, which does not depend on the shares. counts: how many
    each has.
    """
    if not len(counts):
        return np.zeros(0)
    bits = xlog2x(shares)
    spread = xlog2x(answers.dot(shares)) - (answer_bits.dot(shares) + answers.dot(bits))
    return np.asarray(np.maximum(0.0, -float(bits.sum()) - np.add.reduceat(spread, _starts(counts))))


def xlog2x(chances: Floats) -> Floats:
    """Each chance times its logarithm; 0 for nothing."""
    return np.asarray(chances * np.log2(np.maximum(chances, LEAST)))


def _starts(counts: Sequence[int]) -> list[int]:
    """Where the answers of each question begin when they are stacked; *counts*: how many each has."""
    return list(accumulate(counts[:-1], initial=0))


def value_of(costs: Floats, answers: Sequence[int]) -> list[float]:
    """Value by question, from the cost now and then of every answer of every question; *answers*: how many each has."""
    if not answers:
        return []
    saved: list[float] = np.maximum(0.0, costs[0] - np.add.reduceat(costs[1:], _starts(answers))).tolist()
    return saved


def value_together(now: float, single: Floats, joint: Floats, later_price: Floats, counts: Sequence[int]) -> Floats:
    """
    Worth of asking two questions, the second only where it pays; before the first one's own price. First by second question.

    now: the plan's cost. single: cost after each answer to each question, stacked; counts: how many each has. joint: after
    each two of these answers. later_price: answers by questions, price of that question times the chance of the answer. Two
    answers together may turn a plan that neither turns alone.
    """
    starts = _starts(counts)
    then = np.add.reduceat(joint, starts, axis=1) + later_price
    return np.asarray(np.maximum(0.0, now - np.add.reduceat(np.minimum(single[:, None], then), starts, axis=0)))
