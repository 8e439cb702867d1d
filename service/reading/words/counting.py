"""Numbers as people write them, in figures and in words, in both languages."""

from __future__ import annotations

_SMALL = {
    word: number
    for number, words in (
        (1, "a an one un una uno"), (2, "two couple dos par"), (3, "three few tres"), (4, "four cuatro"), (5, "five cinco"),
        (6, "six seis"), (7, "seven siete"), (8, "eight ocho"), (9, "nine nueve"), (10, "ten diez"), (11, "eleven once"),
        (12, "twelve doce dozen docena"), (13, "thirteen trece"), (14, "fourteen catorce"), (15, "fifteen quince"),
        (16, "sixteen dieciseis"), (17, "seventeen diecisiete"), (18, "eighteen dieciocho"), (19, "nineteen diecinueve"),
        (21, "veintiun veintiuno"), (22, "veintidos"), (23, "veintitres"), (24, "veinticuatro"), (25, "veinticinco"),
    )
    for word in words.split()
}  # fmt: skip
_TENS = {
    word: number
    for number, words in ((20, "twenty veinte"), (30, "thirty treinta"), (40, "forty fourty cuarenta"), (50, "fifty cincuenta"))
    for word in words.split()
}  # fmt: skip
_UNITS = "one|two|three|four|five|six|seven|eight|nine|uno|un|dos|tres|cuatro|cinco|seis|siete|ocho|nueve"

COUNT = (
    r"(?:\d{1,2}(?:[.,]5)?|(?:" + "|".join(_TENS) + rf")(?:(?:[ -]| y )(?:{_UNITS}))?\b|"
    r"(?:" + "|".join(sorted(_SMALL, key=len, reverse=True)) + r")\b)"
)
"""A pattern of one number up to ninety-nine, the half behind a point with it."""

ARTICLES = frozenset(("a", "an", "un", "una", "uno", "one"))
"""Numbers that are mostly no number where nothing is counted."""


def number(written: str) -> float | int:
    """What *written*, a text that ``COUNT`` matches, comes to."""
    if written[0].isdigit():
        return int(written) if written.isdigit() else float(written.replace(",", "."))
    if written in _SMALL:
        return _SMALL[written]
    ten, *unit = (part for part in written.replace("-", " ").split() if part != "y")
    return _TENS[ten] + (_SMALL[unit[0]] if unit else 0)


_TEENS = "ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
YEAR = (
    r"(?:(?:19|20)\d\d|(?<=\s)['’]\d\d|nineteen (?:seventy|eighty|ninety)(?:[ -](?:" + _UNITS + r"))?|"
    rf"two thousand(?: and)?(?: (?:{_TEENS}|twenty|{_UNITS}))?(?:[ -](?:{_UNITS}))?|twenty (?:{_TEENS}|"
    rf"twenty(?:[ -](?:{_UNITS}))?))"
)
"""A pattern of one year of purchase: “2019”, “'09”, “nineteen eighty nine”, “two thousand twelve”."""
_DECADES = {"seventy": 70, "eighty": 80, "ninety": 90}


def year_of(written: str, this_year: int) -> int:
    """The year that *written*, a text that ``YEAR`` matches, tells, none behind *this_year* where its century is left out."""
    if written.isdigit():
        return int(written)
    if written[0] in "'’":
        short = int(written[1:])
        return 2000 + short if 2000 + short <= this_year else 1900 + short
    century, *rest = written.replace("-", " ").replace("two thousand", "thousand").replace(" and ", " ").split()
    told = sum(_DECADES.get(part) or number(part) for part in rest)
    return int((1900 if century == "nineteen" else 2000) + told)
