"""Streets told otherwise: the number behind the name, rarer kinds of street, corners, figures in words."""

from __future__ import annotations

import re

from service.reading.words.letters import has_any

_COMMON = (
    r"(?:st|street|ave|avenue|rd|road|dr|drive|ln|lane|blvd|ct|court|pl|place|cir|circle|trl|trail|pkwy|hwy|loop|way)"
)
_RARE = (
    r"(?:bend|ridge|run|row|pass|point|hollow|crossing|grove|spur|alley|walk|path|crest|heights|view|mesa|glen|cove|knoll|"
    r"meadows?|hills?|canyon|creek|springs?|valley|park|landing|terr|xing|bluff|rim|wash|arroyo|ranch)"
)
_UNIT = (
    r"(?:,?\s*(?:apt|unit|#|ste|suite|apartment|depto|departamento|apartamento|unidad|lot|space|spc|"
    r"bldg)\.?\s*#?\s*[a-z0-9\-]+)?"
)
_NUMBERED = re.compile(
    rf"(?<![\d$#/-])\b(\d{{1,5}}\s+(?:[a-z][a-z'.]+\s+){{1,3}}?{_RARE}\b(?:\s+(?:ne|nw|sw|se)\b)?{_UNIT})"
)
_NUMBER_BEHIND = re.compile(
    rf"\b((?:(?:[a-z][a-z'.]+|\d{{1,3}}(?:st|nd|rd|th))\s+){{1,2}}(?:{_COMMON}|{_RARE})\b(?:,? not [a-z]+ {_COMMON})?\s*,?\s*"
    rf"(?:#|no\.?|number|numero|num\.?)?\s*\d{{2,4}}\b{_UNIT})"
)
_NAME_NUMBER = re.compile(
    r"\b(?:[Oo]n|[Ee]n|[Dd]e|[Aa]t)\s+((?:[A-ZÁÉÍÓÚÑ][\w'’]+\s?){1,3},?\s+(?:#|no\.?|number|numero|"
    r"número)?\s*\d{2,5})\b(?=\s*(?:$|[,.;]))"
)
_TWO_NAMES = re.compile(
    r"(?:^|[,.;]\s*|\b(?:[Aa]t|[Aa]ddress(?: is)?|[Bb]ehind|[Tt]o|[Aa]l|[Ee]n(?: el)?|[Dd]el?|"
    r"@)\s+)(\d{2,5}\s+[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+\s+[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]+)(?=\s*(?:$|[,;]|\.(?:\s|$)|\d{5}))"
)
_ONE_NAME = re.compile(
    r"\b(?:[Aa]t|[Bb]ehind|[Tt]o|[Aa]l|[Aa]cross from|[Bb]ack of|[Dd]etr[aá]s del?|[Aa]tr[aá]s del?|[Ee]n(?: el)?)\s+"
    r"(\d{2,5}\s+(?!A\.?M|P\.?M)[A-ZÁÉÍÓÚÑ][a-zà-ÿ'’]{3,})(?=\s*(?:$|[,;]|\.(?:\s|$)|\d{5})|"
    r" (?:sent|says?|said|called|texted|has|wants|keeps|told|tells|reports?|is having|dice|dijo|mand[oó]|tiene)\b)"
)
"""“the red casita behind 92 Yarrow”, “nobody lives at 118 Greasewood, …”."""
_SPANISH_KINDS = (
    r"(?:placita|plaza|plazuela|loma|lomas|lomita|cañada|rinc[oó]n|cuesta|vereda|entrada|corte|cerro|arroyo|bosque|valle|mesa|"
    r"mirador|huerta|portal|llano|mesita|callejuela|senda|retorno|privada|cerrada|andador)"
)
_SPANISH = re.compile(
    rf"(?<![\d$#/-])\b(\d{{1,5}}\s+(?:{_SPANISH_KINDS}|{_SPANISH_KINDS.title()})\s+"
    r"(?:(?:del?|de l[ao]s?)\s+)?(?:[A-ZÁÉÍÓÚÑ][\w'’]+(?:\s+[A-ZÁÉÍÓÚÑ][\w'’]+)?|[a-zñ]{4,}(?=\s*(?:$|[,.;]|\d{5}))))"
)
"""“77 Placita Seca ay me cayó …”: as Spanish names streets, the kind before the name."""
_WITH_PARTICLE = re.compile(
    r"(?:^|[.,;]\s*|\b(?:[Aa]t|[Aa]ddress(?: is)?|[Tt]o|[Aa]l|[Ee]n(?: la| el)?|[Dd]el?|[Ll]ive|[Vv]ivo|@)\s+)"
    r"(\d{2,5}\s+(?:(?:[Dd]el?|[Dd]e l[ao]s?)\s+)?[A-ZÁÉÍÓÚÑ][a-zà-ÿñ'’]+\s+(?:(?:[Dd]el?|[Dd]e l[ao]s?|[Ll][ao]s?)\s+)?"
    r"[A-ZÁÉÍÓÚÑ][a-zà-ÿñ'’]+(?:,?\s+(?:#|no\.?|number|num\.?|número|numero|apt|unit|int\.?|depto)\s*\w{1,4})?)"
    r"(?=\s*(?:$|[,;]|\.(?:\s|$)|\d{5}| (?:y|and|pero|but)\b))"
)
"""“903 Vista del Pozo number 6”, “vivo en la 1127 de la Cañada Verde, …”."""
_MEASURES = re.compile(
    r"\b(?:fahrenheit|celsius|centigrados?|grados|below|above|bake|broil|roast|warm|high|medium|percent|cubic|foot|gallons?|"
    r"quarts?|pounds?|amps?|volts?|watts?|noon|percent|bottles?|botellas|litros|kilos|libras|pulgadas|pies|personas|minutos|"
    r"seconds|segundos|guests|tenants|units|apartments|rooms|rentals|stars?|bucks|dollars|dolares|pesos|something|weekly|daily|button|mode|cycle|setting)\b"
)
"""What a number counts or measures that stands before a word with a capital."""
_PARTICLES = re.compile(r"\b(?:la|el|los|las|number|numero|unit|apt)\b")
_NUMBER_THEN_NAME = re.compile(r"\d\s+(?:de (?:la |los |las )?|del )?[A-ZÁÉÍÓÚÑ][a-zà-ÿ]")
_PARKS = ("mobile home", "trailer", "rv ", "traila")
_MOBILE = re.compile(
    r"\b((?:mobile home|trailer|rv) (?:park|pk|court|ct|village)[\s,]+(?:space|spc|spot|lot|unit|#)\s*#?\d+\w?|"
    r"(?:space|spc|spot|lot|espacio|lote)\s*#?\d+\w?,? (?:(?:at|in|of|en|de)(?: the| el| la)? )?"
    r"(?:mobile home|trailer|rv|parque de trailas|traila) (?:park|pk|court|ct))"
)
"""“mobile home pk, space 31”."""
_COURT = re.compile(
    r"\b((?:[Ll]ot|[Ss]pac+e|[Ss]pc|[Bb]ldg|[Bb]uilding|[Uu]nit|[Aa]pt|[Ee]spacio|[Ll]ote)\.? ?#?\d+\w?"
    r"(?:,? (?:apt|unit|#) ?\w+)?,? (?:(?:at|in|of|en|de)(?: the)? )?(?:[A-ZÁÉÍÓÚÑ][\w'’]+ ){1,3}"
    r"(?:(?:trailer|mobile|home|RV|rv)\s)*(?:[Cc]ourt|[Pp]ark|[Vv]illage|[Ee]states|[Ff]lats|[Aa]partments?|[Aa]pts|"
    r"[Mm]anor|[Tt]errace|[Gg]ardens|[Vv]illas)\b)"
)
"""“lot 41 at Painted Hills trailer court”, “Bldg 4 apt 212, Sandreed Village”."""
_CALLED = re.compile(
    r"\b(?:calle|street|road)\s+(?:se llama|es|is called|is)\s+([a-z]+(?:\s[a-z]+)?,?\s+(?:numero|number|no\.?|#)?\s*\d{1,5})\b"
)
_OF_STREET = re.compile(r"\b(?:de|en|por|sobre) la (calle [A-ZÁÉÍÓÚÑ][\w'’]+(?: [A-ZÁÉÍÓÚÑ][\w'’]+)?)")
_CORNER = re.compile(
    r"\b(corner of [a-z0-9]+(?: [a-z]+)? (?:and|&|n) [a-z0-9]+|esquina (?:de )?[a-z0-9]+(?: [a-z]+)? (?:y|con) [a-z0-9]+)"
)
_DIGITS = {
    word: figure
    for figure, words in enumerate(
        (
            "zero oh o cero", "one uno", "two dos", "three tres", "four cuatro", "five cinco", "six seis", "seven siete",
            "eight ocho", "nine nueve",
        )
    )
    for word in words.split()
}  # fmt: skip
_FIGURE = "(?:" + "|".join(sorted(_DIGITS, key=len, reverse=True)) + ")"
_TENS = (
    "(?:ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|"
    "sixty|seventy|eighty|ninety)"
)
_SPOKEN = re.compile(
    rf"\b((?:(?:{_FIGURE}|{_TENS}|hundred)\s+){{2,5}}(?:[a-z][a-z']+\s+){{1,3}}?(?:{_COMMON}|{_RARE})\b)"
)
_SPOKEN_ZIP = re.compile(rf"\b({_FIGURE}(?:\s+{_FIGURE}){{4}})\b(?!\s+{_FIGURE}\b)")
_NO_NAME = re.compile(
    r"\b(?:the|a|an|my|our|your|this|that|it|is|was|of|to|and|or|in|for|with|but|not|loads?|times?|years?|yrs?|min(?:ute)?s?|"
    r"days?|weeks?|wheel|problems?|block|"
    r"hours?|inch(?:es)?|degrees?|feet|ft|people|burners?|cycles?|long|first|last|every|half|full|whole|dry|cold|hot|wont|"
    r"only|just|"
    r"i|you|we|he|she|model|serial|error|code|unit|apt|la|el|un|una|mi|los|las)\b"
)
_LED_UP = re.compile(r"(?:\bat|\bin|\bon|\ben|\bde|live|address is|direccion es|@|^|[,:])\s*$")


def odd_street(text: str, folded: str, *, asked: bool) -> str | None:
    """A street in one of these forms, as written; a name in small letters needs the question for it or a word like "at"."""
    for pattern in (_NUMBERED, _NUMBER_BEHIND, _SPOKEN):
        for found in pattern.finditer(folded):
            value = text[found.start(1) : found.end(1)].strip(" ,.")
            name = next(iter(re.findall(r"[^\W\d_]+", value)), "")
            led_up = _LED_UP.search(folded[: found.start()]) and pattern is not _NUMBER_BEHIND
            if not _NO_NAME.search(found.group(1)) and (asked or name[0].isupper() or led_up or pattern is _SPOKEN):
                return value
    forms: tuple[re.Pattern[str], ...] = (_COURT, _NAME_NUMBER, _OF_STREET, _SPANISH)
    for pattern in (*forms, _WITH_PARTICLE, _TWO_NAMES, _ONE_NAME) if _NUMBER_THEN_NAME.search(text) else forms:
        for named in pattern.finditer(text):
            year = re.match(r"(?:19|20)\d\d\b", named.group(1))
            low = named.group(1).lower()
            if pattern is _WITH_PARTICLE:
                low = _PARTICLES.sub("", low)
            measured = pattern in (_TWO_NAMES, _SPANISH, _ONE_NAME, _WITH_PARTICLE) and (
                _NO_STREET_NAME.search(low) or _MEASURES.search(low)
            )
            if not year and not measured and not _NO_NAME.search(low):
                return named.group(1).strip(" ,.")
    called = (
        _CALLED.search(folded)
        or (_MOBILE.search(folded) if has_any(folded, _PARKS) else None)
        or (_CORNER.search(folded) if asked else None)
    )
    return text[called.start(1) : called.end(1)].strip(" ,.") if called else None


_SPOKEN_SIGN = re.compile(rf"\b{_FIGURE} (?:{_FIGURE}|hundred|{_TENS})\b")


def may_be_spoken(folded: str) -> bool:
    """Whether figures stand in *folded* as words."""
    return _SPOKEN_SIGN.search(folded) is not None


def spoken_zip(folded: str) -> str | None:
    """Five figures told in words: “eight seven one one two”."""
    found = _SPOKEN_ZIP.search(folded)
    return "".join(str(_DIGITS[word]) for word in found.group(1).split()) if found else None


_NAME_FIRST = re.compile(
    rf"^(?:(?:es|en|la|it'?s|its|at|calle|street|address|direccion)\s+)*((?:[a-z][a-z'.]+\s+){{1,3}}(?:#|no\.?|number|num\.?|numero)?\s*"
    rf"\d{{2,5}}{_UNIT})(?:,?\s+(?:zip\s+)?\d{{5}})?\s*[.,]?$"
)
_NO_STREET_NAME = re.compile(
    r"\b(?:code|gate|pin|codigo|clave|puerta|porton|error|modelo|serie|zip|at|around|about|before|after|antes|despues|"
    r"tengo|hace|call|text|year|ano|since|desde|until|hasta|im|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|"
    r"enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre|"
    r"january|february|march|april|june|july|august|september|october|november|december|"
    r"mon|tue|wed|thu|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday|lunes|martes|miercoles|jueves|"
    r"viernes|sabado|domingo|depto|lot|lote|space|casa|number|numero|option|opcion|temp|temperature|says|reads|dice|marca)\b"
)


def is_no_street_name(street: str) -> bool:
    """Whether the words of *street*, small, count, measure or tell a time instead: “20 gallon”, “10 monday”."""
    words = re.sub(r"^\d+\s+", "", street)
    return any(pattern.search(words) for pattern in (_NO_NAME, _NO_STREET_NAME, _MEASURES))


def name_then_number(text: str, folded: str) -> str | None:
    """“juniper 412”, “Juniper 412 depto 3”: the whole answer to the question for the address."""
    found = _NAME_FIRST.match(folded.strip())
    if found is None:
        return None
    name = re.split(r"\d", found.group(1), maxsplit=1)[0]
    bare = re.sub(r"\b(?:la|el|los|las|del)\b", "", name)
    if (
        not re.search(r"[a-z]{3}", bare)
        or _NO_NAME.search(bare)
        or _NO_STREET_NAME.search(re.sub(r"(?:number|numero|num|no)\.?\s*$", "", name))
    ):
        return None
    lead = len(folded) - len(folded.lstrip())
    return text[lead + found.start(1) : lead + found.end(1)].strip(" ,.")
