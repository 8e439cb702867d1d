"""What a profile may say of texts that go out: the request, how it is signed, and what its answer means."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from service.edge.codings import CharsetName, Spelling
from service.edge.places import Source
from service.edge.profile_proofs import KeyWritten, Secret, SendAuth, Verbatim
from service.edge.times import TimePattern, ZoneName
from service.rulebook.schema.common import Strict


def _usable_pattern(pattern: str) -> str:
    try:
        re.compile(pattern)
    except re.error as wrong:
        raise ValueError(f'the pattern "{pattern}" cannot be read: {wrong}') from wrong
    return pattern


Pattern = Annotated[str, AfterValidator(_usable_pattern)]
"""A regular expression, looked for anywhere in the value."""


class Coding(Strict):
    """How a text is written for the gateway."""

    charset: CharsetName = "utf-8"
    written: Spelling = Field(default="plain", description="hex, base64 or percent: {text} is that of the text's bytes")
    code: str = Field(default="", description="fills {coding}")


def in_characters(body: str, coding: Coding) -> bool:
    """Whether a text stands in such a *body* in the document's own characters, which leave none out."""
    return body in ("json", "xml") and coding.written == "plain"


class Computed(Strict):
    """A value made of others, for ``{computed:NAME}``: a signature, or a password that is sent as its hash."""

    of: Verbatim = Field(min_length=1, description="a pattern; also {body}, {url}, {path}, {query}, {method}")
    digest: Literal["none", "md5", "sha1", "sha256", "sha512"] = "sha256"
    key: Secret | None = Field(default=None, description="the secret of a keyed hash (HMAC); without it a plain hash")
    key_written: KeyWritten = "plain"
    written: Literal["hex", "base64"] = "hex"


class SendTime(Strict):
    """How ``{time}`` is written: the moment of sending."""

    written: TimePattern = "%Y%m%d%H%M%S"
    zone: ZoneName = "UTC"


class Success(Strict):
    """How an answer says that the text was taken: every given rule must hold."""

    status: tuple[int, ...] = (200, 201, 202, 204)
    at: Source | None = None
    equals: tuple[Pattern, ...] = ()
    later: tuple[Pattern, ...] = Field(default=(), description="what says: too many just now, ask again")


class Send(Strict):
    """
    How texts go out.

    url, fields, template, query and headers take placeholders: {to} {from} {text} {key} {shop} {coding} {receipt_url}
    {time} {time_unix} {time_unix_ms} {time_iso} {nonce}, {secret:NAME} and {computed:NAME}. ``key`` is the same on every
    attempt of one text, ``nonce`` is not. Numbers have other forms: {to|national}, {to|bare}, {to|00}.
    """

    method: Literal["POST", "GET", "PUT"] = "POST"
    url: str = Field(pattern=r"^(https?://|\{secret:)")
    auth: SendAuth | None = None
    body: Literal["json", "form", "xml", "query", "raw"] = "json"
    fields: dict[str, object] | list[object] = Field(default={}, description="a JSON body may nest, or be a list")
    template: str | None = Field(default=None, description="the document of an xml body; what is filled in is escaped")
    query: dict[str, str] = Field(default={})
    headers: dict[str, str] = Field(default={})
    computed: dict[Secret, Computed] = Field(default={}, description="in order; a later one may use an earlier one")
    time: SendTime = SendTime()
    plus: bool = Field(default=True, description="numbers with their leading +")
    seven_bit: Coding = Coding()
    beyond: Coding = Coding()
    idempotency_header: str | None = Field(default=None, description="the gateway sends a text with this key only once")
    success: Success = Success()
    reference: Source | None = Field(default=None, description="the gateway's own id, for receipts")
    reference_pattern: Pattern | None = Field(default=None, description='its part of that value: "ID: (\\w+)"')
    busy: tuple[int, ...] = (408, 425, 429)
    timeout_s: float = Field(default=20, gt=0, le=60)
