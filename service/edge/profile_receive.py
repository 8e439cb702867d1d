"""What a profile may say of texts and receipts that come in, and of the answer to them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag, model_validator

from service.edge.codings import CharsetName, CodingName, Spelling
from service.edge.places import PerhapsSource, Several, Shape, Source
from service.edge.profile_proofs import Auth
from service.edge.times import TimeWritten, ZoneName
from service.rulebook.schema.common import Strict


class Charset(Strict):
    """How the bytes of the text are to be read, when that is not UTF-8."""

    told_by: Source | None = Field(default=None, description="header:content-type means its charset parameter")
    names: dict[str, CodingName] = Field(default={}, description="what the gateway calls them, to Python's names")
    otherwise: CodingName = "utf-8"
    written: Spelling = Field(default="plain", description="how a text's bytes are spelled, where no name says so")


class Time(Strict):
    """When the carrier took the text."""

    at: Source
    written: TimeWritten = Field(
        default="iso", description='iso, unix, unix_ms, http, or a pattern such as "%d.%m.%Y %H:%M:%S"'
    )
    zone: ZoneName = Field(default="UTC", description="of times that tell none")


class Parts(Strict):
    """Where a part of a long text says which text it is of, its number (from 0 or 1), and how many there are."""

    reference: Source
    number: Source
    of: Source
    wait_s: int = Field(
        default=30, ge=1, le=300, description="so long after the last part the others are waited for, seconds"
    )


class Composed(Strict):
    """An id made of the delivery itself, for a gateway that has none."""

    of: tuple[Literal["sender", "recipient", "text", "time", "media"], ...] = ()
    also: Annotated[tuple[PerhapsSource, ...], Several] = Field(
        default=(), description="places whose values make it one of a kind; one that may be missing ends in ?"
    )
    repeat_within_s: int = Field(default=0, ge=0, description="without a time: equal texts this near are one text")

    @model_validator(mode="after")
    def _of_enough(self) -> Composed:
        if len(self.of) + len(self.also) < 2:
            raise ValueError("an id is composed of two or more: fields in of, places in also")
        return self


def _kind_of_identity(written: object) -> str:
    return "place" if isinstance(written, str) else "composed"


# Told apart before they are read, so that a mistake in one is not reported as a mistake in both.
Identity = Annotated[
    Annotated[Source, Tag("place")] | Annotated[Composed, Tag("composed")], Discriminator(_kind_of_identity)
]


class Answer(Strict):
    """
    What the gateway wants to hear.

    json: ``{"status": "ok"}``. empty: nothing. fixed: the template. reply: the reply itself, alone or in the template.
    """

    kind: Literal["json", "empty", "fixed", "reply"] = "json"
    status: int = Field(default=200, ge=200, le=299)
    headers: dict[str, str] = Field(default={})
    written: Literal["text", "xml", "json"] = Field(default="text", description="what the template is")
    template: str | None = Field(
        default=None,
        description="{reply}, {to}, {from}, {id}, {key} and places such as {body:id} are filled, as text, XML or JSON",
    )
    nothing_template: str | None = Field(default=None, description="the body when there is no reply")
    reply_written: Spelling = Field(default="plain", description="hex, base64 or percent: {reply} is that of its bytes")
    reference: Source | None = Field(
        default=None, description="what receipts will call the reply, where that is not the text's id"
    )
    content_type: str | None = Field(default=None, description="without it, what fits; the charset is added")
    charset: CharsetName = "utf-8"
    beyond_7_bit: dict[str, str] = Field(default={}, description="headers to add when the 7-bit alphabet is not enough")
    beyond_7_bit_charset: CharsetName | None = None
    nothing_status: int = Field(default=200, ge=200, le=299, description="when there is no reply")
    nothing_headers: dict[str, str] = Field(default={})
    malformed_status: int = Field(
        default=422, ge=200, le=499, description="some texts the customer its own error for 4xx"
    )


class AsksFirst(Strict):
    """
    How a gateway asks whether the address is ours, before it delivers there: it wants back what it sent along. Or whether
    anybody is there, which is answered without it.
    """

    method: Literal["POST", "GET", "PUT"] = "GET"
    body: Shape = "query"
    auth: tuple[Auth, ...] = Field(
        default=(), description="all of these must agree; may be left out where nothing is echoed"
    )
    only: dict[Source, tuple[str, ...]] = Field(default={}, description="what tells the question from a text")
    echo: Source | None = Field(default=None, description="what is to be said back, as plain text or in the template")
    template: str | None = Field(default=None, description="the whole answer; {echo} is what is to be said back")
    written: Literal["text", "xml", "json"] = Field(default="text", description="what the template is")

    @model_validator(mode="after")
    def _says_something(self) -> AsksFirst:
        if self.echo is None and self.template is None:
            raise ValueError("asks_first needs echo, a place, or template: what is answered")
        if self.echo is not None and not self.auth:
            raise ValueError("asks_first says back only what comes with a proof; write auth, or template without echo")
        return self


class Receive(Strict):
    """How texts come in."""

    method: Literal["POST", "GET", "PUT"] = "POST"
    body: Shape = "json"
    auth: tuple[Auth, ...] = Field(min_length=1, description="all of these must agree")
    only: dict[Source, tuple[str, ...]] = Field(default={}, description="other deliveries are answered and left")
    each: Source | None = Field(default=None, description="the list, where one request brings several texts")
    sender: Source
    recipient: Source | None = Field(default=None, description="without it, the shop's own number")
    text: Source
    media: Annotated[tuple[Source, ...], Several] = Field(
        default=(), description="links; a list in JSON counts as all of its links"
    )
    id: Identity
    time: Time | None = None
    parts: Parts | None = Field(default=None, description="of a long text that is handed over part by part")
    charset: Charset = Charset()
    region: str = Field(default="US", pattern=r"^[A-Z]{2}$", description="country of numbers without country code")
    answer: Answer = Answer()
    asks_first: AsksFirst | None = None

    @model_validator(mode="after")
    def _question_can_be_told(self) -> Receive:
        if self.asks_first and self.asks_first.method == self.method and not self.asks_first.only:
            raise ValueError("asks_first needs only, or another method than the texts have, to be told from a text")
        return self

    @model_validator(mode="after")
    def _repeats_can_be_told(self) -> Receive:
        if isinstance(self.id, Composed) and not self.id.also:
            timed = "time" in self.id.of and self.time is not None
            if not timed and not self.id.repeat_within_s:
                raise ValueError("an id composed without a time needs repeat_within_s, or two equal answers become one")
        return self


class Receipts(Strict):
    """How the gateway tells what became of a text, at ``/hooks/SHOP/GATEWAY/receipts``, or at the hook itself."""

    method: Literal["POST", "GET", "PUT"] = "POST"
    body: Shape = "json"
    auth: tuple[Auth, ...] = Field(default=(), description="as for texts when none is given")
    only: dict[Source, tuple[str, ...]] = Field(default={})
    each: Source | None = Field(default=None, description="the list, where one request brings several receipts")
    key: Source | None = Field(default=None, description="where our own {key} comes back")
    reference: Source | None = Field(default=None, description="or where the gateway's id stands")
    state: Source
    delivered: tuple[str, ...] = Field(min_length=1)
    failed: tuple[str, ...] = ()
    at_the_hook: bool = Field(default=False, description="they come to the address of the texts; tell them by ``only``")
    answer: Answer | None = Field(default=None, description="what they are answered; 200 and nothing without it")

    @model_validator(mode="after")
    def _names_the_text(self) -> Receipts:
        if self.key is None and self.reference is None:
            raise ValueError("a receipt needs key or reference, to know which text it is about")
        if self.at_the_hook and not self.only and not self.each:
            raise ValueError("receipts at the hook need only, or a list of their own (each), to tell them from texts")
        return self
