"""What is measured, each thing once: its name, what it says, and what counts as a hit or a value."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from service.diagnosis.review import (
    Forecasts,
    Job,
    Mean,
    Rate,
    Talk,
    cause_forecasts,
    check_forecasts,
    finish_forecasts,
    mean_of,
    rate_of,
)

Item = TypeVar("Item", Job, Talk)
JOBS, TALKS = "jobs", "tickets"


@dataclass(frozen=True, slots=True)
class Judged:
    """All that was read for one report."""

    jobs: tuple[Job, ...]
    talks: tuple[Talk, ...]

    def of(self, appliance: str | None, month: str | None) -> Judged:
        """What belongs to *appliance* and *month*; None for all."""
        return Judged(_some(self.jobs, appliance, month), _some(self.talks, appliance, month))

    @property
    def appliances(self) -> tuple[str, ...]:
        """Those with anything to say, in alphabetical order."""
        return tuple(sorted({job.appliance for job in self.jobs} | {talk.appliance for talk in self.talks}))

    @property
    def months(self) -> tuple[str, ...]:
        """Those with anything to say, oldest first."""
        return tuple(sorted({job.month for job in self.jobs} | {talk.month for talk in self.talks}))


@dataclass(frozen=True, slots=True)
class Share:
    """A measure of so many of so many. series: name and count of each thing counted. unit: what is counted."""

    id: str
    title: str
    says: str
    unit: str
    series: tuple[tuple[str, Callable[[Judged], Rate]], ...]


@dataclass(frozen=True, slots=True)
class Average:
    """A measure with a mean."""

    id: str
    title: str
    says: str
    unit: str
    mean: Callable[[Judged], Mean]


@dataclass(frozen=True, slots=True)
class Curve:
    """Forecasts against what happened."""

    id: str
    title: str
    says: str
    unit: str
    forecasts: Callable[[Judged], Forecasts]


@dataclass(frozen=True, slots=True)
class Parts:
    """Parts on the load list against parts used."""

    id: str
    title: str
    says: str
    unit: str


Measure = Share | Average | Curve | Parts

MEASURES: tuple[Measure, ...] = (
    Share(
        "first-visit",
        "Finished on the first visit",
        "Machines that a technician looked at, mended on the first visit and not back within 30 days.",
        JOBS,
        (("finished", lambda all_: rate_of(all_.jobs, lambda job: job.finished)),),
    ),
    Share(
        "right-cause",
        "The right cause",
        "How often the cause that was found was the likeliest on the sheet, and how often among the first three. A "
        "complaint that came back counts as wrong.",
        JOBS,
        (
            ("the likeliest", lambda all_: _right(all_, 1)),
            ("among the first three", lambda all_: _right(all_, 3)),
        ),
    ),
    Curve(
        "calibration-cause",
        "Chance of the likeliest cause, against what was found",
        "Of the causes called 70 % likely, 70 % should be found. Points above the slanted line: more often than said.",
        JOBS,
        lambda all_: cause_forecasts(all_.jobs),
    ),
    Curve(
        "calibration-finish",
        "Chance to finish on the first visit, against what happened",
        "The chance as it stood on the visit sheet, and how often the first visit did finish the job.",
        JOBS,
        lambda all_: finish_forecasts(all_.jobs),
    ),
    Curve(
        "calibration-checks",
        "Chance of an owner check to settle it, against what happened",
        "Of checks offered with a chance of 30 %, 30 in 100 should settle it. Only checks that were done count; one whose "
        "complaint was back within 30 days settled nothing.",
        "checks",
        lambda all_: check_forecasts(all_.talks),
    ),
    Parts(
        "parts",
        "Parts on the load list, and parts used",
        "By part: on board and used, used but not on board (a second trip), on board for nothing.",
        JOBS,
    ),
    Share(
        "in-time",
        "Done in the time kept free",
        "First visits that took no longer than was kept free for them, by the minutes on the outcome. Nine in ten should, "
        "unless the shop's file asks for more or less.",
        JOBS,
        (("in time", lambda all_: rate_of([job for job in all_.jobs if job.in_time is not None], _in_time)),),
    ),
    Share(
        "came-back",
        "Came back within 30 days",
        "The same machine with the same complaint, or one not said, within 30 days of the outcome.",
        JOBS,
        (("came back", lambda all_: rate_of(all_.jobs, lambda job: job.came_back)),),
    ),
    Average(
        "questions",
        "Questions a ticket",
        "How many questions the line asked before a ticket was closed; address and times are not counted.",
        TALKS,
        lambda all_: mean_of([float(talk.questions) for talk in all_.talks]),
    ),
    Share(
        "settled",
        "Settled by the owner",
        "Closed tickets that an owner check settled, without a visit.",
        TALKS,
        (("settled", lambda all_: rate_of(all_.talks, lambda talk: talk.settled)),),
    ),
)
BY_ID: Mapping[str, Measure] = {measure.id: measure for measure in MEASURES}


def figures_of(measure: Share | Average) -> Sequence[tuple[str, Callable[[Judged], Rate | Mean]]]:
    """What *measure* counts, by name."""
    return measure.series if isinstance(measure, Share) else (("mean", measure.mean),)


def _in_time(job: Job) -> bool:
    return job.in_time is True


def _right(all_: Judged, most: int) -> Rate:
    return rate_of([job for job in all_.jobs if job.belief], lambda job: job.right_among(most))


def _some(items: Sequence[Item], appliance: str | None, month: str | None) -> tuple[Item, ...]:
    return tuple(one for one in items if appliance in (None, one.appliance) and month in (None, one.month))
