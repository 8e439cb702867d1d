"""How bytes stand for words: charsets, and the ways in which gateways spell bytes with plain letters."""

from __future__ import annotations

import base64
import binascii
import codecs
import re
from functools import lru_cache
from typing import Annotated, Literal, get_args
from urllib.parse import quote_from_bytes, unquote_to_bytes

import gsm0338
from pydantic import AfterValidator

Spelling = Literal["plain", "hex", "base64", "percent", "form"]
"""
plain: the bytes themselves. The others write them with letters, as gateways do that trust no charset on the way. form is
percent with a plus for a space.
"""


GSM_7_BIT = "gsm03.38"
"""The carrier's own alphabet, one septet a byte (3GPP TS 23.038, 6.2.1): some gateways post and take texts in it."""


def _find_gsm(name: str) -> codecs.CodecInfo | None:
    found: codecs.CodecInfo = gsm0338.Codec.get_codec_info()
    return found if name.replace("_", ".") == GSM_7_BIT else None


codecs.register(_find_gsm)  # the library knows the alphabet and leaves it to its user to make it known


@lru_cache(maxsize=256)
def reads_anything(codec: str) -> bool:
    """Whether *codec* is an encoding of texts that has something to say of any bytes; ``hex`` and ``punycode`` have not."""
    try:
        bytes(range(256)).decode(codec, "replace")
        " ".encode(codec, "replace")
    except (LookupError, ValueError):
        return False
    return True


def _known_charset(codec: str) -> str:
    if not reads_anything(codec):
        raise ValueError(f'"{codec}" is no charset; write one such as utf-8, latin-1, utf-16-be or {GSM_7_BIT}')
    return codec


def _known_coding(coding: str) -> str:
    split_coding(coding, "plain")
    _known_charset(coding.split(" ")[-1])
    return coding


def split_coding(coding: str, otherwise: Spelling) -> tuple[Spelling, str]:
    """``hex utf-16-be`` as spelling and charset; *otherwise* when it says no spelling. Raises ValueError."""
    first, found, charset = coding.partition(" ")
    if not found:
        return otherwise, coding
    for spelling in get_args(Spelling):
        if first == spelling:
            return spelling, charset
    raise ValueError(f'"{first}" is no spelling; write plain, hex, base64, percent or form before the charset')


CharsetName = Annotated[str, AfterValidator(_known_charset)]
"""A charset as Python calls it, ``utf-8``, ``latin-1``, ``utf-16-be``, or ``gsm03.38``."""

CodingName = Annotated[str, AfterValidator(_known_coding)]
"""A charset, and before it how its bytes are spelled when they are not sent as they are: ``hex utf-16-be``."""


def unspelled(found: bytes, spelling: Spelling) -> bytes | None:
    """The bytes that *found* spells; None if it is not spelled so."""
    if spelling == "plain":
        return found
    if spelling in ("percent", "form"):
        return unquote_to_bytes(found.replace(b"+", b" ") if spelling == "form" else found)
    bare = re.sub(rb"\s", b"", found)
    try:
        if spelling == "hex":
            return bytes.fromhex(bare.removeprefix(b"0x").decode("ascii"))
        padded = bare.rstrip(b"=").translate(bytes.maketrans(b"-_", b"+/"))
        return base64.b64decode(padded + b"=" * (-len(padded) % 4), validate=True)
    except (ValueError, binascii.Error):
        return None


def spelled(content: bytes, spelling: Spelling) -> str:
    """*content* in letters; only for spellings that are not plain."""
    if spelling == "hex":
        return content.hex().upper()
    if spelling == "base64":
        return base64.b64encode(content).decode("ascii")
    coded = quote_from_bytes(content, safe="")
    return coded.replace("%20", "+") if spelling == "form" else coded


def holds(charset: str, text: str) -> bool:
    """Whether *charset* has every sign of *text*."""
    try:
        text.encode(charset)
    except UnicodeEncodeError:
        return False
    return True


def decoded(found: bytes, codec: str) -> str:
    """*found* as text; what cannot be read becomes a replacement sign, for half a text is better than none."""
    return cleaned(found.decode(codec, "replace"))


def cleaned(text: str) -> str:
    """*text* without what no database or log can hold: lone surrogates, zero bytes and a byte-order mark."""
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return whole.replace("\x00", "").removeprefix("\ufeff")
