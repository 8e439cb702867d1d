"""How long a visit takes: a lognormal per cause, mixed by belief; the usual length and the length to promise."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, erf, exp, log, sqrt

Z90 = 1.2815515655446004
"""Normal quantile of nine in ten."""

AROUND_MIN = 10.0
"""Greeting, looking at the complaint together, paperwork. Our own choice, no source."""

ROUND_TO_MIN = 5


def spread(median_min: float, q90_min: float) -> float:
    """Sigma of the lognormal with this median of which nine in ten stay under *q90_min*; 0.05 at least."""
    return max(0.05, log(max(q90_min, median_min) / median_min) / Z90)


def visit_median(book_min: float, own_min: float) -> float:
    """
    The median for one cause: half way, in ratio, between the appliance's usual visit and its own tests and repair.

    A book figure knows what people forget to count; the cause knows what makes this one different.
    """
    return sqrt(book_min * (AROUND_MIN + own_min))


def mixed_quantile(parts: Sequence[tuple[float, float]], sigma: float, quantile: float) -> float:
    """The *quantile* in minutes of a mixture of lognormals given as (share, median), all with *sigma*."""
    total = sum(share for share, _ in parts)
    low, high = 1.0, max(median for _, median in parts) * exp(6 * sigma)
    for _ in range(40):
        middle = sqrt(low * high)
        under = sum(share * _phi(log(middle / median) / sigma) for share, median in parts) / total
        low, high = (middle, high) if under < quantile else (low, middle)
    return sqrt(low * high)


def rounded_up(minutes: float) -> int:
    """Minutes to the next five."""
    return ceil(minutes / ROUND_TO_MIN - 1e-9) * ROUND_TO_MIN


def _phi(z: float) -> float:
    return 0.5 * (1 + erf(z / sqrt(2)))
