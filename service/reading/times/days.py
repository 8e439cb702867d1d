"""The names of weekdays and months in both languages, as people write them."""

from __future__ import annotations

import re

from service.reading.model import Day

WEEK: tuple[Day, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_NAMES = (
    "monday mondays mon lunes",
    "tuesday tuesdays tue tues martes",
    "wednesday wednesdays wed weds wensday miercoles",
    "thursday thursdays thu thur thurs jueves",
    "friday fridays fri viernes",
    "saturday saturdays sat sabado sabados",
    "sunday sundays sun domingo domingos",
)
DAYS: dict[str, Day] = {name: day for day, names in zip(WEEK, _NAMES, strict=True) for name in names.split()}
_MONTH_NAMES = (
    "january jan enero ene",
    "february feb febrero",
    "march mar marzo",
    "april apr abril abr",
    "may mayo",
    "june jun junio",
    "july jul julio",
    "august aug agosto ago",
    "september sept sep septiembre",
    "october oct octubre",
    "november nov noviembre",
    "december dec diciembre dic",
)
MONTHS = {name: number for number, names in enumerate(_MONTH_NAMES, start=1) for name in names.split()}
_SHORT = ("lun", "mar", "mié mie", "jue", "vie", "sáb sab", "dom")
_SHORT_ES: dict[str, Day] = {name: day for day, names in zip(WEEK, _SHORT, strict=True) for name in names.split()}


def weekday_of(words: str) -> Day | None:
    """The weekday named in *words* (an offer as sent), None when there is none."""
    for word in re.findall(r"[a-záéíóú]+", words.lower()):
        day = DAYS.get(word.translate(str.maketrans("áéíóú", "aeiou"))) or _SHORT_ES.get(word)
        if day:
            return day
    return None
