"""
Where: phone, e-mail, ZIP, street address. Nothing is taken for one that only looks a little like it.
"""

from __future__ import annotations

import re
from collections.abc import Collection

import phonenumbers

from service.reading.details.bare_streets import bare_street, unit_ahead
from service.reading.details.streets import name_then_number, odd_street, spoken_zip
from service.reading.words.letters import has_digit

_EMAIL = re.compile(r"\b[a-z0-9][a-z0-9._%+\-]*@[a-z0-9][a-z0-9.\-]*\.[a-z]{2,}\b")
_ZIP = re.compile(r"(?<![\d\-#$.])(\d{5})(?:-\d{4})?(?![\d\-])")
_ZIP_FIRST = re.compile(r"^\s*(?:zip\s*)?\d{5}\s*[,;.]?\s+(?=\d)")
"""A ZIP code told before the street: “87112, 11200 Lomas ne”."""
_ZIP_BEFORE = re.compile(
    r"(?:\bzip(?: ?code)?\b|\bcodigo postal\b|\bc\.?p\.?\b|\bpostal\b|\bnm\b|\bnew mexico\b|\balbuquerque\b|"
    r"\babq\b)[^0-9]{0,14}$|\b(?:come|out|trip|go|vienen|van|venir|llegan|service|serve|area)\b[^0-9.]{0,16}\b(?:to|in|"
    r"hasta|en|a|for)\s+(?:[a-z]+\s+)?$"
)
_TYPES = (
    r"(?:st|street|str|ave|avenue|av|rd|road|dr|drive|ln|lane|blvd|boulevard|ct|court|pl|place|way|cir|circle|"
    r"ter|terrace|trl|trail|pkwy|parkway|hwy|highway|loop|sq|square|calle|avenida|camino|paseo|plaza|vista|via)"
)
_STREET = re.compile(
    rf"(?<![\d$#])\b(\d{{1,6}}(?:-?[a-d])?\s+(?:(?:n|s|e|w|ne|nw|se|sw|north|south|east|west)\.?\s+)?"
    rf"(?:(?:[a-z][a-z'.]*|\d+(?:st|nd|rd|th))\s+){{1,4}}?{_TYPES}\b\.?(?:\s+{_TYPES}\b\.?)?(?:\s+(?:n|s|e|w|ne|nw|se|sw)\b\.?)?"
    rf"(?:,?\s*(?:apt|unit|#|ste|suite|apartment|depto|departamento|apartamento|lot|space|spc)\.?\s*#?\s*[a-z0-9\-]+)?)"
)
_CALLE = re.compile(
    r"\b(\d{1,6}\s+(?:de la |de )?(?:calle|avenida|camino|paseo|via|callejon|vereda|cerrada|privada|calzada|"
    r"sendero)\s+(?:[a-z][a-z'.]*\s*){1,4}|(?:calle|"
    r"avenida|av|camino|paseo|callejon|vereda|cerrada|privada|calzada|sendero)\s+(?:(?:del?|de los|de las|"
    r"de la)\s+)?(?:[a-z][a-z'.]*\s+|\d{1,3}(?:st|nd|rd|th)?\s+(?=(?:#|numero|num|no)?\.?\s*\d{2})){1,4}?"
    r"(?:#|numero |num\.? |no\.? )?\d{1,6}(?:\s+(?:ne|nw|sw)\b)?(?:,?\s*(?:depto|apt|"
    r"apartamento|unidad|#)\.?\s*[a-z0-9\-]+)?)"
)
_QUADRANT = re.compile(
    r"(?<![\d$#])\b(\d{2,6}(?:-?[A-D])?\s+(?:[A-Z][A-Za-z'.]*\s+){1,3}(?:NE|NW|SE|SW)\b\.?"
    r"(?:,?\s*(?:[Aa][Pp][Tt]|[Uu][Nn][Ii][Tt]|[Ss][Tt][Ee]|[Dd][Ee][Pp][Tt][Oo]|#)\.?\s*#?\s*\w+)?)(?=\s*(?:[,.;\n]|$))"
)
"""A street without its type, told by the quarter of the town in capitals: “501 Garrow SE apt 12”."""
_QUADRANT_SMALL = re.compile(
    r"(?<![\d$#])\b(\d{1,6}\s+(?:[a-z][a-z'.]+\s+){1,3}(?:ne|nw|sw|(?P<se>se))\b\.?)(?P<rest>\s*(?:$|[,;\n]|\d{5}\b|apt\b|"
    r"unit\b|#))"
)
"""The same in small letters, at the end or before what goes with it; "se" alone of all words is Spanish too."""
_UNIT_WORDS = re.compile(
    r"^\d+\s+(?:min|minute|hour|hr|day|week|month|year|yr|time|wheel|load|cycle|people|degree|minuto|hora|dia|"
    r"semana|mes|meses|ano|vez|veces|our|my|your|their|his|her|this|that|"
    r"of|or|to|and|in|on|at)s?\b|.*\b(?:dont|don't|make|me|you|i|is|was|it|then|when|he|she|they|but|with|and|not)\b"
)


def phone_number(text: str) -> str | None:
    """Another number to call, in E.164; only numbers that can exist (sources N2, N5)."""
    if not has_digit(text) or sum(map(str.isdigit, text)) < 10:
        return None
    told: phonenumbers.PhoneNumberMatch | None = None
    for match in phonenumbers.PhoneNumberMatcher(text[:400], "US"):
        if told is None or _RATHER.search(text[told.end : match.start].lower()):
            told = match
    return str(phonenumbers.format_number(told.number, phonenumbers.PhoneNumberFormat.E164)) if told else None


_RATHER = re.compile(
    r"\b(?:no,? (?:wait|espere?|perd[oó]n|sorry|es(?=\s*$))|scratch that|i mean|correction|digo|perd[oó]n|mejor dicho|"
    r"wrong one|not that one|that'?s (?:the|my) old|instead)\b"
)
"""Between two that are told: it is the second."""


def email_address(folded: str) -> str | None:
    """An e-mail address, lower case."""
    match = _EMAIL.search(folded)
    return match.group() if match else None


_TYPED_LETTER = re.compile(r"(?<=\d)[oil](?=\d)")
"""A letter that was typed for a figure: “871o8”."""


_ALONE_INSIDE = re.compile(r"(?:^|[.;\n])\s*$")
_OWN_PIECE = re.compile(r"(?<!model)(?<!serial)(?<!number)(?<!code)[,.;]\s*$")
"""“…, 87121”: five digits that stand by themselves at the end."""


def _regions(area: Collection[str]) -> set[str]:
    """The first three digits of the ZIP codes of *area*."""
    return {zip_code[:3] for zip_code in area}


def postal_code(folded: str, *, asked: bool, alone: bool, area: Collection[str]) -> str | None:
    """A five-digit ZIP code: asked for, all of the text (if *alone*), named as one, after a place, or of the shop's *area*."""
    if asked:
        folded = _TYPED_LETTER.sub(lambda slip: "0" if slip.group() == "o" else "1", folded)
    found = list(_ZIP.finditer(folded))
    for match in found:
        if (
            asked
            or (alone and match.group() == folded.strip())
            or match.group(1) in area
            or (
                match.group(1)[:2] in {region[:2] for region in _regions(area)}
                and _ALONE_INSIDE.search(folded[: match.start()])
                and folded[match.end() : match.end() + 1] in (".", "", "\n", ";")
            )
            or _ZIP_BEFORE.search(folded[: match.start()])
            or (alone and _stands_alone(folded, match, {zip_code[:1] for zip_code in area}))
        ):
            return _rather(folded, match, found)
    spoken = spoken_zip(folded)
    if spoken and (asked or spoken in area or spoken.startswith(tuple(_regions(area)))):
        return spoken
    last = found[-1] if found else None
    if last and alone and _OWN_PIECE.search(folded[: last.start()]) and not folded[last.end() :].strip(" .,;!"):
        return last.group(1)
    return found[-1].group(1) if found and found[-1].start() > 8 and _streets(folded) else None


_OTHER_NUMBER = re.compile(
    r"(?:\b(?:model|modelo|serial|serie|number|numero|num|code|codigo|error|order|orden|ticket|invoice|factura|part|pieza|po|"
    r"confirmation|ref|account|cuenta|btu|miles|millas|paid|pague)\b|[#$/x])[^0-9]{0,12}$"
)
"""Before a number of five digits that is something else."""


def _stands_alone(folded: str, match: re.Match[str], zones: Collection[str]) -> bool:
    """“… cost? 88005.”, “we are in 87048 and monday is best”: of the shop's part of the country, and no house number."""
    before, behind = folded[: match.start()], folded[match.end() :]
    if match.group(1)[0] not in zones or _OTHER_NUMBER.search(before):
        return False
    ends = re.match(r"\s*(?:[.,;!?)]|$|\n)", behind) is not None
    return (ends and not behind.strip(" .,;!?)")[:1].isdigit()) or re.search(
        r"\b(?:in|at|en|por)\s+$", before
    ) is not None


def _rather(folded: str, told: re.Match[str], found: list[re.Match[str]]) -> str:
    """The ZIP code *told*, or a later one of *found* that was said in its stead."""
    later = [zip_code for zip_code in found if _RATHER.search(folded[told.end() : max(told.end(), zip_code.start())])]
    return (later[0] if later else told).group(1)


def _streets(folded: str) -> bool:
    """Whether *folded* tells a street by its kind, in English or Spanish."""
    return (_STREET.search(folded) or _CALLE.search(folded)) is not None


_NO_STREET = re.compile(
    r"\d+\S*\s+(?:is|was|are|works?|good|fine|ok|okay|please|pm|am|or|to|days?|hours?|years?|es|esta|era|me|bien|horas?|"
    r"dias?|anos?)\b"
)
"""“1 is fine” where the address was asked: an hour, no street."""


_NO_WAY = re.compile(
    r"\b(?:no|any|either|half|some|this|that|which|every|one|only|same|other|right|long) way\b|"
    r"^\d+ (?:bucks|dollars|dolares|pesos|degrees|minutes|loads)\b"
)
"""“1100 bucks no way”, “it only opens 2 inches either way”."""


def street_address(text: str, folded: str, *, asked: bool) -> str | None:
    """The street address with its unit, as written; without a known street type only when it was asked for."""
    if (unit := unit_ahead(folded)) is not None:
        start, end, house = unit
        street = street_address(text[house:], folded[house:], asked=True)
        if street and not _UNIT_WORDS.match(street.lower()):
            return f"{street} {text[start:end]}"
    for pattern in (_STREET, _CALLE):
        for match in pattern.finditer(folded):
            if not _UNIT_WORDS.match(match.group(1)) and not _NO_WAY.search(match.group(1)):
                return text[match.start(1) : match.end(1)].strip(" ,.")
    odd = bare_street(text, folded) or odd_street(text, folded, asked=asked)
    if odd:
        return odd
    quartered = _QUADRANT.search(text)
    if quartered and not _UNIT_WORDS.match(quartered.group(1).lower()):
        return quartered.group(1).strip(" ,.")
    small = _QUADRANT_SMALL.search(folded)
    if small and not _UNIT_WORDS.match(small.group(1)) and not (small.group("se") and small.start() > 0):
        return text[small.start(1) : small.end(1)].strip(" ,.")
    if not asked:
        told = _NAMED_ADDRESS.search(folded)
        return _tagged(_FIRST_PIECE.split(text[told.end() :])[0]) if told else None
    if (behind := name_then_number(text, folded)) is not None:
        return behind
    plain = _ZIP_FIRST.sub("", text)
    sentence = _SENTENCE.split(plain)[0]
    first = _tagged(sentence) if sentence != plain else None
    return first or _tagged(plain) or _tagged(_FIRST_PIECE.split(plain)[0]) or _described(text, folded)


_NAMED_ADDRESS = re.compile(
    r"\b(?:address(?: is|:)?|direccion(?: es|:)?|we(?:'re| are) at|vivo en(?: el)?)\s+(?=\d{2,5}\s+[a-z])"
)
_SENTENCE = re.compile(r"[.;!\n]\s")
_FIRST_PIECE = re.compile(r"[.;!\n]\s|,\s+(?=[a-z])| (?:and|but|y|pero|the|my|its) ")
_WAY = re.compile(
    r"\b(?:pasando|pasa(?:ndo)? (?:de )?(?:la|el)|frente (?:a|al)|enfrente de|a(?:l)? lado de|junto a|atras de la|rumbo a|"
    r"mano (?:izquierda|derecha)|hasta el fondo|a (?:dos|tres|una) cuadras?|esquina|entre (?:la|calle)|past the|"
    r"across (?:from|the street)|next to (?:the|a)|behind the|mile ?marker|county road|cr ?\d+|turn (?:left|right)|"
    r"(?:end|top|bottom) of the road|no (?:tiene )?numero|no house number|miles? (?:past|north|south|east|west))\b"
)
"""A way that is told instead of a street: “pasando la acequia a mano izquierda”."""


def _described(text: str, folded: str) -> str | None:
    """The way to a house without a number, in the answer to the question for its address."""
    return text.strip() if _WAY.search(folded) and not folded.rstrip().endswith("?") else None


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
