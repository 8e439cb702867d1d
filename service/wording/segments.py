"""How a carrier will count one text: its alphabet, units and parts; and plain signs for those that make it dear.

3GPP TS 23.038 (alphabet) and TS 23.040 section 9.2.3.24.1 (parts). Sources S1 to S5. Sending is for others.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Set
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

Encoding = Literal["GSM-7", "UCS-2"]

BASIC = frozenset(
    "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?"
    "¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà"
)
"""The 7-bit default alphabet without its escape. Source S1."""

EXTENSION = frozenset("\f^{}\\[~]|€")
"""Characters that cost an escape and a character, two units. Source S2."""

_SEVEN_BIT = BASIC | EXTENSION

SINGLE: dict[Encoding, int] = {"GSM-7": 160, "UCS-2": 70}
MULTI: dict[Encoding, int] = {"GSM-7": 153, "UCS-2": 67}
"""Units that fit a lone part, and each part of several. Source S3."""

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("’‘‚‛′´`ʼ", "'"),
        **dict.fromkeys("“”„‟″«»", '"'),
        **dict.fromkeys("–—―−‐‑‒•·▪◦", "-"),
        **dict.fromkeys("\t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f", " "),
        **dict.fromkeys("\u200b\u200c\u00ad\u2060\ufeff", ""),
        "…": "...",
        "→": "->",
        "×": "x",
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "ª": "a",
        "º": "o",
        "™": "",
        "®": "",
    }
)


_PLAIN_ASCII = frozenset("`\t")
"""The plainest signs that are replaced all the same."""


@dataclass(frozen=True, slots=True)
class Segments:
    """
    One text as it will be billed. units: septets (GSM-7) or 16-bit units (UCS-2) of the whole text without headers.

    parts: the text of each part, in order; joined they are the text. sizes: the units of each part.
    """

    encoding: Encoding
    units: int
    parts: tuple[str, ...]
    sizes: tuple[int, ...]

    @property
    def number(self) -> int:
        """How many segments are paid for; an empty text is one."""
        return len(self.parts)


@lru_cache(maxsize=4096)  # a reply is counted when it is packed, written and shown
def count(text: str) -> Segments:
    """
    *text* as the carrier counts it.

    A character outside the 7-bit alphabet and its extension turns the whole text into UCS-2. No part ends inside an
    escape pair or a surrogate pair: the pair moves whole to the next part.
    """
    signs = set(text)
    encoding: Encoding = "GSM-7" if signs <= _SEVEN_BIT else "UCS-2"
    # Nearly all signs cost one unit, so those that cost two are sought once and no other is looked at by itself.
    dear = signs & EXTENSION if encoding == "GSM-7" else {sign for sign in signs if ord(sign) > 0xFFFF}
    units = _units(text, dear)
    if units <= SINGLE[encoding]:
        return Segments(encoding, units, (text,), (units,))
    parts = tuple(_cut(text, dear, MULTI[encoding]))
    return Segments(encoding, units, parts, tuple(_units(part, dear) for part in parts))


def plain(text: str, language: str, spanish_mode: str = "accents") -> str:
    """
    *text* with signs that make it dear replaced by their 7-bit likeness, its meaning untouched.

    Always: curly quotes, dashes, bullets, dots, arrows, degree signs, odd spaces. English also loses accents that the
    7-bit alphabet lacks: English spells without them. Spanish keeps its accents unless *spanish_mode* is ``seven_bit``:
    then á í ó ú lose theirs; é ñ ü ¿ ¡ are in the alphabet and stay. Emoji and other scripts are left as they are.
    """
    if text.isascii() and not _PLAIN_ASCII & set(text):
        return text
    degrees = " grados" if language == "es" else " degrees"
    text = unicodedata.normalize("NFC", text)
    text = re.sub(r"\s*°\s*(?=[FC]\b)", " ", text).replace("°", degrees)
    text = re.sub(r"(?<!\d)(?=[½¼¾])", "\0", text).translate(_PLAIN).replace("\0 ", "")
    if language == "es" and spanish_mode != "seven_bit":
        return text
    return "".join(_without_accent(c) for c in text)


def _units(text: str, dear: Set[str]) -> int:
    """What *text* costs in units, of which each of the *dear* signs takes two."""
    return len(text) + sum(text.count(sign) for sign in dear)


def _cut(text: str, dear: Set[str], room: int) -> Iterator[str]:
    """Parts of a text that needs several, each as full of *room* units as whole characters allow."""
    start = used = 0
    for at, character in enumerate(text):
        cost = 2 if character in dear else 1
        if used + cost > room:
            yield text[start:at]
            start, used = at, 0
        used += cost
    yield text[start:]


def _without_accent(character: str) -> str:
    """The 7-bit letter under an accented one that the alphabet lacks; any other character as it is."""
    if character in BASIC or character in EXTENSION:
        return character
    base = unicodedata.normalize("NFD", character)[0]
    return base if base in BASIC else character
