"""Small shops, diaries and jobs for these tests: invented, around Albuquerque."""

from datetime import UTC, date, datetime, time

from service.rulebook.schema.shop import Shop
from service.scheduling.hours import local_moment, zone_of
from service.scheduling.model import Booked, Diary, Job

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri")
NOW = datetime(2026, 12, 1, 15, 0, tzinfo=UTC)
"""Tuesday 1 December 2026, 8:00 in Albuquerque."""
HERE = (35.0818, -106.6482)
AREA = {
    "87102": {"lat": 35.0818, "lon": -106.6482},
    "87107": {"lat": 35.1347, "lon": -106.6427},
    "87112": {"lat": 35.1010, "lon": -106.5183},
    "87122": {"lat": 35.1787, "lon": -106.5102},
}


def span(start, end):
    """Hours from *start* to *end*, whole hours."""
    return {"start": time(start), "end": time(end)}


def technician(id="ana", **over):
    """A technician who works weekdays 8 to 17 and knows dishwashers."""
    base = {
        "id": id, "name": id.title(), "skills": ("dishwasher",), "start_zip": "87102",
        "days": {day: span(8, 17) for day in WEEKDAYS},
    }  # fmt: skip
    return base | over


def make_shop(technicians=None, *, policies=None, windows=None, **over):
    """A shop open weekdays 8 to 18 with two-hour windows."""
    words = {"en": "The visit is {fee}.", "es": "La visita cuesta {fee}."}
    base = {
        "shop": "test", "name": "Test Repair", "number": "+15055550100", "office_phone": "+15055550101",
        "email": "office@test.example", "timezone": "America/Denver", "serves": ("dishwasher",),
        "refer_otherwise": {"en": "Sorry.", "es": "Lo sentimos."}, "area": AREA,
        "hours": {day: span(8, 18) for day in WEEKDAYS},
        "technicians": tuple(technicians or [technician()]),
        "windows": {"starts": (time(8), time(10), time(13), time(15)), "minutes": 120, "days_ahead": 10} | (windows or {}),
        "fees": {"visit_cents": 8900, "say": words}, "policies": policies or {},
    }  # fmt: skip
    return Shop.model_validate(base | over)


def at(shop, day, hour, minute=0):
    """The moment when the shop's clocks show this on *day*, an ISO date or a date."""
    day = date.fromisoformat(day) if isinstance(day, str) else day
    return local_moment(day, time(hour, minute), zone_of(shop))


def booked(shop, day, start, end, *, who="ana", place=HERE, minutes=60, visit="v1"):
    """A visit that stands in the diary."""
    return Booked(visit, who, at(shop, day, start), at(shop, day, end), minutes, *place)


def job(place=HERE, usual=60, promise=100, skills=("dishwasher",)):
    """A dishwasher to be seen at *place*."""
    return Job(*place, usual, promise, frozenset(skills))


def diary(*visits, blocked=()):
    """A diary of *visits*."""
    return Diary(booked=tuple(visits), blocked=tuple(blocked))
