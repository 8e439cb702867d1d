"""How long visits take, as a spread and not a number: lognormal lengths, their sums, and what is left of them after a wait.

Computation notes, section 6: lognormal repair times (MIL-HDBK-338B 5.6.2.1), sums by matching mean and variance (Fenton 1960).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import erf, exp, log, log1p, sqrt
from statistics import NormalDist

_STANDARD = NormalDist()
USUAL_SIGMA = 0.5
"""The spread of a visit of which only the planned minutes are known. Example E6.2."""
_WIDEST_SIGMA = 1.2
_NO_SPREAD = 1e-12


@dataclass(frozen=True, slots=True)
class Length:
    """Minutes as a mean and a variance; read as a lognormal when a quantile is asked for."""

    mean: float = 0.0
    variance: float = 0.0

    def __add__(self, other: Length) -> Length:
        return Length(self.mean + other.mean, self.variance + other.variance)

    def quantile(self, z: float) -> float:
        """The minutes that are not passed with the probability of the standard normal deviate *z*."""
        mu, s = self._shape()
        return exp(mu + z * s) if s > 0 else max(self.mean, 0.0)

    def beyond(self, wait: float) -> Length:
        """What is left over *wait* minutes: the part of a delay that a planned wait does not swallow."""
        if wait <= 0:
            return self
        mu, s = self._shape()
        if s <= 0:
            return Length(max(self.mean - wait, 0.0), 0.0)
        d = (mu - log(wait)) / s
        passes, first = _below(d), self.mean * _below(d + s)
        left = first - wait * passes
        second = (self.variance + self.mean**2) * _below(d + 2 * s)
        square = second - 2 * wait * first + wait**2 * passes
        return Length(max(left, 0.0), max(square - left**2, 0.0))

    def _shape(self) -> tuple[float, float]:
        """Mean and deviation of the logarithm; a deviation of 0.0 stands for minutes without spread."""
        if self.mean <= 0 or self.variance <= _NO_SPREAD * self.mean**2:
            return 0.0, 0.0
        s2 = log1p(self.variance / self.mean**2)
        return log(self.mean) - s2 / 2, sqrt(s2)


def deviate(quantile: float) -> float:
    """The standard normal deviate of *quantile*: 0.9 gives 1.281552."""
    return _STANDARD.inv_cdf(quantile)


def from_median(median: float, high: float, quantile: float = 0.9) -> Length:
    """The length that takes *median* minutes usually and *high* or less in *quantile* of all cases."""
    if median <= 0:
        return Length()
    sigma = log(high / median) / deviate(quantile) if high > median else 0.0
    return _lognormal(median, min(sigma, _WIDEST_SIGMA))


def from_planned(minutes: float) -> Length:
    """The length of a visit planned at *minutes* on average, with the usual spread."""
    return Length(minutes, (exp(USUAL_SIGMA**2) - 1) * minutes**2)


def _lognormal(median: float, sigma: float) -> Length:
    mean = median * exp(sigma**2 / 2)
    return Length(mean, (exp(sigma**2) - 1) * mean**2)


def _below(d: float) -> float:
    return (1 + erf(d / sqrt(2))) / 2
