"""Streets without a kind, and apartments before the house: “apt 12 at 211 Garrow”, “600 Montuno Apt B”, “Abe 55 Sorano”."""

from __future__ import annotations

import re

from service.reading.details.streets import is_no_street_name

_UNIT_WORD = (
    r"(?:apt|apartment|apto|unit|ste|suite|depto|departamento|apartamento|unidad|interior|int|lot|space|spc|trailer)"
)
_UNIT = (  # a letter stands apart from the word: "into" is no "int o"
    rf"(?:{_UNIT_WORD}\.?(?:\s*#?\s*\d{{1,4}}-?[a-z]?|(?:\s+|\s*#\s*)[a-z]-?\d{{0,3}})|#\s*\d{{1,4}}[a-z]?)\b"
)
_UNIT_AHEAD = re.compile(
    rf"(?:^|[\s,.;])(?P<unit>{_UNIT})(?:\s*[,;]\s*|\s+(?:at|en(?: el| la)?|on|in|de(?: la)?|del)\s+|\s+)(?=\d{{1,5}}\s+[a-z])"
)
_HOUSE = (
    r"(?<![\d$#/.:-])\b\d{2,5}\s+(?:(?:n|s|e|w)\.?\s+)?[a-z][a-z'’.]{2,}(?:\s+[a-z][a-z'’.]{2,})??"
    r"(?:\s+(?:ne|nw|se|sw)\b)?"
)
_WITH_UNIT = re.compile(rf"({_HOUSE}\s*,?\s*{_UNIT})")
_WITH_ZIP = re.compile(
    rf"(?:^|[,.;]\s*|\b(?:at|en|is|es)\s+)({_HOUSE})(?=\s*,?\s+(?:(?:abq|nm|albuquerque)\s*,?\s*)*\d{{5}}\s*[.!]*$)"
)
_ALONE = re.compile(
    r"^\s*(?P<name>[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]{1,14}(?:\s+\d{1,2})?\s*,?\s+)?"
    r"(?P<street>\d{2,5}\s+(?:[NSEW]\.?\s+)?[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]{3,}(?:\s+[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]{2,})?)\s*[.!]*\s*$"
)
_YEAR = re.compile(r"(?:19|20)\d\d\b")


def unit_ahead(folded: str) -> tuple[int, int, int] | None:
    """Where an apartment stands that is told before the house: its start and end, and where the house begins."""
    found = _UNIT_AHEAD.search(folded)
    return (found.start("unit"), found.end("unit"), found.end()) if found else None


def bare_street(text: str, folded: str) -> str | None:
    """A street without its kind that is plainly one: by an apartment or a ZIP code beside it, or alone with its capital."""
    for pattern in (_WITH_UNIT, _WITH_ZIP):
        for found in pattern.finditer(folded):
            if not is_no_street_name(_without_unit(found.group(1))):
                return text[found.start(1) : found.end(1)].strip(" ,.")
    alone = _ALONE.match(text)
    if alone is None or _YEAR.match(alone.group("street")) or is_no_street_name(alone.group("street").lower()):
        return None
    return alone.group("street").strip(" ,.")


def _without_unit(street: str) -> str:
    return re.sub(rf"\s*,?\s*{_UNIT}$", "", street)


_NAME_BEFORE = re.compile(
    r"^\W*(?:(?:its|it's|im|i'm|this is|soy|hi|hola),? )?([A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]{1,14})(?:\s+\d{1,2})?\s*[,:]?\s*$"
)


def name_before(text: str, address: str) -> str | None:
    """The one word with a capital, with an age or not, that is all that stands before the *address*: “Rudy 1818 Calder”."""
    before, found, _ = text.partition(address)
    named = _NAME_BEFORE.match(before) if found else None
    return named.group(1) if named and not _NO_PERSON.match(named.group(1)) else None


_NO_PERSON = re.compile(
    r"(?i:yes|no|ok|okay|sure|yeah|yep|nope|hi|hello|hey|hola|si|sí|at|en|it|its|the|and|address|we|my|is|apt|unit|by|to|near|zip)$"
)
