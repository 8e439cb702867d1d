"""A body's bytes read as JSON, XML or form fields; what cannot be read so is malformed, never a surprise."""

from __future__ import annotations

import codecs
import json
from email.message import Message
from typing import Any
from urllib.parse import unquote_to_bytes
from xml.etree.ElementTree import Element  # for the type alone

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import ParseError, fromstring
from python_multipart.exceptions import FormParserError
from python_multipart.multipart import MultipartParser, parse_options_header

from service.edge.places import json_document


class Malformed(Exception):
    """A delivery is not what its profile says; the message says what is missing, without anything a customer wrote."""


def json_of(body: bytes, charset: str | None = None) -> object:
    """
    The JSON document in *body*, read in *charset*, else as UTF-8, else with replacement signs for what cannot be read.

    Raises Malformed, also for one with more levels than any gateway needs.
    """
    try:
        return json_document(_read(body, charset))
    except ValueError as wrong:
        raise Malformed("the body is not JSON") from wrong


def _read(body: bytes, charset: str | None) -> str:
    """*body* in *charset*, if it is no name of UTF-8, else in the one of Unicode's encodings that JSON's rules tell."""
    told = charset if charset and codecs.lookup(charset).name != "utf-8" else None
    for codec in (told, json.detect_encoding(body)):
        try:
            if codec is not None:
                return body.decode(codec).removeprefix("\ufeff")
        except UnicodeError:
            continue
    return body.decode("utf-8", "replace")


def xml_of(body: bytes, charset: str | None = None) -> Element:
    """
    The root of the XML document in *body*, in the encoding it declares, else in *charset*, else with replacement signs.

    Raises Malformed, also for one that declares entities or points outside: an entity may stand for a gigabyte or for a
    file of this machine; no gateway needs one to carry a text.
    """
    ways: list[bytes | str] = [
        body,
        *([body.decode(charset, "replace")] if charset else ()),
        body.decode("utf-8", "replace"),
    ]
    for place, written in enumerate(ways):
        try:
            root: Element = fromstring(written)
        except DefusedXmlException as wrong:
            raise Malformed("the body is XML with entities of its own, which are refused") from wrong
        except (ParseError, ValueError, LookupError) as wrong:
            if place == len(ways) - 1:
                raise Malformed("the body is not XML") from wrong
        else:
            return root
    raise Malformed("the body is not XML")


def pairs_of(encoded: bytes) -> list[tuple[str, bytes]]:
    """The fields of a query or a form in the order they came; values as bytes, for their charset is not known yet."""
    pairs = []
    for part in encoded.split(b"&"):
        if part:
            key, _, value = part.partition(b"=")
            pairs.append((_plain(key).decode("utf-8", "replace"), _plain(value)))
    return pairs


def _plain(encoded: bytes) -> bytes:
    return unquote_to_bytes(encoded.replace(b"+", b" "))


def multipart_of(body: bytes, content_type: str) -> list[tuple[str, bytes]]:
    """The fields of a multipart form in order; files are left out. Raises Malformed."""
    boundary = parse_options_header(content_type)[1].get(b"boundary")
    if not boundary:
        raise Malformed("the body is multipart, and its Content-Type names no boundary")
    reader = _Multipart()
    try:
        parser = MultipartParser(boundary, reader.callbacks())
        parser.write(body)
        parser.finalize()
    except (FormParserError, ValueError) as wrong:
        raise Malformed("the body is not multipart as its Content-Type says") from wrong
    if not reader.ended:
        raise Malformed("the multipart body breaks off")
    return reader.fields


class _Multipart:
    """Gathers the parts of a multipart body as its parser meets them."""

    def __init__(self) -> None:
        self.fields: list[tuple[str, bytes]] = []
        self.ended = False
        self._header = [b"", b""]
        self._disposition = b""
        self._data = b""

    def callbacks(self) -> Any:
        def begin() -> None:
            self._header, self._disposition, self._data = [b"", b""], b"", b""

        def header(place: int) -> Any:
            def more(data: bytes, start: int, end: int) -> None:
                self._header[place] += data[start:end]

            return more

        def header_end() -> None:
            if self._header[0].lower() == b"content-disposition":
                self._disposition = self._header[1]
            self._header = [b"", b""]

        def data(data: bytes, start: int, end: int) -> None:
            self._data += data[start:end]

        def end() -> None:
            self.ended = True

        return {
            "on_part_begin": begin, "on_header_field": header(0), "on_header_value": header(1),
            "on_header_end": header_end, "on_part_data": data, "on_part_end": self._keep, "on_end": end,
        }  # fmt: skip

    def _keep(self) -> None:
        said = parse_options_header(self._disposition)[1]
        if b"name" in said and b"filename" not in said:
            self.fields.append((said[b"name"].decode("utf-8", "replace"), self._data))


def charset_of(content_type: str) -> str | None:
    """The charset parameter of a Content-Type, or None."""
    message = Message()
    message["content-type"] = content_type
    charset = message.get_content_charset()
    return str(charset) if charset else None
