"""Times of day as people write them: 3pm, 3:30, noon, a las 4, 10-12."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import time

from service.reading.times.days import DAYS
from service.reading.words.normalising import Word

_NUMBERS = {
    word: number
    for number, words in enumerate(
        (
            "one una un uno", "two dos", "three tres", "four cuatro", "five cinco", "six seis", "seven siete", "eight ocho",
            "nine nueve", "ten diez", "eleven once", "twelve doce",
        ),
        start=1,
    )
    for word in words.split()
}  # fmt: skip
_CLOCK = re.compile(r"^(\d{1,2})(am|pm|a|p)?(?:ish)?$")
_CLOCK_MINUTES = re.compile(r"\b(\d{1,2})[:.](\d{2})\s*(a\.?m|p\.?m)?")
_RUN_ON = re.compile(r"^(1[0-2]|[1-9])(15|30|45)(am|pm)?$")
"""“before 230”: an hour without its colon, never a bare hundred."""
_SPAN = re.compile(
    r"(?<![\d/-])(\d{1,2})(?::(\d{2}))?\s*(am|pm)?\s*(?:-|–|to|til|till|until|and|a|"
    r"y)\s*(?:las\s+)?(\d{1,2})(?::(\d{2}))?\s*(am|pm)?(?![\d/-])"
)
_HOUR = (
    r"(one|two|three|four|five|seven|six|eight|nine|ten|eleven|twelve|una|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|"
    r"diez|once|doce|1[0-2]|[1-9])"
)
_SPAN_IN_WORDS = re.compile(rf"\b(?:between|entre)\s+(?:las?\s+)?{_HOUR}\s+(?:and|y)\s+(?:las?\s+)?{_HOUR}\b")
_NOON_SAID = r"(?:noon|midday|mediodia)"
_TO_NOON = re.compile(
    rf"(?P<both>\b(?:between|entre)\s+)?(?<![\d/.-])(?:\blas?\s+)?\b(?P<hour>{_HOUR})(?::(?P<minute>[0-5]\d))?\s*(?:am|a\.m\.)?\s*"
    rf"(?P<join>-|–|\b(?:to|til|till|until|and|a|al|y|hasta)\b)\s*(?:el\s+)?{_NOON_SAID}\b"
)
_FROM_NOON = re.compile(
    rf"(?P<both>\b(?:between|entre)\s+(?:el\s+)?)?\b{_NOON_SAID}\s*(?P<join>-|–|\b(?:to|til|till|until|and|a|y|hasta)\b)\s*"
    rf"(?:las?\s+)?(?P<hour>{_HOUR})\b(?!\s*(?:min|hour|hora|day|dia|time|veces|of|de)|[/:.]\d)"
)
"""“10 to noon”, “entre las 10 y el mediodía”, “noon-2”; what "and" joins is a span only after "between"."""
_AND = ("and", "y")
MOST_HOUR = 12
BEFORE = frozenset(["before", "by", "until", "til", "till", "antes", "hasta"])
"""Words before a time that make it the latest."""

AFTER = frozenset(["after", "past", "desde", "despues", "from", "partir"])
"""Words before a time that make it the earliest."""
_ONWARDS = frozenset(["on", "onward", "onwards", "forward", "plus", "adelante"])

_UNITS = frozenset((
    "minutes", "minute", "mins", "min", "hours", "hour", "hrs", "hr", "days", "day", "years", "year", "yrs",
    "weeks", "week", "months", "month", "times", "degrees", "loads", "cycles", "seconds", "minutos", "horas",
    "hora", "dias", "anos", "semanas", "meses", "veces", "grados", "ciclos", "percent", "old", "ft", "feet",
    "inches", "lbs", "rounds", "sec", "secs", "seg", "segs", "segundos", "segundo",
    "tries", "runs", "people", "vueltas", "cargas", "intentos", "kg", "percent", "pct",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class ExactTime:
    """A time with minutes, where it stands in the text, and whether it is the latest rather than the earliest."""

    at: time
    until: bool
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Hours:
    """From one time to another, and where that stands in the text."""

    start: time
    end: time
    first: int
    last: int


def is_clock(form: str) -> bool:
    """Whether a word is a bare hour: 3, 3pm."""
    return _CLOCK.match(form) is not None


_NOON = frozenset(("noon", "mediodia", "midday"))
HOURS = frozenset(_NUMBERS) | _NOON
"""The words that can be an hour."""


def may_be_hour(form: str) -> bool:
    """Whether a word can be an hour at all: one that begins with a figure, a number's name or noon."""
    return form[0].isdigit() or form in HOURS


def hour_at(words: Sequence[Word], at: int) -> tuple[time, bool] | None:
    """The time of day at a word, and whether it was marked as one. 1 to 6 without a mark are afternoons."""
    form = words[at].form
    if form in _NOON:
        return time(12), True
    match = _CLOCK.match(form)
    if match is None and _form(words, at - 1) in BEFORE | AFTER and (run := _RUN_ON.match(form)):
        return time(_day_hour(int(run.group(1)), run.group(3)), int(run.group(2))), True
    number = int(match.group(1)) if match else _NUMBERS.get(form)
    if number is None or not 0 < number <= 12 or (_form(words, at + 1) in _UNITS):
        return None
    if match and match.group(2) in ("a", "p") and _form(words, at - 1) not in _BEFORE_HOUR:
        return None
    after = _form(words, at + 1)
    mark = (match.group(2) if match else None) or (after if after in ("am", "pm") else None)
    if after in ("de", "en") and _form(words, at + 3) in ("tarde", "noche"):
        mark = "pm"
    if mark is None and after == "p":
        mark = "pm"
    return time(_day_hour(number, mark)), mark is not None


_BEFORE_HOUR = (
    BEFORE
    | AFTER
    | DAYS.keys()
    | {"at", "around", "about", "to", "las", "la", "today", "tomorrow", "tmrw", "tmr", "hoy", "manana"}
)
"""Behind these "6a" is an hour, and no flat."""
_AWAY = frozenset((
    "puedo", "podemos", "estoy", "estamos", "estare", "voy", "vamos", "a", "poder", "estar", "llego", "llegamos", "salgo",
    "home", "be", "here", "there", "available", "able", "to", "make", "it", "do", "get", "off", "come", "free", "sino",
    "vengan", "venga", "manden", "mande", "pasen", "lleguen", "send", "anybody", "anyone", "nobody", "nadie",
))  # fmt: skip
"""What may stand between a negation and the hour before which nobody is there."""


def is_negated(words: Sequence[Word], at: int) -> bool:
    """“not before 2”, “no puedo antes de las 2”: the earliest, not the latest."""
    while at > 0 and words[at - 1].form in _AWAY and not words[at].brk:
        at -= 1
    return at > 0 and (words[at - 1].form in ("no", "not") or words[at - 1].en == "not")


def says_onwards(words: Sequence[Word], at: int) -> bool:
    """“from 2 on”, “2 pm or later”, “de las 2 en adelante”."""
    after = [word.form for word in words[at + 1 : at + 5]]
    while after and after[0] in ("pm", "am", "p", "m", "oclock", "and", "y", "en", "de", "la", "tarde"):
        after = after[1:]
    if after[:1] and after[0] in ("or", "o"):
        return after[1:2] != [] and after[1] in ("later", "after", "mas", "despues")
    return after[:1] != [] and (after[0] in _ONWARDS or after[0] in ("later", "after"))


def exact_time(folded: str) -> ExactTime | None:
    """The first time with minutes in *folded* (lower case); None when there is none."""
    clock = _CLOCK_MINUTES.search(folded)
    if clock is None or not 0 < int(clock.group(1)) <= 12 or int(clock.group(2)) >= 60:
        return None
    before = re.findall(r"[a-z]+", folded[: clock.start()])[-3:]
    mark = (clock.group(3) or "").replace(".", "") or None
    at = time(_day_hour(int(clock.group(1)), mark), int(clock.group(2)))
    return ExactTime(at, bool(BEFORE & set(before)), clock.start(), clock.end())


def hours_between(folded: str) -> Hours | None:
    """“10-12”, “1 to 3pm”, “entre las 2 y las 4” in *folded* (lower case); None when there is none."""
    if (noon := _noon_span(folded)) is not None:
        return noon
    match = _SPAN.search(folded)
    if match is None and (told := _SPAN_IN_WORDS.search(folded)):
        first, last = (_NUMBERS.get(word) or int(word) for word in told.groups())
        if 0 < last <= MOST_HOUR and 0 < first <= MOST_HOUR:
            return Hours(time(_day_hour(first, None)), time(_day_hour(last, None)), told.start(), told.end())
    if match is None or not _in_hours(match):
        return None
    first, last, mark = int(match.group(1)), int(match.group(4)), match.group(6)
    shared = mark and first <= last and first != 12 and not (mark == "pm" and first >= 7 > last)
    start = time(_day_hour(first, match.group(3) or (mark if shared else None)), int(match.group(2) or 0))
    return Hours(start, time(_day_hour(last, mark), int(match.group(5) or 0)), match.start(), match.end())


def _noon_span(folded: str) -> Hours | None:
    """“10 to noon”, “noon to 3”: a span of which one end is noon."""
    if not any(said in folded for said in _NOON):
        return None
    to_noon = _TO_NOON.search(folded)
    match = to_noon or _FROM_NOON.search(folded)
    if match is None or (match.group("join") in _AND and not match.group("both")):
        return None
    hour = _NUMBERS.get(match.group("hour")) or int(match.group("hour"))
    noon = time(MOST_HOUR)
    if to_noon is None:
        end = time(_day_hour(hour, None))
        return Hours(noon, end, match.start(), match.end()) if end > noon else None
    start = time(_day_hour(hour, None), int(match.group("minute") or 0))
    return Hours(start, noon, match.start(), match.end()) if start < noon else None


def _form(words: Sequence[Word], at: int) -> str:
    return words[at].form if 0 <= at < len(words) else ""


def _day_hour(number: int, mark: str | None) -> int:
    if mark and mark.startswith("p"):
        return number % 12 + 12
    if mark and mark.startswith("a"):
        return number % 12
    return number + 12 if number <= 6 else number


def _in_hours(match: re.Match[str]) -> bool:
    return (
        0 < int(match.group(1)) <= 12
        and 0 < int(match.group(4)) <= 12
        and int(match.group(2) or 0) < 60
        and int(match.group(5) or 0) < 60
    )
