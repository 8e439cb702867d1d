"""How good forecasts were: Brier score, log loss, calibration by bins, intervals for counts. Forecasts as they were made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, sqrt

import numpy as np

CLIP = 1e-6
"""Forecasts are kept this far from 0 and 1 before their logarithm is taken."""

Z95 = 1.959963984540054
FEW = 50
"""Under so many outcomes counts and intervals are shown, not a curve."""
ENOUGH = 200
"""From so many outcomes on it is said what a forecast has come to (``recalibration``). Our own choice, no source."""


@dataclass(frozen=True, slots=True)
class Bin:
    """Forecasts in ``[low, high)``: how many, their mean, how often it came true, and the 95 % interval of that."""

    low: float
    high: float
    count: int
    mean: float
    rate: float
    interval: tuple[float, float]


def brier(forecasts: Sequence[float], came_true: Sequence[bool]) -> float:
    """Mean squared error of chances: Brier 1950. 0 is perfect; nan for nothing."""
    if not forecasts:
        return float("nan")
    return sum((p - y) ** 2 for p, y in zip(forecasts, came_true, strict=True)) / len(forecasts)


def brier_of_causes(shares: Sequence[Sequence[float]], truths: Sequence[int]) -> float:
    """Brier's own form for several causes, 0 to 2: squared errors summed over causes. truths: place of the true one."""
    if not shares:
        return float("nan")
    rows = zip(shares, truths, strict=True)
    return sum(sum((p - (k == truth)) ** 2 for k, p in enumerate(row)) for row, truth in rows) / len(shares)


def log_loss(forecasts: Sequence[float], came_true: Sequence[bool]) -> float:
    """Mean negative logarithm (natural) of the chance given to what happened."""
    if not forecasts:
        return float("nan")
    return -sum(log(_kept(p if y else 1 - p)) for p, y in zip(forecasts, came_true, strict=True)) / len(forecasts)


def log_loss_of_causes(shares: Sequence[Sequence[float]], truths: Sequence[int]) -> float:
    """The same for several causes: of the share given to the true one."""
    if not shares:
        return float("nan")
    return -sum(log(_kept(row[truth])) for row, truth in zip(shares, truths, strict=True)) / len(shares)


def calibration(
    forecasts: Sequence[float], came_true: Sequence[bool], edges: Sequence[float] = (0, 0.2, 0.4, 0.6, 0.8, 1)
) -> tuple[Bin, ...]:
    """The forecasts by bins (the last one closed), empty bins left out."""
    found = []
    for low, high in pairwise(edges):
        last = high == edges[-1]
        own = [(p, y) for p, y in zip(forecasts, came_true, strict=True) if low <= p < high or (last and p == high)]
        if own:
            hits = sum(y for _, y in own)
            mean = sum(p for p, _ in own) / len(own)
            found.append(Bin(low, high, len(own), mean, hits / len(own), wilson(hits, len(own))))
    return tuple(found)


def calibration_error(bins: Sequence[Bin]) -> float:
    """Expected calibration error: mean distance of forecast and rate over the bins, weighted by how many they hold."""
    total = sum(one.count for one in bins)
    return sum(one.count * abs(one.mean - one.rate) for one in bins) / total if total else float("nan")


def wilson(hits: int, count: int, z: float = Z95) -> tuple[float, float]:
    """Interval for a rate: Wilson 1927. (0, 1) for nothing."""
    if count == 0:
        return 0.0, 1.0
    rate, square = hits / count, z * z / count
    middle = rate + square / 2
    half = z * sqrt(rate * (1 - rate) / count + square / (4 * count))
    return max(0.0, (middle - half) / (1 + square)), min(1.0, (middle + half) / (1 + square))


def recalibration(forecasts: Sequence[float], came_true: Sequence[bool]) -> tuple[float, float]:
    """
    (a, b) of ``logit p' = a + b * logit p`` that fit best (Platt), with a weak pull to (0, 1).

    Newton's method on log loss; the pull (a hundredth of an outcome) keeps it finite where all came true or none did.
    """
    x = np.array([log(_kept(p) / (1 - _kept(p))) for p in forecasts])
    features, target = np.stack([np.ones_like(x), x], axis=1), np.array(came_true, dtype=float)
    line, start = np.array([0.0, 1.0]), np.array([0.0, 1.0])
    for _ in range(50):
        chance = 1 / (1 + np.exp(-features @ line))
        slope = features.T @ (chance - target) + 0.01 * (line - start)
        bend = features.T @ (features * (chance * (1 - chance))[:, None]) + 0.01 * np.eye(2)
        step = np.linalg.solve(bend, slope)
        line = line - step
        if np.abs(step).max() < 1e-10:
            break
    return float(line[0]), float(line[1])


def recalibrated(p: float, line: tuple[float, float]) -> float:
    """What a forecast of *p* has come to, by the *line* of ``recalibration``."""
    kept = _kept(p)
    return 1 / (1 + exp(-(line[0] + line[1] * log(kept / (1 - kept)))))


def _kept(p: float) -> float:
    return min(1 - CLIP, max(CLIP, p))
