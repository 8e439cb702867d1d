"""How long a visit takes: a lognormal per cause, mixed by belief; the usual length and the length to promise."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, erf, exp, log, sqrt, tau

Z90 = 1.2815515655446004
"""Normal quantile of nine in ten."""

AROUND_MIN = 10.0
"""Greeting, looking at the complaint together, paperwork. Our own choice, no source."""

ROUND_TO_MIN = 5
PRECISION = 1e-6
SQRT_TAU = sqrt(tau)
LEAST_SHARE = 0.002


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
    """The *quantile* in minutes, of a mixture of lognormals (share, median), all with *sigma*; tiny shares left out."""
    places = [(share, log(median)) for share, median in parts if share >= LEAST_SHARE]
    wanted = quantile * sum(share for share, _ in places)
    low, high = min(place for _, place in places) - 6 * sigma, max(place for _, place in places) + 6 * sigma
    guess = sum(share * place for share, place in places) / sum(share for share, _ in places)
    while high - low > PRECISION:
        off = sum(share * _phi((guess - place) / sigma) for share, place in places) - wanted
        low, high = (guess, high) if off < 0 else (low, guess)
        slope = sum(share * exp(-(((guess - place) / sigma) ** 2) / 2) for share, place in places) / (sigma * SQRT_TAU)
        step = guess - off / slope if slope > 0 else low
        if abs(step - guess) < PRECISION:
            return exp(step)
        guess = step if low < step < high else (low + high) / 2
    return exp(guess)


def rounded_up(minutes: float) -> int:
    """Minutes to the next five."""
    return ceil(minutes / ROUND_TO_MIN - 1e-9) * ROUND_TO_MIN


def _phi(z: float) -> float:
    return 0.5 * (1 + erf(z / sqrt(2)))
