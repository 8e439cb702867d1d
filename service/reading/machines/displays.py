"""Error codes as a display shows them: in capitals, in quotes, or spoken; the case of their letters tells them from words."""

from __future__ import annotations

import re

_LITTLE = (
    r"(?:\s+(?:a|an|the|un|una|el|la|puras?|code|error|codigo|letters?|letras?|like|just|only|solo|nomas|message|mensaje|"
    r"me|and|y|"
    r"then|something))*"
)
_SHOWS = re.compile(
    r"(?P<verb>\b(?:errors?|fault|codes?|codigo|err|says|saying|shows?|showing|reads|reading|displays|displaying|"
    r"flash(?:es|ing)?|"
    r"blink(?:s|ing)?|throwing|throws|throw|gives|giving|marca|muestra|parpadea|parpadeando|aparece|sale|salio|dice|"
    r"pone|tira))"
    rf"{_LITTLE}\s*[:\-]?\s*$"
)
_SAID_BY = re.compile(
    r"\b(?:he|she|they|who|i|we|you|guy|tech|husband|wife|mom|dad|son|daughter|landlord|tenant|manual|tag|label|sticker|"
    r"plate|door|"
    r"front|badge|el|ella|esposo|esposa|hij[oa]|mama|papa|senora?|dueno|etiqueta|placa|puerta|not)\s+(?:just |only |que )?"
    r"(?:says|saying|shows?|reads|dice|pone)\b[^.;\n]*$"
)
_ON_DISPLAY = re.compile(
    r"[\"”'’]?\s+(?:on|in|across) (?:(?:the|its|my|our) )?(?:\w+ )?(?:screen|display|panel|readout|window|clock)|"
    r"[\"”'’]?\s+en (?:la|"
    r"el) (?:pantalla|tablero|"
    r"display|panel|reloj)"
)
_TOKEN = re.compile(
    r"(?<![\w#$/\-])(?:Er [A-Z\d]{1,2}|[A-Z]{2,4}|[a-z][A-Z]|[A-Z]{2}[a-z]|[A-Z][a-z][A-Z]|[a-z]{1,2}[A-Z]?\d{1,3}|"
    r"[a-z][A-Z]\d{0,2}|"
    r"[A-Z]{1,2}\d[a-zA-Z]{1,2}|[A-Z]\d{1,3}|\d{1,2} [A-Z])(?![\w/\-])"
)
_LETTERS_ALONE = re.compile(r"[a-zA-Z][A-Z]|\bEr [A-Z]| (?:dash|guion|hyphen) ")
_QUOTED = re.compile(r"[\"“'‘](?P<code>[A-Za-z]{1,3}[ \-]?\d{0,3}|\d{1,2} ?[A-Za-z])[\"”'’]")
_SPOKEN = re.compile(
    r"\b(?P<letter>[a-z]) (?:dash|guion|hyphen) (?P<figures>(?:(?:zero|oh|one|two|three|four|five|six|seven|eight|nine|"
    r"cero|uno|dos|"
    r"tres|cuatro|cinco|seis|siete|ocho|nueve)\b ?){1,3}|\d{1,3})"
)
_FIGURES = {
    word: str(figure)
    for figure, words in enumerate(
        ("zero oh cero", "one uno", "two dos", "three tres", "four cuatro", "five cinco", "six seis", "seven siete",
         "eight ocho", "nine nueve")
    )
    for word in words.split()
}  # fmt: skip
_WORDS = frozenset((
    "ON", "OFF", "OK", "NO", "YES", "TV", "AC", "LED", "GFCI", "GFI", "DONE", "STOP", "HELP", "NOT", "THE", "AND", "SI", "EL",
    "LA", "QUE", "ES", "YA", "DE", "NI", "AM", "PM", "LOL", "ASAP", "OMG", "WTF", "IT", "IS", "MY", "ALL", "HOT", "COLD", "NEW",
    "NOW", "CO", "USA", "NM", "DIY", "HOA", "VERY", "ONLY", "ONE", "TWO", "END", "TIME", "BAKE", "SAME", "WAY", "SO",
    "HI", "OPEN",
    "FULL", "WASH", "SPIN", "IN", "OUT", "UP", "TO", "OR", "BUT", "ICE", "GAS", "DW", "ID", "PO",
))  # fmt: skip


_APART_SHOWN = re.compile(
    r"\b(?:salen?|marca|muestra|dice|aparecen?|pone|shows?|says|reads|displays?|flash(?:es|ing)|showing) "
    r"(?:me |que |el |error |code |codigo |like )*(?:una? |an? |la |the |letra |letter |just )+"
    r"([b-hj-z]) (?:y|and|and then|then|luego|y luego|e|plus|with|con) (?:(?:un|una|an?|el|the|la) )?(\d{1,2})\b"
)
"""“sale una E con un 4”, “it shows an E and then a 4”."""
_FIRST = re.compile(r"\W*([A-Z]{2}|[A-Z]\d{1,2})(?![\w'’/\-])")


def code_first(text: str) -> str | None:
    """The capitals that begin an answer to the question for the code: “LE with the little lock lit up”."""
    first = None if text.isupper() else _FIRST.match(text)
    return first.group(1) if first and first.group(1) not in _WORDS else None


def may_display(text: str) -> bool:
    """Whether *text* holds anything that may be a code without a figure: quickly told."""
    return _LETTERS_ALONE.search(text) is not None


def displayed_code(text: str, folded: str) -> str | None:
    """The code that a display is said to show; None where *text* is shouted, or says words."""
    apart = _APART_SHOWN.search(folded)
    if apart:
        return f"{apart[1]}{apart[2]}".upper()
    spoken = _SPOKEN.search(folded)
    if spoken:
        said = spoken.group("figures").split()
        return f"{spoken.group('letter')}-{''.join(_FIGURES.get(figure, figure) for figure in said)}".upper()
    if text.isupper():
        return None
    for quoted in _QUOTED.finditer(text):
        code = quoted.group("code")
        if code.upper() not in _WORDS and (any(c.isdigit() or c.isupper() for c in code)) and _shown(folded, quoted):
            return code.upper()
    for token in _TOKEN.finditer(text):
        mixed = token.group()[0].islower() and token.group() != token.group().lower()  # "dE" is no "de"
        if (mixed or token.group().upper() not in _WORDS) and _shown(folded, token):
            return token.group().upper()
    return None


def _shown(folded: str, told: re.Match[str]) -> bool:
    """Whether a display shows what *told* found: not what a person or a label says."""
    if _ON_DISPLAY.match(folded, told.end()):
        return True
    before = folded[: told.start()].rstrip("\"“'‘ ")
    return bool(_SHOWS.search(before + " ")) and not _SAID_BY.search(before)
