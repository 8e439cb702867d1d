"""Dates in a wish: 12/3, december 3rd, the 14th."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from service.reading.times.day_words import form_at
from service.reading.times.days import DAYS, MONTHS
from service.reading.words.normalising import Word

_SLASHED = re.compile(r"(?<![\d/])(1[0-2]|0?[1-9])/(3[01]|[12]\d|0?[1-9])(?![\d/])")
_SIZES = ("2", "3", "4", "8", "16")
"""Below the line these make a fraction of what is smaller: 3/8 thick, 1/2 hp, 2/3 full."""
_MARKS = ("10", "5")
"""Of so many points a mark is given: 10/10, 4/5."""
_SUITS = re.compile(
    r"\s*(?:works?|is|at|or|please|pls|if|in the|around|after|before|between|me|si|a las|por|en la|would)\b"
)
_MEASURE = re.compile(
    r"\s*(?:\"|''|inch|in\b|hp|full|cup|of\b|way|the way|thick|turn|an?\b|load|tank|pulgada|de\b|horse)"
)
_DATED = re.compile(
    r"\b(?:on|el|the|for|by|come|venir|before|after|until|til|from|to|dia|"
    r"para|antes del|[a-z]+day|mon|tues?|wed|thu(?:rs)?|fri|sat|"
    r"sun)\s+$"
)
_LIKENED = frozenset(("like", "looks", "parece", "tiny", "little", "doing", "como"))
"""“like the 4th of july”: what it looks like."""
_NTH = re.compile(r"^([4-9]|1\d|2\d|3[01])(?:st|nd|rd|th)$")
"""The first three are as well the place of an offer."""
_FIRST_DAYS = re.compile(r"^([1-3])(?:st|nd|rd)$")
_BOUNDS = frozenset(("after", "before", "until", "til", "till", "by"))
_BEFORE_NTH = frozenset((
    "the", "on", "to", "for", "by", "or", "and", "after", "before", "until", "til", "till", "about", "maybe", "",
)) | DAYS.keys()  # fmt: skip
_BEHIND_NTH = frozenset((
    "or", "and", "works", "work", "is", "please", "at", "after", "before", "in", "if", "instead", "would", "around", "either",
    "morning", "afternoon", "evening", "anytime", "any", "but", "not", "to", "thru", "through", "thanks", "good", "fine", "am",
    "pm", "between", "when", "please", "then", "cant", "wont", "doesnt",
)) | MONTHS.keys()  # fmt: skip
_BEFORE_ES = (
    frozenset(("ser", "sea", "para", "mejor", "hasta", "vengan", "venga", "pasar", "cambiar", "mover")) | DAYS.keys()
)
_BEHIND_ES = frozenset(
    ("por", "en", "a", "o", "y", "si", "despues", "antes", "esta", "me", "porfa", "gracias", "mejor")
)
MONTHS_A_YEAR, MONTH_DAYS = 12, 31


class Dated(NamedTuple):
    """A date, and the signs of the text it stands in."""

    month: int
    day: int
    start: int
    end: int


def slashed(folded: str) -> Iterator[Dated]:
    """Dates in figures; "3/8 thick" and "1/2 hp" are none, unless a word before them makes them one."""
    for found in _SLASHED.finditer(folded):
        month, day = int(found.group(1)), int(found.group(2))
        fraction = found.group(2) in _SIZES and month < day
        alone = not (folded[: found.start()] + folded[found.end() :]).strip(" .,!?")
        mark = found.group(2) in _MARKS and month <= day and not alone and not _DATED.search(folded[: found.start()])
        if mark and not _SUITS.match(folded[found.end() :]):
            continue  # "10/10 would recommend"
        if fraction and _MEASURE.match(folded[found.end() :]):
            continue
        if not fraction or alone or _DATED.search(folded[: found.start()]):
            yield Dated(month, day, found.start(), found.end())


def of_month(words: Sequence[Word], at: int) -> tuple[int, int, int] | None:
    """The day told with the month named at *at*, and the first and last word of the date."""
    for near in (at + 1, at - 1, at - 2):
        digits = re.sub(r"(st|nd|rd|th)$", "", form_at(words, near))
        likened = any(word.form in _LIKENED for word in words[max(0, min(near, at) - 4) : at])
        if (
            not likened
            and digits.isdigit()
            and 1 <= int(digits) <= 31
            and (near != at - 2 or form_at(words, at - 1) in ("de", "of"))
        ):
            return int(digits), min(near, at), max(near, at)
    return None


def day_of_month(words: Sequence[Word], at: int) -> int | None:
    """“move it to the 14th”: the day of a month that is not named; no 5th time and no 12th street."""
    if _is_spanish_date(words, at):
        return int(words[at].form)
    found = _NTH.match(words[at].form) or (form_at(words, at - 2) in _BOUNDS and _FIRST_DAYS.match(words[at].form))
    if not found or form_at(words, at - 1) not in _BEFORE_NTH:
        return None
    last = at + 1 >= len(words) or words[at + 1].brk > 0
    if not (last or words[at + 1].form in _BEHIND_NTH) or MONTHS.keys() & {
        form_at(words, at + 1),
        form_at(words, at - 1),
    }:
        return None
    return int(found.group(1))


_HOLIDAY = re.compile(
    r"\b(?:before|after|until|till?|by|antes de|despues de|hasta|pasando|pasado)\s+(?:(?:the|la|las|el|los)\s+)?"
    r"(?:holidays?|christmas|xmas|thanksgiving|easter|new years?|navidad|fiestas|semana santa|ano nuevo|winter|payday|"
    r"quincena)\b"
)


def _is_spanish_date(words: Sequence[Word], at: int) -> bool:
    """“puede ser el 15”, “el dia 15”, without its month."""
    form, before = words[at].form, form_at(words, at - 1)
    if not form.isdigit() or len(form) > 2 or not 1 <= int(form) <= MONTH_DAYS or form_at(words, at + 2) in MONTHS:
        return False
    lone = at + 1 >= len(words) or words[at + 1].brk > 0 or words[at + 1].form in _BEHIND_ES
    opens = at >= 1 and (at == 1 or words[at - 1].brk > 0) and int(form) > _MOST_CHOICES
    led_to = opens or form_at(words, at - 2) in _BEFORE_ES
    return lone and (before == "dia" or (before in ("el", "al") and led_to))


_MOST_CHOICES = 9
"""A text that opens with “el 3” may take the third of what was offered; “el 15 en la tarde” does not."""


def holiday(folded: str) -> tuple[int, int] | None:
    """Where "after the holidays", "antes de navidad" stands: a bound that only a person can lay on the calendar."""
    found = _HOLIDAY.search(folded)
    return found.span() if found else None
