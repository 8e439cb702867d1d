"""Days, windows and offers as values. The diary is handed in; nothing here knows a clock or a database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime


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
    """A window a technician can keep. start, end: aware, shop-local. cost_min: added travel, what it was ranked by."""

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
