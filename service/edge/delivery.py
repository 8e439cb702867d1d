"""One HTTP request of a gateway, and how the values a profile points at are taken out of it."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from email.message import Message
from functools import lru_cache
from typing import Literal
from urllib.parse import unquote_to_bytes

from service.edge.profile import Charset

Shape = Literal["json", "form", "query", "raw"]


class Malformed(Exception):
    """A delivery is not what its profile says; the message says what is missing, without anything a customer wrote."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """
    A request as it came. headers: names in lower case. query: as sent, undecoded. url: as the gateway addressed it.

    Reading is by the bytes: a text in another encoding than the rest must not pass through UTF-8 on its way.
    """

    method: str
    url: str
    query: bytes
    headers: Mapping[str, str]
    body: bytes
    client: str | None = None
    _parsed: dict[str, object] = field(default_factory=dict, repr=False)

    def raw(self, source: str, shape: Shape) -> bytes | None:
        """The bytes of a value that stands in a query, a form or the whole body; None if there are none."""
        where, _, name = source.partition(":")
        if source == "body":
            return self.body
        if where == "query":
            return self._pairs("query", self.query).get(name)
        if where == "body" and shape == "form":
            return self._pairs("form", self.body).get(name)
        return None

    def values(self, source: str, shape: Shape) -> tuple[str, ...]:
        """
        What stands at *source*, as texts; empty if nothing does.

        A list in JSON gives all its items. Raises Malformed for a body that is no JSON when the profile says JSON.
        """
        where, _, name = source.partition(":")
        if where == "header":
            value = self.headers.get(name.lower())
            return () if value is None else (value,)
        if where == "body" and name and shape == "json":
            return tuple(_texts(_at(self._json(), name)))
        found = self.raw(source, shape)
        return () if found is None else (found.decode("utf-8", "replace"),)

    def value(self, source: str, shape: Shape) -> str | None:
        """The first value at *source*, or None."""
        found = self.values(source, shape)
        return found[0] if found else None

    def text(self, source: str, shape: Shape, charset: Charset) -> str | None:
        """The customer's words at *source*, read in the encoding the delivery tells; None if the field is not there."""
        found = self.raw(source, shape)
        if found is None:
            return self.value(source, shape)
        return decoded(found, self._codec(charset, shape))

    def _codec(self, charset: Charset, shape: Shape) -> str:
        if charset.told_by is None:
            return charset.otherwise
        told = self.value(charset.told_by, shape)
        if told is not None and charset.told_by.lower() == "header:content-type":
            told = _charset_of(told)
        if not told:
            return charset.otherwise
        name = charset.names.get(told, told if charset.told_by.startswith("header:") else charset.otherwise)
        return name if _reads_anything(name) else charset.otherwise

    def pairs(self, shape: Shape) -> Mapping[str, bytes]:
        """All form fields, or with another *shape* all of the query's."""
        return self._pairs("form", self.body) if shape == "form" else self._pairs("query", self.query)

    def _pairs(self, name: str, encoded: bytes) -> dict[str, bytes]:
        known = self._parsed.get(name)
        if isinstance(known, dict):
            return known
        pairs: dict[str, bytes] = {}
        for part in encoded.split(b"&"):
            key, found, value = part.partition(b"=")
            if found:
                plain = unquote_to_bytes(key.replace(b"+", b" ")).decode("utf-8", "replace")
                pairs.setdefault(plain, unquote_to_bytes(value.replace(b"+", b" ")))
        self._parsed[name] = pairs
        return pairs

    def _json(self) -> object:
        if "json" not in self._parsed:
            try:
                self._parsed["json"] = json.loads(self.body)
            except (ValueError, RecursionError) as wrong:
                raise Malformed("the body is not JSON") from wrong
        return self._parsed["json"]


@lru_cache(maxsize=256)
def _reads_anything(codec: str) -> bool:
    """Whether *codec* is an encoding of texts that has something to say of any bytes; ``hex`` and ``punycode`` have not."""
    try:
        bytes(range(256)).decode(codec, "replace")
    except (LookupError, ValueError):
        return False
    return True


def decoded(found: bytes, codec: str) -> str:
    """*found* as text; what cannot be read becomes a replacement sign, for half a text is better than none."""
    return cleaned(found.decode(codec, "replace"))


def cleaned(text: str) -> str:
    """*text* without what no database or log can hold: lone surrogates, zero bytes and a byte-order mark."""
    whole = text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return whole.replace("\x00", "").removeprefix("\ufeff")


def _charset_of(content_type: str) -> str | None:
    message = Message()
    message["content-type"] = content_type
    charset = message.get_content_charset()
    return str(charset) if charset else None


def _at(value: object, path: str) -> object:
    """The part of *value* that *path* (``data.from[0].number``) leads to, or None."""
    for step in re.findall(r"[^.\[\]]+", path):
        if isinstance(value, dict):
            value = value.get(step)
        elif isinstance(value, list) and step.isdigit() and int(step) < len(value):
            value = value[int(step)]
        else:
            return None
    return value


def _texts(value: object) -> list[str]:
    if value is None:
        return []
    if isinstance(value, list):
        return [text for item in value for text in _texts(item)]
    if isinstance(value, str):
        return [value]
    if isinstance(value, bool):
        return ["true" if value else "false"]
    return [json.dumps(value)]
