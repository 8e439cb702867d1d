"""One HTTP request of a gateway, and how the values a profile points at are taken out of it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import cast
from xml.etree.ElementTree import Element  # the type alone; bodies.py reads the documents

from service.edge.bodies import Malformed, charset_of, json_of, multipart_of, pairs_of, xml_of
from service.edge.codings import Spelling, cleaned, decoded, reads_anything, split_coding, unspelled
from service.edge.places import Shape, in_json, in_xml, steps, texts, xml_text
from service.edge.profile_receive import Charset

MOST_ITEMS = 1_000
"""Texts or receipts taken from one request: each is a transaction of its own, and the gateway waits for all of them."""

Pairs = list[tuple[str, bytes]]
_AS_UTF_8 = Charset()
_BEFORE_XML = b"\xef\xbb\xbf \t\r\n"


@dataclass(frozen=True, slots=True)
class Part:
    """One of the items of a list in JSON."""

    value: object


@dataclass(frozen=True, slots=True)
class Nth:
    """One of several texts in the fields of a form or a query: the values in this place among those of their name."""

    fields: Mapping[str, list[bytes]] = field(repr=False)
    place: int
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Delivery:
    """
    A request as it came. headers: names in lower case. query: as sent, undecoded. url: as the gateway addressed it.

    path: what the address has after the hook's own. item: the one of several texts in it that is looked at. charset: what
    the profile says of it. Reading is by the bytes: a text in another encoding than the rest must not pass through UTF-8
    on its way.
    """

    method: str
    url: str
    query: bytes
    headers: Mapping[str, str]
    body: bytes
    client: str | None = None
    path: tuple[str, ...] = ()
    item: Part | Nth | Element | None = None
    charset: Charset = _AS_UTF_8
    _parsed: dict[str, object] = field(default_factory=dict, repr=False)

    def raw(self, source: str, shape: Shape) -> bytes | None:
        """The first of ``raws``, or None."""
        return next(iter(self._raws(source, shape)), None)

    def _raws(self, source: str, shape: Shape) -> list[bytes]:
        """The bytes of what stands in a query, a form or the whole body; a field may come several times."""
        where, _, name = source.partition(":")
        if source == "body":
            return [self.body]
        if where == "query":
            return self._fields("query").get(name, [])
        if where == "body" and shape in ("form", "multipart"):
            return self._fields(shape).get(name, [])
        if where == "item" and isinstance(self.item, Nth):
            if self.item.numbered:
                return self.item.fields.get(name.replace("{n}", str(self.item.place)), [])
            return self.item.fields.get(name, [])[self.item.place : self.item.place + 1]
        return []

    def values(self, source: str, shape: Shape) -> tuple[str, ...]:
        """
        What stands at *source*, as texts; empty if nothing does.

        A list in JSON gives all its items. Raises Malformed for a body that is not what the profile says.
        """
        where, _, name = source.partition(":")
        if where == "header":
            return self._header(name)
        if where == "path":
            return self.path[int(name) - 1 : int(name)]
        if where == "item" and not isinstance(self.item, Nth):
            return self._in_item(name)
        if where == "body" and name and shape == "json":
            return tuple(text for found in in_json(self._json(), steps(name, shape)) for text in texts(found))
        if where == "body" and name and shape == "xml":
            return tuple(xml_text(found) for found in in_xml(self._xml(), steps(name, shape), from_root=True))
        found = self._raws(source, shape)
        if found:
            return tuple(one.decode("utf-8", "replace") for one in found)
        return tuple(text for value in self._in_field(where, name, shape) for text in _as_texts(value))

    def value(self, source: str, shape: Shape) -> str | None:
        """The first value at *source*, or None."""
        found = self.values(source, shape)
        return found[0] if found else None

    def text(self, source: str, shape: Shape, charset: Charset) -> str | None:
        """
        The customer's words at *source*, read in the encoding the delivery tells; None if the field is not there.

        Several values are several lines of one text.
        """
        found: Sequence[bytes | str] = self._raws(source, shape) or self.values(source, shape)
        if not found:
            return None
        spelling, codec = split_coding(self._coding(charset, shape), charset.written)
        lines = [_words(one, spelling, codec) for one in found]
        return "\n".join(line for line in lines if line) if len(lines) > 1 else lines[0]

    def items(self, source: str, shape: Shape) -> tuple[Delivery, ...]:
        """
        The delivery once for each item of the list at *source*; a single one where a list could be is a list of one.

        Raises Malformed when there is no such place: only a JSON list can be there and empty.
        """
        found = self._items(source, shape)
        if found is None:
            raise Malformed(f"there is no list at {source}")
        if len(found) > MOST_ITEMS:
            raise Malformed(f"there are more than {MOST_ITEMS} at {source}; deliver fewer at a time")
        return tuple(replace(self, item=item) for item in found)

    def has_items(self, source: str, shape: Shape) -> bool:
        """Whether there is a list at *source* with something in it."""
        try:
            return bool(self._items(source, shape))
        except Malformed:
            return False

    def pairs(self, shape: Shape) -> Pairs:
        """All form fields in order, or with another *shape* all of the query's."""
        name = "form" if shape in ("form", "multipart") else "query"
        if name not in self._parsed:
            said = self.headers.get("content-type", "")
            if name == "query":
                self._parsed[name] = pairs_of(self.query)
            elif said.strip().lower().startswith("multipart/form-data"):
                self._parsed[name] = multipart_of(self.body, said)
            else:
                self._parsed[name] = pairs_of(self.body)
        return cast(Pairs, self._parsed[name])

    def _fields(self, shape: Shape) -> Mapping[str, list[bytes]]:
        """The same by name, each with all its values."""
        name = "form fields" if shape in ("form", "multipart") else "query fields"
        if name not in self._parsed:
            fields: dict[str, list[bytes]] = {}
            for key, value in self.pairs(shape):
                fields.setdefault(key, []).append(value)
            self._parsed[name] = fields
        return cast(dict[str, list[bytes]], self._parsed[name])

    def _header(self, name: str) -> tuple[str, ...]:
        """A header, or with ``NAME;part`` one part of a header such as ``t=1796144340,v1=5257a8``."""
        name, _, part = name.partition(";")
        value = self.headers.get(name.lower())
        if value is None or not part:
            return () if value is None else (value,)
        pairs = (one.strip().partition("=") for one in re.split("[,;]", value))
        return tuple(said.strip().strip('"') for key, _, said in pairs if key.strip() == part)

    def _in_item(self, name: str) -> tuple[str, ...]:
        if isinstance(self.item, Part):
            return tuple(text for found in in_json(self.item.value, steps(name, "json")) for text in texts(found))
        if not isinstance(self.item, Element):
            return ()
        return tuple(xml_text(found) for found in in_xml(self.item, steps(name, "xml"), from_root=False))

    def _in_field(self, where: str, name: str, shape: Shape) -> list[object]:
        """What ``FIELD.path`` leads to, where a field of a form or query holds JSON or XML."""
        head, parted, rest = name.partition(".")
        field_ = self.raw(f"{where}:{head}", shape) if parted and where in ("body", "query") else None
        if field_ is None:
            return []
        if not field_.lstrip(_BEFORE_XML).startswith(b"<"):
            return in_json(field_.decode("utf-8", "replace"), steps(rest, "json"))
        document = f"{where}:{head}"
        if document not in self._parsed:
            self._parsed[document] = xml_of(field_)
        return list(in_xml(cast(Element, self._parsed[document]), steps(rest, "xml"), from_root=True))

    def _items(self, source: str, shape: Shape) -> Sequence[Part | Nth | Element] | None:
        where, _, name = source.partition(":")
        if where == "body" and shape == "json":
            return _parts(in_json(self._json(), steps(name, shape)))
        if where == "body" and shape == "xml":
            found = in_xml(self._xml(), steps(name, shape), from_root=True)
            return [one for one in found if isinstance(one, Element)] or None
        fields = self._fields("query" if where == "query" else shape)
        if "{n}" in name:
            return [Nth(fields, n, numbered=True) for n in _numbers(name, fields)] or None
        if name in fields:
            return [Nth(fields, n) for n in range(len(fields[name]))]
        return _parts(self._in_field(where, name, shape))

    def _coding(self, charset: Charset, shape: Shape) -> str:
        if charset.told_by is None:
            return charset.otherwise
        told = self.value(charset.told_by, shape)
        if told is not None and charset.told_by.lower() == "header:content-type":
            told = charset_of(told)
        if not told:
            return charset.otherwise
        if told in charset.names:
            return charset.names[told]
        named = charset.told_by.startswith("header:") and reads_anything(told)
        return told if named else charset.otherwise

    def _whole_coding(self) -> str | None:
        """
        The charset of the whole body, if one is told; where texts are spelled in letters, the charset is theirs.

        By the Content-Type, which is of the body, or by the profile. A place within the body cannot tell how to read it.
        """
        told = charset_of(self.headers.get("content-type", ""))
        if told and reads_anything(told):
            return told
        if self.charset.told_by is not None and self.charset.told_by.partition(":")[0] in ("body", "item"):
            return None
        spelling, codec = split_coding(self._coding(self.charset, "raw"), self.charset.written)
        return codec if spelling == "plain" else None

    def _json(self) -> object:
        if "json" not in self._parsed:
            self._parsed["json"] = json_of(self.body, self._whole_coding())
        return self._parsed["json"]

    def _xml(self) -> Element:
        if "xml" not in self._parsed:
            self._parsed["xml"] = xml_of(self.body, self._whole_coding())
        return cast(Element, self._parsed["xml"])


def _words(found: bytes | str, spelling: Spelling, codec: str) -> str:
    if spelling == "plain":
        return decoded(found, codec) if isinstance(found, bytes) else cleaned(found)
    letters = found if isinstance(found, bytes) else found.encode("utf-8", "replace")
    content = unspelled(letters, spelling)
    # What is not spelled as it should be may well be the words themselves.
    return decoded(letters, "utf-8") if content is None else decoded(content, codec)


def _numbers(name: str, fields: Mapping[str, list[bytes]]) -> list[int]:
    """The numbers there are, in order: one that is left out must not hide those after it."""
    before, _, after = name.partition("{n}")
    pattern = re.compile(re.escape(before) + r"(0|[1-9][0-9]{0,5})" + re.escape(after).replace(r"\{n\}", r"\1"))
    return sorted(int(match[1]) for field_ in fields if (match := pattern.fullmatch(field_)))


def _parts(found: list[object]) -> list[Part | Element] | None:
    if not found:
        return None
    items = [item for one in found for item in (one if isinstance(one, list) else [one])]
    return [item if isinstance(item, Element) else Part(item) for item in items]


def _as_texts(value: object) -> list[str]:
    return [xml_text(value)] if isinstance(value, Element) else texts(value)
