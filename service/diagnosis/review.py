"""How good the forecasts were, over finished jobs and tickets: rates with intervals, never a rate without its count."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import sqrt
from statistics import fmean, stdev
from typing import TypeVar

from service.diagnosis.scores import (
    ENOUGH,
    FEW,
    Z95,
    Bin,
    brier,
    brier_of_causes,
    calibration,
    calibration_error,
    log_loss,
    log_loss_of_causes,
    recalibrated,
    recalibration,
    wilson,
)

Item = TypeVar("Item")
Key = TypeVar("Key", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Job:
    """
    One ticket a technician looked at, judged by what was forecast before the first visit and what came of it.

    month: ``2026-11``. found: the cause confirmed in the end. belief: (cause, share) as shown, likeliest first. finish:
    chance to finish on the first visit, as shown; None if it was not. finished: mended on the first visit and not back
    within 30 days. came_back: the same complaint returned, so the diagnosis counts as wrong. carried, used: parts. in_time:
    the first visit took no longer than was kept free for it; None if one of both is not known.
    """

    appliance: str
    month: str
    found: str
    belief: tuple[tuple[str, float], ...] = ()
    finish: float | None = None
    finished: bool = False
    came_back: bool = False
    carried: frozenset[str] = frozenset()
    used: frozenset[str] = frozenset()
    planned: bool = True
    in_time: bool | None = None

    def right_among(self, most: int) -> bool:
        """Whether the cause was among the *most* likeliest, and the repair held."""
        return not self.came_back and self.found in [cause for cause, _ in self.belief[:most]]


@dataclass(frozen=True, slots=True)
class Talk:
    """
    One closed ticket: what it took to get there. settled: its owner mended it, no visit.

    checks: owner checks that were done, each with the chance it was offered with and whether it settled the complaint.
    """

    appliance: str
    month: str
    questions: int
    settled: bool
    checks: tuple[tuple[float, bool], ...] = ()


@dataclass(frozen=True, slots=True)
class Rate:
    """So many of so many, with the 95 % interval (Wilson)."""

    hits: int
    count: int

    @property
    def value(self) -> float:
        """The rate; nan for nothing."""
        return self.hits / self.count if self.count else float("nan")

    @property
    def interval(self) -> tuple[float, float]:
        """Where the true rate probably lies."""
        return wilson(self.hits, self.count)

    @property
    def few(self) -> bool:
        """Whether the count is too small to read the rate by itself."""
        return self.count < FEW


@dataclass(frozen=True, slots=True)
class Mean:
    """A mean with the 95 % interval by the normal approximation; no interval for a single one."""

    value: float
    count: int
    half: float | None

    @property
    def interval(self) -> tuple[float, float]:
        """Where the true mean probably lies; the value itself where nothing can be said."""
        half = self.half or 0.0
        return max(0.0, self.value - half), self.value + half

    @property
    def few(self) -> bool:
        """Whether the count is too small to read the mean by itself."""
        return self.count < FEW


@dataclass(frozen=True, slots=True)
class CauseScores:
    """The whole belief against the cause that was found: Brier's own form (0 to 2) and log loss."""

    count: int
    brier: float
    log_loss: float


@dataclass(frozen=True, slots=True)
class Forecasts:
    """
    Chances as they were given, against what happened: by bins, with both scores and the mean distance.

    line: how chances given turn into chances that come true, from ``ENOUGH`` on. causes: where beliefs were judged.
    """

    count: int
    bins: tuple[Bin, ...]
    brier: float
    log_loss: float
    distance: float
    line: tuple[float, float] | None = None
    causes: CauseScores | None = None

    @property
    def few(self) -> bool:
        """Whether there are too few for a curve."""
        return self.count < FEW

    def has_meant(self, chance: float) -> float | None:
        """How often what was given this *chance* has come true; None where there are too few to say."""
        return None if self.line is None else recalibrated(chance, self.line)


@dataclass(frozen=True, slots=True)
class PartUse:
    """One part over the jobs of its appliance: how often it was on board by the load list, used, both, or missed."""

    appliance: str
    part: str
    jobs: int
    carried: int
    used: int
    both: int

    @property
    def missed(self) -> int:
        """Used, but not on the load list."""
        return self.used - self.both


def rate_of(items: Sequence[Item], hit: Callable[[Item], bool]) -> Rate:
    """How many of *items* are a *hit*."""
    return Rate(sum(hit(item) for item in items), len(items))


def mean_of(values: Sequence[float]) -> Mean:
    """The mean of *values*; nan for nothing."""
    if not values:
        return Mean(float("nan"), 0, None)
    half = Z95 * stdev(values) / sqrt(len(values)) if len(values) > 1 else None
    return Mean(fmean(values), len(values), half)


def grouped(items: Iterable[Item], key: Callable[[Item], Key]) -> dict[Key, list[Item]]:
    """*items* by *key*, keys in the order they first came."""
    found: dict[Key, list[Item]] = {}
    for item in items:
        found.setdefault(key(item), []).append(item)
    return found


def cause_forecasts(jobs: Iterable[Job]) -> Forecasts:
    """The share given to the likeliest cause, against whether that was what the technician found."""
    known = [job for job in jobs if job.belief]
    found = forecasts_of([job.belief[0][1] for job in known], [job.right_among(1) for job in known])
    return replace(found, causes=_scores_of_causes(known))


def _scores_of_causes(jobs: Iterable[Job]) -> CauseScores | None:
    """Left out is what came back, for what it was is in doubt, and a cause that the belief did not know."""
    rows = [(job.found, dict(job.belief)) for job in jobs if not job.came_back]
    known = [(found, shares) for found, shares in rows if found in shares]
    if not known:
        return None
    shares, truths = [list(row.values()) for _, row in known], [[*row].index(found) for found, row in known]
    return CauseScores(len(known), brier_of_causes(shares, truths), log_loss_of_causes(shares, truths))


def finish_forecasts(jobs: Iterable[Job]) -> Forecasts:
    """The chance given to finish on the first visit, against whether it did."""
    known = [(job.finish, job.finished) for job in jobs if job.finish is not None]
    return forecasts_of([chance for chance, _ in known], [finished for _, finished in known])


def check_forecasts(talks: Iterable[Talk]) -> Forecasts:
    """The chance an owner check was offered with, against whether it settled the complaint; checks not done are left out."""
    done = [one for talk in talks for one in talk.checks]
    return forecasts_of([chance for chance, _ in done], [settled for _, settled in done])


def forecasts_of(chances: Sequence[float], came_true: Sequence[bool]) -> Forecasts:
    """*chances* scored by what *came_true*."""
    bins = calibration(chances, came_true)
    line = recalibration(chances, came_true) if len(chances) >= ENOUGH else None
    return Forecasts(
        len(chances), bins, brier(chances, came_true), log_loss(chances, came_true), calibration_error(bins), line
    )


def parts_used(jobs: Iterable[Job]) -> tuple[PartUse, ...]:
    """Every part that was carried or used, those used most first."""
    found: list[PartUse] = []
    for appliance, own in grouped((job for job in jobs if job.planned), lambda job: job.appliance).items():
        for part in sorted(frozenset[str]().union(*(job.carried | job.used for job in own))):
            carried = [job for job in own if part in job.carried]
            used = sum(part in job.used for job in own)
            both = sum(part in job.used for job in carried)
            found.append(PartUse(appliance, part, len(own), len(carried), used, both))
    return tuple(sorted(found, key=lambda one: (-one.used, -one.carried, one.appliance, one.part)))
