"""Windows, moments and fees in words, as a customer reads them, in English and Spanish."""

from __future__ import annotations

from datetime import date, datetime

_DAYS = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "es": ("lun", "mar", "mié", "jue", "vie", "sáb", "dom"),
}
_MONTHS = {
    "en": ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
    "es": ("ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"),
}
_NEAR = {"en": ("today", "tomorrow"), "es": ("hoy", "mañana")}


def window_words(start: datetime, end: datetime, language: str, now: datetime) -> str:
    """
    A window in words: "Thu 4 Dec, 1 to 3 pm", "jue 4 dic, de 1 a 3 pm".

    *start* and *end* are aware and shop-local. Today and tomorrow are said besides the date, which stays true when the
    text is read a day later.
    """
    language = _known(language)
    first, last = _clock(start), _clock(end)
    begins, ends = " ".join(first[: 1 if first[1] == last[1] else 2]), " ".join(last)
    hours = f"de {begins} a {ends}" if language == "es" else f"{begins} to {ends}"
    return f"{day_words(start, language, now)}, {hours}"


def day_words(at: datetime, language: str, now: datetime) -> str:
    """A day in words: "Thu 4 Dec", "today, Wed 25 Nov", "mañana, jue 26 nov". *at* is aware and shop-local."""
    language = _known(language)
    day = at.date()
    said = f"{_DAYS[language][day.weekday()]} {day.day} {_MONTHS[language][day.month - 1]}"
    ahead = (day - _today(at, now)).days
    return f"{_NEAR[language][ahead]}, {said}" if ahead in (0, 1) else said


def moment_words(at: datetime, language: str, now: datetime) -> str:
    """A moment in words: "today at 8 am", "mañana a las 8 am", "Mon 30 Nov at 8 am". *at* is aware and shop-local."""
    language = _known(language)
    ahead = (at.date() - _today(at, now)).days
    day = _NEAR[language][ahead] if ahead in (0, 1) else day_words(at, language, now)
    number, half = _clock(at)
    if language == "en":
        return f"{day} at {number} {half}"
    return f"{day} a la{'' if number.split(':')[0] == '1' else 's'} {number} {half}"


def fee_words(cents: int) -> str:
    """Money in words: "$89", "$89.50", "$1,250"."""
    dollars, rest = divmod(cents, 100)
    return f"${dollars:,}.{rest:02d}" if rest else f"${dollars:,}"


def _clock(at: datetime) -> tuple[str, str]:
    """The twelve-hour clock: "1", "pm"; "9:30", "am"."""
    number = at.hour % 12 or 12
    return (f"{number}:{at.minute:02d}" if at.minute else str(number)), "am" if at.hour < 12 else "pm"


def _known(language: str) -> str:
    return "es" if language == "es" else "en"


def _today(like: datetime, now: datetime) -> date:
    return now.astimezone(like.tzinfo).date()
