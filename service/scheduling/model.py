"""Days, windows and offers as values. The diary is handed in; nothing here knows a clock or a database."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Booked:
    """A visit that stands in somebody's day. start, end: the window promised, aware. minutes: planned work."""

    visit_id: str
    technician: str
    start: datetime
    end: datetime
    minutes: int
    lat: float
    lon: float


@dataclass(frozen=True, slots=True)
class Diary:
    """
    What the technicians' days hold, as it was read.

    booked: visits standing on the days loaded. versions: day to the day's version, for compare-and-set when booking.
    blocked: (technician, start, end) of hours that are taken by something else.
    """

    booked: tuple[Booked, ...] = ()
    versions: Mapping[date, int] = field(default_factory=dict)
    blocked: tuple[tuple[str, datetime, datetime], ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """What is to be fitted in: where, how long (median and promised minutes), and which skills it needs."""

    lat: float
    lon: float
    minutes_usual: int
    minutes_promise: int
    skills: frozenset[str]
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Offer:
    """
    A window a technician can keep. start, end: aware, shop-local. minutes: planned work. cost_min: the travel it adds.

    Offers are ranked by that travel, together with days of waiting and the technician's languages.
    """

    technician: str
    start: datetime
    end: datetime
    minutes: int
    cost_min: float


@dataclass(frozen=True, slots=True)
class Offers:
    """Up to three offers, best first, differing in day or half-day; ``fits_wish`` False when none could."""

    offers: tuple[Offer, ...]
    fits_wish: bool = True
    why: str = ""


class Wished(Protocol):
    """When somebody may come, as the reading room's ``Wish`` holds it; that room stands above this one."""

    @property
    def days_in(self) -> Sequence[str]:
        """Weekdays asked for."""

    @property
    def days_out(self) -> Sequence[str]:
        """Weekdays ruled out."""

    @property
    def dates(self) -> Sequence[tuple[int, int]]:
        """Months and days of month asked for."""

    @property
    def dates_out(self) -> Sequence[tuple[int, int]]:
        """Months and days of month ruled out."""

    @property
    def relative(self) -> Sequence[int]:
        """Days from today asked for."""

    @property
    def relative_out(self) -> Sequence[int]:
        """Days from today ruled out."""

    @property
    def week(self) -> str | None:
        """``this`` or ``next``."""

    @property
    def start(self) -> time | None:
        """Not before this time of day, or with ``point`` the time itself."""

    @property
    def point(self) -> bool:
        """Whether ``start`` is one point of time that any window holding it fits ("at 2"), not the earliest."""

    @property
    def end(self) -> time | None:
        """Not after this time of day."""

    @property
    def part(self) -> str | None:
        """``morning``, ``afternoon`` or ``evening``."""

    @property
    def also(self) -> Sequence[tuple[time | None, time | None]]:
        """Further stretches of the day, from and to, that will do as well as ``start``, ``end`` and ``part``."""

    @property
    def apart(self) -> Sequence[Wished]:
        """Where days have hours of their own: a wish for each, whose hours hold for its days alone."""

    @property
    def soonest(self) -> bool:
        """As soon as possible."""

    @property
    def words(self) -> str:
        """The time as it was said; empty when it was not said in words."""


class Answered(Protocol):
    """What a text answers, as the reading room's ``Answer`` holds it."""

    @property
    def kind(self) -> str:
        """Among others ``yes``, ``no``, ``choice``, ``none``, ``either``."""

    @property
    def index(self) -> int | None:
        """The choice, from 0."""


class Windowed(Protocol):
    """Anything with a window: aware start and end."""

    @property
    def start(self) -> datetime:
        """When the window opens."""

    @property
    def end(self) -> datetime:
        """When it closes."""
