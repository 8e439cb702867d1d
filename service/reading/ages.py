"""How old an appliance is, in the many forms people state it."""

from __future__ import annotations

import re

_WORDS = {
    word: number
    for number, words in (
        (1, "a an one un una uno"), (2, "two couple dos par"), (3, "three few tres"), (4, "four cuatro"), (5, "five cinco"),
        (6, "six seis"), (7, "seven siete"), (8, "eight ocho"), (9, "nine nueve"), (10, "ten diez"), (11, "eleven once"),
        (12, "twelve doce"), (13, "thirteen trece"), (14, "fourteen catorce"), (15, "fifteen quince"), (16, "sixteen"),
        (18, "eighteen"), (20, "twenty veinte"), (30, "thirty treinta"),
    )
    for word in words.split()
}  # fmt: skip
_COUNT = r"(?P<count>\d{1,2}(?:[.,]5)?|" + "|".join(sorted(_WORDS, key=len, reverse=True)) + r")"
_HALF = r"(?P<half> and a half| y medio| y media)?"
_UNIT = r"(?P<unit>years?|yrs?|yr|anos?|months?|mos?|mo|meses|mes|weeks?|wks?|semanas?)"
_RANGE = r"(?:\s*(?:-|to|or|a|o)\s*\d{1,2})?"
_AGE = re.compile(
    rf"(?:(?P<got>bought|purchased|got|installed|replaced|had|have|own|owned|compr\w+|instal\w+|tiene|"
    rf"tenemos|tengo|tendra|de|hace|is|its|it's|old|about|around|almost|como|unos|casi|with (?:me|us)(?: for)?|enough for)\s+"
    rf"(?:\w+\s+){{0,4}}?)?\b{_COUNT}{_RANGE}{_HALF}(?:\s+(?:or so|of|de))?[\s-]*{_UNIT}(?P<old>[\s-]*(?:old|"
    rf"de (?:uso|viejo|vieja|antiguedad)|ago|back|already|now))?"
)
_YEAR = re.compile(
    r"\b(?:bought|purchased|got|installed|made|built|manufactured|new|from|since|its a|it's a|it is a|model "
    r"year|compr\w+|instal\w+|es|del|de|nuev[oa]|fabricad[oa])"
    r"(?:\s+(?:it|one|them|this|that|new|used|back|around|about|in|the|year|lo|la|en|el|del|ano|como|por|mi|"
    r"model|modelo)){0,5}\s+((?:19|20)\d\d)\b"
)
_OTHER_THING = (
    r"(?:carbon|smoke|co|alarm|detector|outlet|hose|filter|pump|belt|part|floor|kitchen|house|home|baby|sink)\b"
)
_NEW = re.compile(
    rf"\b(?:brand new(?! {_OTHER_THING})|"
    r"just (?:bought|got|purchased) (?:it|this)|bought (?:it|this) new (?:this|last) (?:week|"
    r"month)|(?:esta|es) (?:casi )?nuev[oa]|recien (?:lo|la) compr\w+|"
    r"less than a year old|under a year old|not even a year old|menos de un ano)\b"
)
_PERSON = re.compile(
    r"^[\s-]*(?:old\s+)?(?:son|daughter|kid|boy|girl|baby|child|toddler|house|home|grand\w+|dog|cat|mother|"
    r"says|said|swears|thinks|told|touched|put|stuck|broke|leaned|opened|kicked|pulled|shoved|dropped|climbed|poured|pushed|stuffed|jammed|threw|locked|ripped|mom|dad|hij[oa]|nin[oa]|casa|warranty|garantia)\b"
)
_HAS_ONE = re.compile(r"\b(?:have|got|with) an? $")
_SPEAKER = re.compile(
    r"\b(?:yo|i am|i'm|im|mi (?:mama|papa|abuela|abuelo|suegra|esposo|esposa)) (?:ya )?(?:tengo |tiene )?$"
)
"""Whose age a number of years is that follows: the customer's or a relative's."""

_TRUE_AGE_BEFORE = re.compile(
    r"\b(?:bought|purchased|got|installed|replaced|had|have|own|owned|compr\w+|instal\w+|tiene|tenemos|tengo|tendra)\b"
)
_ES_AGE = re.compile(r"\b(?:tiene|tendra|como|unos|casi|ya|de)\b")


def age_in_years(folded: str, *, asked: bool, this_year: int | None) -> float | int | None:
    """
    The age stated in *folded* (lower case, no accents), in years; half years and months as fractions.

    A year of purchase ("bought it in 2019") is an age only when *this_year* is given. *asked*: a bare number is the age.
    """
    if _NEW.search(folded):
        return 0
    for match in _AGE.finditer(folded):
        if (
            _PERSON.match(folded[match.end("unit") :])
            or _SPEAKER.search(folded[: match.start("count")])
            or (_HAS_ONE.search(folded[: match.start("count")]) and _ENDS.match(folded[match.end() :]))
            or not _states_age(match, folded, asked=asked)
        ):
            continue
        return _years(match)
    year = _YEAR.search(folded) or (re.search(r"\b((?:19|20)\d\d)\b", folded) if asked else None)
    if year and this_year and 1970 <= int(year.group(1)) <= this_year:
        return this_year - int(year.group(1))
    if asked:
        bare = re.search(rf"\b{_COUNT}\b(?!\s*(?:am|pm|:))", folded)
        if bare and bare.group("count") not in ("a", "an", "un", "una"):
            return _number(bare.group("count"))
    return None


_APART = re.compile(r"(?:,|\bfrom|\blike|\ba)\s*$")
_ENDS = re.compile(r"\s*(?:[.,;]|$)")
"""What stands about an age told in passing: “Dishwasher, 4 yrs.”, “its a Brindlow from 6 yrs back”."""


def _states_age(match: re.Match[str], folded: str, *, asked: bool) -> bool:
    unit = match.group("unit")
    old = (match.group("old") or "").strip(" -")
    years = unit[0] in "ya"
    before = folded[max(0, match.start() - 30) : match.start("count")]
    if old.startswith(("old", "de ")) or (asked and years):
        return True
    if old in ("ago", "back"):
        return (old == "back" and before.rstrip().endswith("from")) or bool(
            re.search(r"\b(?:bought|purchased|got it|got this|installed|replaced|new)\b", before)
        )
    if years and unit.startswith("ano"):
        return (
            bool(_ES_AGE.search(before) or _TRUE_AGE_BEFORE.search(before)) and "hace" not in before
        ) or "compr" in before
    if (
        re.search(
            r"\b(?:had|have|own|owned|owning|with me|with us)\b(?! (?:this|the|that|a) (?:problem|issue|leak|noise))",
            before,
        )
        and "lived" not in before
    ):
        return years or not re.search(r"\bfor\b", before)
    if asked:
        return True
    if years and (_APART.search(folded[: match.start("count")]) and _ENDS.match(folded[match.end() :])):
        return True
    return (
        years
        and bool(re.search(r"\b(?:is|its|it's|about|around|almost|only|like|maybe)\s*$", before.rstrip() + " "))
        and (not re.search(r"\b(?:for|in|last|past|every|after|lived)\b", before))
    )


def _years(match: re.Match[str]) -> float | int:
    count = _number(match.group("count")) + (0.5 if match.group("half") else 0)
    unit = match.group("unit")
    if unit.startswith("m"):
        count = round(count / 12, 2)
    elif unit[0] in "ws":
        count = round(count / 52, 2)
    return int(count) if count == int(count) else count


def _number(written: str) -> float:
    value = _WORDS.get(written)
    return value if value is not None else (float(written.replace(",", ".")) if not written.isdigit() else int(written))
