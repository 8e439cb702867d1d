"""How old an appliance is and since when it fails, in the many forms people state it."""

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


_N = (
    r"(?:an?|one|two|three|four|five|six|seven|eight|nine|ten|couple|few|several|\d{1,2}|un|una|unos|unas|dos|"
    r"tres|cuatro|cinco|seis|varios|varias|par de)"
)
_DAY = r"(?:mon|tues|wednes|thurs|fri|satur|sun)day|lunes|martes|miercoles|jueves|viernes|sabado|domingo"
_MONTH = (
    r"january|february|march|april|may|june|july|august|september|october|november|december|enero|febrero|marzo|"
    r"abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre"
)
_WHEN_EN = (
    rf"(?:yesterday(?: (?:morning|afternoon|evening))?|last (?:night|nite|week|weekend|month|year|summer|winter|"
    rf"spring|fall|{_DAY})|this (?:morning|afternoon|week|weekend|evening)|"
    rf"(?:the |this |last )?(?:weekend|holidays|christmas|thanksgiving)|(?:about |like |almost |over )?(?:a "
    rf")?{_N}(?: of)? (?:hours?|days?|weeks?|wks?|months?|years?|yrs?) ago|the other day|(?:on )?(?:{_DAY})|"
    rf"today|easter|halloween|new years?|{_MONTH})"
)
_WHEN_ES = (
    rf"(?:ayer|anoche|antier|anteayer|hoy|esta manana|esta tarde|(?:la semana|el mes|el ano|el fin de semana|"
    rf"el {_DAY}) pasad[oa]|el (?:{_DAY})|(?:el )?fin de semana|"
    rf"hace (?:como |mas de |casi )?(?:{_N} (?:horas?|dias?|semanas?|meses|mes|anos?|rato)|rato|poco|mucho)|"
    rf"(?:{_MONTH}))"
)
_ABOUT = r"(?:about|like|around|maybe|probably)"
_EVENT_EN = (
    r"(?:the|that|our) (?:move|storm|freeze|outage|power (?:outage|cut|surge)|remodel|repair|flood)\b|"
    r"(?:we|they|he|she|i|my \w+|the \w+) (?:\w+ed|put|got|came|had|took|did|bought|left|went|broke|fell|hit|ran|began)\b"
    r"(?: (?:it|them|that|this|the \w+|a \w+))?(?: (?:in|up|out|here|back))?"
)
_EVENT_ES = (
    r"(?:que|q) (?:(?:la|lo|los|las|nos|me|se|le|ya) )*\w+(?:amos|imos|aron|ieron)\b|"
    r"(?:que|q) (?:prendi|puse|movi|compre|cambie)\b|"
    r"(?:ahi|entonces|ese dia)\b|el apagon(?: del? \w+)?"
)
"""Something that happened, told after "since"."""
_SINCE = (
    re.compile(rf"\bsince (?:{_ABOUT} )?(?:day one\b|then\b|the (?:start|beginning)\b|"
        rf"{_N}(?: of)? (?:days?|weeks?|months?)\b|{_WHEN_EN}|{_EVENT_EN})"),
    re.compile(rf"\b(?:desde (?:como )?(?:{_WHEN_ES}|{_EVENT_ES})|de un[oa]s (?:dias|semanas) para (?:aca|ca))"),
    re.compile(
        rf"\bfor (?:the (?:last|past) |about |like |almost |over |at least )*(?:a )?"
        rf"(?:{_N}(?: of)? (?:days?|weeks?|wks?|months?)|a while(?: now)?|years|months|weeks|days|\d+ ?h(?:rs?|ours?)?)\b"
    ),
    re.compile(rf"(?P<when>\b(?:been|going on) (?:like |about |almost |over )?{_N}(?: of)? (?:days?|weeks?|wks?|months?))\b"),
    re.compile(
        rf"(?P<when>\b(?:ya )?(?:tiene|lleva|va para|hace) (?:ya )?(?:como |casi |mas de )?{_N} "
        rf"(?:dias?|semanas?|mes|meses|rato)) (?:asi|que|sin|con|haciendo|tirando)\b"
    ),
    re.compile(r"(?P<when>\b(?:prior to|before|after) the \d{1,2}(?:st|nd|rd|th))\b"),
    re.compile(
        rf"\b(?:started|began|start|noticed|happened|stopped|quit|died|went out|broke|failed|acting "
        rf"up)\b[^.!?\n]{{0,45}}?\b(?P<when>{_WHEN_EN})"),
    re.compile(
        rf"\b(?:empez\w+|comenz\w+|dej\w+|paro|se paro|se (?:descompuso|dano|apago|murio)|fallo|paso|"
        rf"note)\b[^.!?\n]{{0,45}}?\b(?P<when>{_WHEN_ES})"),
    re.compile(rf"(?P<when>\b(?:yesterday|last (?:night|nite)|this morning|"
        rf"(?:a )?{_N}(?: of)? (?:days?|weeks?|months?) ago)\b)"),
    re.compile(
        rf"(?P<when>\b(?:ayer|anoche|la semana pasada|hace (?:como |mas de |casi )?{_N} (?:horas?|dias?|semanas?|"
        rf"meses|mes))\b)"),
)  # fmt: skip
_SIGNS = (
    ("since ",), ("desde ", " para "), ("for ",), ("been ", "going on "), (" asi", " que", " sin", " con", "endo", "ando"),
    (" the ",),
    ("start", "began", "notice", "happen", "stopped", "quit", "died", "went out", "broke", "failed", "acting up"),
    ("empez", "comenz", "dej", "paro", "se descomp", "se dano", "se apago", "se murio", "fallo", "paso", "note"),
    ("yesterday", "last ni", "this morning", " ago"), ("ayer", "anoche", "la semana pasada", "hace "),
)  # fmt: skip
"""For each pattern of ``_SINCE`` what must stand in a text for it to be found: quickly told."""

_OLD_NEWS = re.compile(
    r"(?:bought|purchased|compr\w+|called|texted|came|update from|defrosted|cleaned|replaced|swapped|"
    r"fixed|repaired|visit\w*|installed|years? ago|vino|"
    r"vinieron|llam\w+|llevo esperando)[^.!?\n]{0,25}$"
)


def since_when(text: str, folded: str) -> str | None:
    """When the trouble began, in the customer's words; None when not stated."""
    for pattern, signs in zip(_SINCE, _SIGNS, strict=True):
        if not any(sign in folded for sign in signs):
            continue
        for match in pattern.finditer(folded):
            if _OLD_NEWS.search(folded[: match.start()]):
                continue
            group = "when" if "when" in pattern.groupindex else 0
            return text[match.start(group) : match.end(group)].strip()
    return None
