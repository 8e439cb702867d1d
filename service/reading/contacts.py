"""
Who and where: phone, e-mail, ZIP, street address, name. Nothing is taken for one that only looks a little like it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection

import phonenumbers

_EMAIL = re.compile(r"\b[a-z0-9][a-z0-9._%+\-]*@[a-z0-9][a-z0-9.\-]*\.[a-z]{2,}\b")
_ZIP = re.compile(r"(?<![\d\-#$.])(\d{5})(?:-\d{4})?(?![\d\-])")
_ZIP_FIRST = re.compile(r"^\s*(?:zip\s*)?\d{5}\s*[,;.]?\s+(?=\d)")
"""A ZIP code told before the street: “87112, 11200 Lomas ne”."""
_ZIP_BEFORE = re.compile(
    r"(?:\bzip(?: ?code)?\b|\bcodigo postal\b|\bc\.?p\.?\b|\bpostal\b|\bnm\b|\bnew mexico\b|\balbuquerque\b|"
    r"\babq\b)[^0-9]{0,14}$"
)
_TYPES = (
    r"(?:st|street|str|ave|avenue|av|rd|road|dr|drive|ln|lane|blvd|boulevard|ct|court|pl|place|way|cir|circle|"
    r"ter|terrace|trl|trail|pkwy|parkway|hwy|highway|loop|sq|square|calle|avenida|camino|paseo|plaza|vista|via)"
)
_STREET = re.compile(
    rf"(?<![\d$#])\b(\d{{1,6}}\s+(?:(?:n|s|e|w|ne|nw|se|sw|north|south|east|west)\.?\s+)?"
    rf"(?:(?:[a-z][a-z'.]*|\d+(?:st|nd|rd|th))\s+){{1,4}}?{_TYPES}\b\.?(?:\s+(?:n|s|e|w|ne|nw|se|sw)\b\.?)?"
    rf"(?:,?\s*(?:apt|unit|#|ste|suite|apartment|depto|departamento|apartamento|lot|space|spc)\.?\s*#?\s*[a-z0-9\-]+)?)"
)
_CALLE = re.compile(
    r"\b(\d{1,6}\s+(?:de la |de )?(?:calle|avenida|camino|paseo|via)\s+(?:[a-z][a-z'.]*\s*){1,4}|(?:calle|"
    r"avenida|av|camino|paseo)\s+(?:[a-z][a-z'.]*\s+){1,4}(?:#|numero |no\.? )?\d{1,6}(?:,?\s*(?:depto|apt|"
    r"apartamento|unidad|#)\.?\s*[a-z0-9\-]+)?)"
)
_QUADRANT = re.compile(
    r"(?<![\d$#])\b(\d{2,6}\s+(?:[A-Z][A-Za-z'.]*\s+){1,3}(?:NE|NW|SE|SW)\b\.?"
    r"(?:,?\s*(?:[Aa][Pp][Tt]|[Uu][Nn][Ii][Tt]|[Ss][Tt][Ee]|[Dd][Ee][Pp][Tt][Oo]|#)\.?\s*#?\s*\w+)?)(?=\s*(?:[,.;\n]|$))"
)
"""A street without its type, told by the quarter of the town in capitals: “501 Girard SE apt 12”."""
_UNIT_WORDS = re.compile(
    r"^\d+\s+(?:min|minute|hour|hr|day|week|month|year|yr|time|load|cycle|people|old|degree|minuto|hora|dia|"
    r"semana|mes|meses|ano|vez|veces|"
    r"of|or|to|and|in|on|at)s?\b"
)
_NAME_INTRO = re.compile(
    r"\b(?:my name is|my name's|name is|name's|the name is|mi nombre es|me llamo|se llama|this is|it's|its|it is|i am|"
    r"i'm|im|soy|habla|le habla|les habla|le escribe|a nombre de|in the name of|"
    r"(?:put|book|schedule) (?:it|me|that|us) under|^under)\s+"
    r"(?:(?:(?:la|el)\s+)?(?:senora|senor|srta|sra|sr|mrs|mr|ms|dona|don|dr)\b\.?\s+)?"
)
_NAME = re.compile(r"[^\W\d_][\w'’\-]*\.?(?: [^\W\d_][\w'’\-]*\.?){0,2}")
_SIGNED = re.compile(
    r"(?:[-–—~]\s*|(?:thanks|thank you|thx|gracias|saludos|regards)[,!.]*\s+)([A-Z][a-zà-ÿ'’]+(?: "
    r"[A-Z][a-zà-ÿ'’]+)?)\s*[.!]*\s*$"
)
_FULL_NAME = re.compile(r"[A-Z][a-zà-ÿ'’]+ [A-Z][a-zà-ÿ'’]+(?:[,.;!]|$| from | y | and | with )")
_LONE_NAME = re.compile(r"[A-ZÁÉÍÓÚÑ][^\W\d_]+(?: [A-ZÁÉÍÓÚÑ]\.?)?(?: [A-ZÁÉÍÓÚÑ][^\W\d_]+){1,2}")

_SURE_INTRO = ("name", "nombre", "under", "llamo", "habla", "escribe")


def phone_number(text: str) -> str | None:
    """Another number to call, in E.164; only numbers that can exist (sources N2, N5)."""
    if sum(map(str.isdigit, text)) < 10:
        return None
    for match in phonenumbers.PhoneNumberMatcher(text[:400], "US"):
        return str(phonenumbers.format_number(match.number, phonenumbers.PhoneNumberFormat.E164))
    return None


def email_address(folded: str) -> str | None:
    """An e-mail address, lower case."""
    match = _EMAIL.search(folded)
    return match.group() if match else None


def postal_code(folded: str, *, asked: bool, alone: bool, area: Collection[str]) -> str | None:
    """A five-digit ZIP code: asked for, all of the text (if *alone*), named as one, after a place, or of the shop's *area*."""
    found = list(_ZIP.finditer(folded))
    for match in found:
        if (
            asked
            or (alone and match.group() == folded.strip())
            or match.group(1) in area
            or _ZIP_BEFORE.search(folded[: match.start()])
        ):
            return match.group(1)
    return found[-1].group(1) if found and _STREET.search(folded) and found[-1].start() > 8 else None


_NO_STREET = re.compile(
    r"\d+\S*\s+(?:is|was|are|works?|good|fine|ok|okay|please|pm|am|or|to|days?|hours?|years?|es|esta|era|me|bien|horas?|dias?|anos?)\b"
)
"""“1 is fine” where the address was asked: an hour, no street."""


def street_address(text: str, folded: str, *, asked: bool) -> str | None:
    """The street address with its unit, as written; without a known street type only when it was asked for."""
    for pattern in (_STREET, _CALLE):
        for match in pattern.finditer(folded):
            if not _UNIT_WORDS.match(match.group(1)):
                return text[match.start(1) : match.end(1)].strip(" ,.")
    quartered = _QUADRANT.search(text)
    if quartered and not _UNIT_WORDS.match(quartered.group(1).lower()):
        return quartered.group(1).strip(" ,.")
    return _tagged(_ZIP_FIRST.sub("", text)) if asked else None


def _tagged(text: str) -> str | None:
    """What usaddress takes for number, street and unit; it must have found a number and a street name."""
    import usaddress

    try:
        parts, _ = usaddress.tag(text)
    except usaddress.RepeatedLabelError:
        return None
    if "AddressNumber" not in parts or "StreetName" not in parts:
        return None
    wanted = ("AddressNumber", "StreetName", "Occupancy", "Subaddress")
    value = " ".join(v for label, v in parts.items() if label.startswith(wanted)).strip(" ,.")
    return None if _UNIT_WORDS.match(value.lower()) or _NO_STREET.match(value.lower()) else value


def person_name(
    text: str,
    folded: str,
    *,
    asked: bool,
    is_word: Callable[[str], bool],
    knows: Callable[[str], bool],
    only_sure: bool = False,
) -> str | None:
    """
    The customer's name. ``is_word`` tells everyday and trade words and their slips, which are no names unless plainly
    introduced; ``knows`` the words alone, for what begins with a capital.
    *only_sure*: none but one introduced as a name ("under Lupe"), or two or three words with capitals that are all of the text.
    """
    for intro in _NAME_INTRO.finditer(folded):
        sure = any(word in intro.group() for word in _SURE_INTRO)
        if (only_sure and not sure) or folded[: intro.start()].endswith(("no ", "not ")):
            continue
        named = sure and "under" not in intro.group()
        rest = text[intro.end() :]
        capital = rest[:1].isupper() and not text.isupper()
        name = _taken(rest, knows if capital else is_word, sure=named or bool(_FULL_NAME.match(rest)))
        if name and (
            sure
            or name[0].isupper()
            or (intro.group().startswith(("this is", "soy", "its", "it's")) and _greeting(folded, intro))
        ):
            return name
    lone = lone_name(text, knows)
    if lone:
        return lone
    if only_sure:
        return None
    signed = _SIGNED.search(text)
    if signed and not is_word(signed.group(1).split()[0].lower()):
        return signed.group(1)
    if asked:
        stripped = re.sub(
            r"^(?:it'?s|its|sure|yes|yeah|ok|hi|hello|hola|si|sí|es|soy)[,.\s]+", "", text.strip(), flags=re.IGNORECASE
        )
        return _taken(stripped, is_word, sure=len(stripped.split()) <= 4)
    return None


def lone_name(text: str, knows: Callable[[str], bool]) -> str | None:
    """*text* if it is nothing but a name: two or three words with capitals, the last of them no word that one *knows*."""
    lone = _LONE_NAME.fullmatch(text.strip(" .,;!"))
    # A first name may be a word, as Dana is without its tilde.
    return lone.group() if lone and not knows(lone.group().split()[-1].lower()) else None


def _greeting(folded: str, intro: re.Match[str]) -> bool:
    before = folded[: intro.start()].strip(" ,.!")
    return before in (
        "",
        "hi",
        "hello",
        "hey",
        "hola",
        "good morning",
        "good afternoon",
        "buenas",
        "buenos dias",
        "buenas tardes",
        "hi there",
        "buenas noches",
    )


_STOP_NAME = frozenset((
    "and", "y", "de", "from", "with", "at", "in", "the", "la", "el", "my", "mi", "on", "for", "again", "here",
    "calling", "texting", "with", "con", "from", "del", "su", "i", "im", "we", "no", "not",
))  # fmt: skip


def _taken(rest: str, is_word: Callable[[str], bool], *, sure: bool) -> str | None:
    match = _NAME.match(rest)
    if not match:
        return None
    kept: list[str] = []
    for position, word in enumerate(match.group().split()):
        bare = word.strip(".,!?").lower()
        if bare in _STOP_NAME or (
            is_word(bare) and not (sure and position == 0 and word[0].isupper()) and not (kept and word[0].isupper())
        ):
            break
        kept.append(word.rstrip(".,!?") if len(word) > 2 else word)
    return " ".join(kept) if kept and len(kept[0]) > 1 else None
