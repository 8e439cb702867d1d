"""Since when an appliance fails, in the many forms people state it."""

from __future__ import annotations

import re

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
