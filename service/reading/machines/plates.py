"""Model numbers, serial numbers and error codes, told apart by the words around them and by their shape."""

from __future__ import annotations

import re
from collections.abc import Collection

from service.reading.machines.displays import code_first, displayed_code
from service.reading.machines.makers import MODEL
from service.reading.words.letters import has_digit

_MODEL = re.compile(
    r"\b(?:model(?:o)?|mod|m/n|mdl)\b\.?(?:\s*(?:number|num|numero|no|#|nr|is|es|:|de|del|code|says|dice|,|"
    r"-))*\s*[:#]?\s*([a-z0-9][a-z0-9/.\-]{2,22}[a-z0-9])"
)
_SERIAL = re.compile(
    r"\b(?:serial|serie|s/n|sn|ser)\b\.?(?:\s*(?:number|num|numero|no|#|nr|is|es|:|says|dice|,|"
    r"-))*\s*[:#]?\s*([a-z0-9][a-z0-9\-]{3,22}[a-z0-9])"
)
_BEHIND = (
    r"(?:\s+(?!serial|serie|model|says? |and\b|is no)[a-z']+){1,6}\s*[:,]?\s+"
    r"(?P<number>(?=[a-z\d\-/]*\d{2})[a-z\d][a-z\d/\-]{4,20})\b"
)
_SERIAL_FAR = re.compile(rf"\b(?:serial|serie)\b{_BEHIND}")
"""“serial off the door frame: …”: some words between."""
_MAKERS_NUMBER = re.compile(rf"\s+(?:model\w*[.:]? |mod[.:]? )?(?P<number>{MODEL})\b")
_PLATE = re.compile(r"\b(?=[a-z0-9\-/.]{0,22}\d)(?=[a-z0-9\-/.]{0,22}[a-z])[a-z0-9][a-z0-9\-/.]{3,21}[a-z0-9]\b")
_STRONG = re.compile(r"^(?=(?:.*[a-z]){2})(?=(?:.*\d){3})[a-z0-9\-/.]{6,20}$")
_NOT_PLATE = re.compile(
    r"^(?:\d+\.\d+[aw]|\d+(?:st|nd|rd|th|am|pm|ft|in|lbs?|amps?|v|volts?|hz|vac|kw|btu|psi|min|mins|hrs?|days?|yrs?|"
    r"years?|x|f|c|degrees|k|"
    r"gal|pm-\w+)|\d+[-/]\d+(?:am|pm)|covid\d*|24/7|mp3)$"
)
_APART = re.compile(
    r"\b([b-hj-z]) (?:y|and|and then|then|luego|y luego|e|plus|with|con) (?:(?:un|una|an?|el|the|la) )?(\d{1,2})\b"
)
"""“una F y un 3”."""
_PIECES = re.compile(
    r"(?<![\w/.\-])(?:[A-Z]{1,4}|[A-Z\d\-/.]*\d[A-Z\d\-/.]*)(?: (?:[A-Z]{1,4}|[A-Z\d\-/.]*\d[A-Z\d\-/.]*)(?![\w/\-])){1,6}"
)
"""A number in several pieces, in capitals: “KD 4400 ELW1”."""
_LABEL_FIRST = re.compile(r"^(?:(?:SN|S/N|SER|NO|NUM|MOD|MDL|M/N|IT|IS|THE|MY|SAYS|READS|ES|DICE|EL|LA|I|A|OK|UH) )+")
_WORD_LAST = re.compile(r"(?: (?:I|A|Y|O))+$")
_GOES_ON = re.compile(r" [a-z]")
"""“WTL4480Q I think”: the last letter is a word."""
_TAIL = re.compile(r"(?: (?:[B-HJ-Z]|[A-Z]{1,3}\d{1,3}|\d{1,3}[A-Z]{1,2}|\d{1,2}(?= [A-Z]\b)))+(?![\w'’/\-])")
"""What may follow a number that is set apart: “DV-220 X”."""
_SER_LABEL = re.compile(r"\b(?:ser|serial|serie|s/n|sn)\b(?:\s?(?:no|num|number|numero|#|\.|:|is|es))*[\s:#.]*$")
_MODEL_LABEL = re.compile(r"\b(?:model|modelo|mod|m/n)\b(?:\s?(?:no|num|number|numero|#|\.|:|is|es))*[\s:#.]*$")
_MODEL_FAR = re.compile(rf"\b(?:model|modelo)\b{_BEHIND}")
_INSTEAD = re.compile(
    rf",?\s+(?:no,? wait|no,? sorry|i mean|digo|no,? perdon|scratch that|or is it),?\s+(?:it'?s |es )?(?P<number>{MODEL})\b"
)
"""“GW6 no wait GW7-HP”."""
_SHAPE = (
    r"(?:[a-z]{1,2}[-: ]?\d{1,3}(?:-?[a-z]{1,2}[-: ]?\d{0,2}|[-: ][a-z]{1,2}[-: ]?\d{1,2})?|\d{1,2}[a-z]{1,2}\d?|"
    r"[a-z]{2,3}|"
    r"\d{1,3}(?:-\d{1,2})?)"
)
_TOLD = re.compile(
    rf"\b(?:(?:error|fault|codigo|code|err)(?: (?:code|de|error|number|message|codes))?(?: (?:is|of|de|says|"
    rf"reads|that says|dice|es|error|keeps saying|showing|shows|:))*|"
    rf"(?:display|screen|panel|pantalla|it|readout)(?: \w+)?? (?:says|shows|reads|showing|reading|flashes|"
    rf"flashing|blinks|blinking|displays|dice|marca|muestra|sale)|"
    rf"(?:marca|muestra|flashing|showing|blinking|flashes|throwing|throws|getting|parpadea|sale|aparece|"
    rf"tira)(?: (?:a|an|the|un|el|code|error|codigo|de))*)"
    rf"(?![a-z0-9])\s*[:\"“'#]*\s*(?P<code>{_SHAPE})(?![a-z0-9])"
)
_FLASHES = re.compile(
    r"\b(?:display|screen|panel|clock|readout|pantalla|tablero)\b.{0,20}\b(?:flash\w*|blink\w*|parpade\w*)\W*$"
)
"""“the display just flashes 88”."""
_ER = re.compile(r"\bEr [A-Z\d]{1,2}\b")
_OF_OTHERS = re.compile(r"\b(?:hers|his|theirs|neighbor'?s)\b[^.,;!?\n]{0,20}$")
_UNIT = re.compile(r"\d{1,2}[a-z]")
_IN = re.compile(r"\b(?:in|at|from|en|del|room|rm|casa|depa|tenants?|inquilin[oa]s?) $")
"""Before a number with a letter: it is somebody's door."""
_BARE = re.compile(
    r"(?<![a-z0-9#\-/])(?P<code>(?:[efh][-: ]?\d{1,3}(?: ?[-/]? ?[ef][-: ]?\d{1,2})?|er[- ]?\d{1,2}|e[- "
    r"]?\d{2}[- ]\d{2}|[1-9][0-9]?[ec]|[ou]e|[dl]e\d|sud|lf\d?|pf|hc|ue|oe|5d|sd\d))(?![a-z0-9\-/°])"
)
_NOT_CODE = frozenset((
    "the", "a", "an", "and", "or", "is", "it", "on", "off", "of", "to", "in", "my", "me", "no", "not", "so", "up",
    "do", "did", "but", "for", "with", "when", "que", "el", "la", "un", "de", "en", "se", "lo", "los", "las",
    "es", "si", "ya", "al", "hi", "and", "at", "be", "by", "if", "we", "he", "us", "go", "ok", "i", "you", "all",
    "out", "its", "now", "again", "red", "low", "hot", "one", "two", "new", "was", "has", "had", "can", "are",
    "yes", "any", "error", "code", "ice",
))  # fmt: skip


def plate_numbers(text: str, folded: str, asked: str | None) -> dict[str, str]:
    """``model`` and ``serial`` as written (upper case), where stated or asked for."""
    found: dict[str, str] = {}
    model, serial = _MODEL.search(folded), _SERIAL.search(folded)
    far = _SERIAL_FAR.search(folded) if not serial else None
    if serial and has_digit(serial.group(1)):
        found["serial"] = _shown(text, serial, 1)
    elif far:
        found["serial"] = _shown(text, far, "number")
    if model and has_digit(model.group(1)) and not _NOT_PLATE.match(model.group(1)):
        found["model"] = _shown(text, model, 1)
    model_far = _MODEL_FAR.search(folded) if "model" not in found else None
    if model_far and _STRONG.match(model_far.group("number")):
        found["model"] = _shown(text, model_far, "number")
    if "model" not in found and asked != "serial":
        for match in _PLATE.finditer(folded):
            shown = _shown(text, match, 0)
            if (
                shown in found.values()
                or _NOT_PLATE.match(match.group())
                or "@" in folded[max(0, match.start() - 1) : match.end() + 1]
            ):
                continue
            if (asked == "model" and len(match.group()) >= 4) or (
                _STRONG.match(match.group()) and not _is_link(folded, match)
            ):
                found["model"] = shown
                break
    _asked_for(found, text, folded, asked)
    if not text.isupper() or asked in ("model", "serial"):
        _in_pieces(found, text, folded, asked)
    return found


def _in_pieces(found: dict[str, str], text: str, folded: str, asked: str | None) -> None:
    """Makes the numbers *found* whole where they are written in several pieces, and puts in the one that was asked for."""
    for pieces in _PIECES.finditer(text):
        whole = _LABEL_FIRST.sub("", pieces.group()).strip(" .-")
        if _GOES_ON.match(text, pieces.end()):
            whole = _WORD_LAST.sub("", whole)
        mixed = any(c.isalpha() for c in whole) and sum(c.isdigit() for c in whole) > 1
        name = asked if asked in ("model", "serial") else None
        if _SER_LABEL.search(folded[: pieces.start()]):
            name = "serial"
        elif _MODEL_LABEL.search(folded[: pieces.start()]):
            name = "model"
        if mixed and name and len(whole) > len(found.get(name, "")):
            other = "model" if name == "serial" else "serial"
            if found.get(other, "\0") in whole:
                found.pop(other)
            found[name] = whole.upper()
    for name, number in found.items():
        start = text.upper().find(number)
        tail = _TAIL.match(text, start + len(number)) if start >= 0 else None
        if tail:
            found[name] = number + tail.group()


def _asked_for(found: dict[str, str], text: str, folded: str, asked: str | None) -> None:
    """Put in *found* the number that answers, however it is shaped."""
    if asked == "serial" and "serial" not in found:
        bare = re.search(r"\b(?=[a-z0-9\-]*\d)[a-z0-9][a-z0-9\-]{4,20}\b", folded)
        if bare:
            found["serial"] = _shown(text, bare, 0)
    if asked == "model" and "model" not in found:
        bare = re.search(r"\b\d{3,}[\d.\-/]*\b", folded)
        if bare:
            found["model"] = _shown(text, bare, 0)


_BESIDE = re.compile(r",? \(?([A-Z]{2,4}-?\d{1,4}[A-Z]{0,2})(?![\w\-/°%])")


def machines_number(text: str, ends: Collection[int]) -> str | None:
    """The model as it stands right behind a machine's name: “enfriador de vinos BC-44”, “cooler (DRK-9)”."""
    for end in ends:
        told = _BESIDE.match(text, end)
        if told and "-" in told.group(1) and not _BARE.match(told.group(1).lower()):
            return told.group(1)
    return None


def makers_number(text: str, folded: str, brand: str) -> str | None:
    """The model as it stands right behind its *brand*: “Tolvane TC15”."""
    told = _MAKERS_NUMBER.match(folded, text.find(brand) + len(brand))
    told = (told and _INSTEAD.match(folded, told.end())) or told
    number = told.group("number") if told else ""
    return _shown(text, told, "number") if told and len(number) > 2 and not _NOT_PLATE.match(number) else None


def error_code(text: str, folded: str, asked: str | None) -> str | None:
    """The error code as shown, upper case; None when none is stated."""
    er = _ER.search(text) if "Er " in text else None
    if er:
        return er.group().upper()
    told = _TOLD.search(folded)
    while told:
        code = told.group("code")
        if (
            code not in _NOT_CODE
            and not (code.isdigit() and _is_count(folded, told.end()))
            and _plausible(code, folded, told)
        ):
            return _shown(text, told, "code")
        told = _TOLD.search(folded, told.start("code") + 1)
    for bare in _BARE.finditer(folded):
        if _OF_OTHERS.search(folded[: bare.start()]) or (
            _UNIT.fullmatch(bare.group()) and _IN.search(folded[: bare.start()])
        ):
            continue
        if bare.group("code") not in _NOT_CODE and not _is_quantity(folded, bare):
            return _shown(text, bare, "code")
    displayed = displayed_code(text, folded) if asked != "brand" else None
    if displayed:
        return displayed
    if asked == "code":
        apart = _APART.search(folded)
        if apart:
            return f"{apart[1]}{apart[2]}".upper()
        if first := code_first(text):
            return first
        match = re.search(rf"(?<![a-z0-9]){_SHAPE}(?![a-z0-9])", folded)
        while match and match.group() in _NOT_CODE:
            match = re.compile(rf"(?<![a-z0-9]){_SHAPE}(?![a-z0-9])").search(folded, match.end())
        return (
            _shown(text, match, 0)
            if match and (any(c.isdigit() for c in match.group()) or len(folded.split()) <= 2)
            else None
        )
    return None


def _plausible(code: str, folded: str, told: re.Match[str]) -> bool:
    """Two or three letters without a digit are a code only right after the word code or error, or in capitals."""
    if any(c.isdigit() for c in code):
        flashes = code[:1] * 2 == code and bool(_FLASHES.search(folded[: told.start("code")]))
        return (
            flashes
            or not re.match(r"^\d{1,3}$", code)
            or bool(re.search(r"\b(?:error|code|codigo|err|fault)\b[^.]{0,12}$", folded[: told.start("code")]))
        )
    return (
        bool(re.search(r"\b(?:code|codigo)\W*(?:is|of|de|es|says)?\W*$", folded[: told.start("code")]))
        and len(code) <= 2
    )


def _is_count(folded: str, end: int) -> bool:
    return bool(re.match(r"\s*(?:times|veces|hours|minutes|min|days|years|degrees|grados|error)", folded[end:]))


def _is_quantity(folded: str, match: re.Match[str]) -> bool:
    return bool(re.match(r"\s*(?:am|pm|degrees|grados|%)", folded[match.end() :])) or bool(
        re.search(
            r"(?:\$|\bgate\b[^.]{0,12}|\bapt\.? ?|\bunit |\bsuite |\bmodel\w* ?(?:number)?:? ?)$",
            folded[: match.start()],
        )
    )


def _is_link(folded: str, match: re.Match[str]) -> bool:
    start = folded.rfind(" ", 0, match.start()) + 1
    return "//" in folded[start : match.end()] or "www" in folded[start : match.end()]


def _shown(text: str, match: re.Match[str], group: int | str) -> str:
    return text[match.start(group) : match.end(group)].strip(" .,-:").upper()
