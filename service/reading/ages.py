"""How old an appliance is and since when it fails, in the many forms people state it."""

from __future__ import annotations

import re

_WORDS = {
    "a": 1, "an": 1, "one": 1, "un": 1, "una": 1, "uno": 1, "two": 2, "couple": 2, "dos": 2, "par": 2, "three": 3, "few": 3, "tres": 3, "four": 4,
    "cuatro": 4, "five": 5, "cinco": 5, "six": 6, "seis": 6, "seven": 7, "siete": 7, "eight": 8, "ocho": 8, "nine": 9, "nueve": 9, "ten": 10,
    "diez": 10, "eleven": 11, "once": 11, "twelve": 12, "doce": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "quince": 15, "sixteen": 16,
    "eighteen": 18, "twenty": 20, "veinte": 20, "thirty": 30, "treinta": 30,
}  # fmt: skip
_COUNT = r"(?P<count>\d{1,2}(?:[.,]5)?|" + "|".join(sorted(_WORDS, key=len, reverse=True)) + r")"
_HALF = r"(?P<half> and a half| y medio| y media)?"
_UNIT = r"(?P<unit>years?|yrs?|yr|anos?|months?|mos?|mo|meses|mes|weeks?|wks?|semanas?)"
_RANGE = r"(?:\s*(?:-|to|or|a|o)\s*\d{1,2})?"
_AGE = re.compile(
    rf"(?:(?P<got>bought|purchased|got|installed|replaced|had|have|own|owned|compr\w+|instal\w+|tiene|tenemos|tengo|tendra|de|hace|is|its|it's|old|about|around|almost|como|unos|casi)\s+"
    rf"(?:\w+\s+){{0,4}}?)?\b{_COUNT}{_RANGE}{_HALF}(?:\s+(?:or so|of|de))?[\s-]*{_UNIT}(?P<old>[\s-]*(?:old|de (?:uso|viejo|vieja|antiguedad)|ago|already|now))?"
)
_YEAR = re.compile(
    r"\b(?:bought|purchased|got|installed|made|built|manufactured|new|from|since|its a|it's a|it is a|model year|compr\w+|instal\w+|es|del|de|nuev[oa]|fabricad[oa])"
    r"(?:\s+(?:it|one|them|this|that|new|used|back|around|about|in|the|year|lo|la|en|el|del|ano|como|por|mi|model|modelo)){0,5}\s+((?:19|20)\d\d)\b"
)
_NEW = re.compile(
    r"\b(?:brand new|just (?:bought|got|purchased) (?:it|this)|bought (?:it|this) new (?:this|last) (?:week|month)|(?:esta|es) (?:casi )?nuev[oa]|recien (?:lo|la) compr\w+|"
    r"less than a year old|under a year old|not even a year old|menos de un ano)\b"
)
_PERSON = re.compile(
    r"^[\s-]*(?:old\s+)?(?:son|daughter|kid|boy|girl|baby|child|toddler|house|home|grand\w+|dog|cat|mother|mom|dad|hij[oa]|nin[oa]|casa|warranty|garantia)\b"
)
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
        if _PERSON.match(folded[match.end("unit") :]) or not _states_age(match, folded, asked=asked):
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


def _states_age(match: re.Match[str], folded: str, *, asked: bool) -> bool:
    unit = match.group("unit")
    old = (match.group("old") or "").strip(" -")
    years = unit[0] in "ya"
    before = folded[max(0, match.start() - 30) : match.start("count")]
    if old.startswith("old") or old.startswith("de ") or (asked and years):
        return True
    if old == "ago":
        return bool(re.search(r"\b(?:bought|purchased|got it|got this|installed|replaced|new)\b", before))
    if years and unit.startswith("ano"):
        return (
            bool(_ES_AGE.search(before) or _TRUE_AGE_BEFORE.search(before))
            and "hace" not in before
            or "compr" in before
        )
    if (
        re.search(r"\b(?:had|have|own|owned|owning)\b(?! (?:this|the|that|a) (?:problem|issue|leak|noise))", before)
        and "lived" not in before
    ):
        return years or not re.search(r"\bfor\b", before)
    if asked:
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


_N = r"(?:an?|one|two|three|four|five|six|seven|eight|nine|ten|couple|few|several|\d{1,2}|un|una|unos|unas|dos|tres|cuatro|cinco|seis|varios|varias|par de)"
_DAY = r"(?:mon|tues|wednes|thurs|fri|satur|sun)day|lunes|martes|miercoles|jueves|viernes|sabado|domingo"
_MONTH = r"january|february|march|april|may|june|july|august|september|october|november|december|enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre"
_WHEN_EN = (
    rf"(?:yesterday(?: (?:morning|afternoon|evening))?|last (?:night|week|weekend|month|year|summer|winter|spring|fall|{_DAY})|this (?:morning|afternoon|week|weekend|evening)|"
    rf"(?:the |this |last )?(?:weekend|holidays|christmas|thanksgiving)|(?:about |like |almost |over )?(?:a )?{_N}(?: of)? (?:hours?|days?|weeks?|wks?|months?|years?|yrs?) ago|the other day|(?:on )?(?:{_DAY})|today|{_MONTH})"
)
_WHEN_ES = (
    rf"(?:ayer|anoche|antier|anteayer|hoy|esta manana|esta tarde|(?:la semana|el mes|el ano|el fin de semana|el {_DAY}) pasad[oa]|el (?:{_DAY})|(?:el )?fin de semana|"
    rf"hace (?:como |mas de |casi )?(?:{_N} (?:horas?|dias?|semanas?|meses|mes|anos?|rato)|rato|poco|mucho)|(?:{_MONTH}))"
)
_SINCE = (
    re.compile(rf"\bsince {_WHEN_EN}"),
    re.compile(rf"\bdesde {_WHEN_ES}"),
    re.compile(r"\bfor (?:the (?:last|past) |about |like |almost |over |at least )*(?:a )?(?:" + _N + r"(?: of)? (?:days?|weeks?|wks?|months?)|a while(?: now)?|years|months|weeks|days)\b"),
    re.compile(rf"\b(?:started|began|start|noticed|happened|stopped|quit|died|went out|broke|failed|acting up)\b[^.!?\n]{{0,45}}?\b(?P<when>{_WHEN_EN})"),
    re.compile(rf"\b(?:empez\w+|comenz\w+|dej\w+|par\w+|se (?:descompuso|dano|apago|murio)|fallo|paso|note)\b[^.!?\n]{{0,45}}?\b(?P<when>{_WHEN_ES})"),
    re.compile(rf"(?P<when>\b(?:yesterday|last night|this morning|(?:a )?{_N}(?: of)? (?:days?|weeks?|months?) ago)\b)"),
    re.compile(rf"(?P<when>\b(?:ayer|anoche|la semana pasada|hace (?:como |mas de |casi )?{_N} (?:horas?|dias?|semanas?|meses|mes))\b)"),
)  # fmt: skip
_OLD_NEWS = re.compile(
    r"(?:bought|purchased|compr\w+|called|texted|came|fixed|repaired|visit\w*|installed|years? ago|vino|vinieron|llam\w+|llevo esperando)[^.!?\n]{0,25}$"
)


def since_when(text: str, folded: str) -> str | None:
    """When the trouble began, in the customer's words; None when not stated."""
    for pattern in _SINCE:
        for match in pattern.finditer(folded):
            if _OLD_NEWS.search(folded[: match.start()]):
                continue
            group = "when" if "when" in pattern.groupindex else 0
            return text[match.start(group) : match.end(group)].strip()
    return None
