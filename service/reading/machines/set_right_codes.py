"""An error code that is set right in the same text: “says F4 no wait E4”, “no es F4, es E4”."""

from __future__ import annotations

import re

_CODE = r"(?<![a-z0-9#-])(?P<{}>[a-z]{{1,3}}[- ]?\d{{1,3}}(?:[a-z]|[- ]?[a-z]\d{{1,2}})?|\d[a-z]\d?)(?![a-z0-9-])"
_FIRST, _SECOND = _CODE.format("first"), _CODE.format("second")
_SLIP = (
    r"(?:no|wait|nope|sorry|oops|i mean|i meant|actually|rather|scratch that|make that|correction|my bad|or|its|it's|it is|"
    r"it says|digo|quise decir|perdon|disculpe|espere|espera|mas bien|mejor dicho|no espere|es|era|dice|osea|o sea|the code is|"
    r"that's|thats)"
)
_SURELY = (
    r"(?:no|wait|nope|sorry|oops|i mean|i meant|actually|rather|scratch that|make that|correction|my bad|digo|quise decir|"
    r"perdon|disculpe|espere|espera|mas bien|mejor dicho|osea|o sea)"
)
_AND = r"[ ,.:!-]*"
_CORRECTED = re.compile(rf"{_FIRST}{_AND}(?:\b{_SLIP}\b{_AND})*?\b{_SURELY}\b{_AND}(?:\b{_SLIP}\b{_AND})*{_SECOND}")
_NOT_BUT = re.compile(
    rf"\b(?:not|isn'?t|no es|no era|no)(?: (?:a|an|un|el))? {_FIRST}[ ,.;-]*(?:(?:but|it'?s|it is|its|sino|es|era|dice)[ ,]*)+"
    rf"(?:(?:an?|un|el) )?{_SECOND}"
)


def set_right(folded: str, code: str) -> str | None:
    """The code that is put in the place of *code* in *folded*, upper case; None where it stands as it was told."""
    for pattern in (_CORRECTED, _NOT_BUT):
        for told in pattern.finditer(folded):
            if _bare(told.group("first")) == _bare(code):
                return told.group("second").upper()
    return None


def _bare(code: str) -> str:
    return re.sub(r"[^a-z0-9]", "", code.lower())
