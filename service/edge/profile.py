"""
What a gateway's profile may say: where its fields stand, how it signs, what it wants for an answer, how to send by it.

A profile is data. Nothing of a gateway is known outside its profile, so a new gateway needs no code.
"""

from __future__ import annotations

from ipaddress import IPv4Network, IPv6Network
from typing import Annotated, Literal

from pydantic import Field, model_validator

from service.rulebook.schema.common import Code, Strict

Source = Annotated[str, Field(pattern=r"^(body|(body|query|header):.+)$")]
"""Where a value stands: ``body`` (all of it), ``body:data.from[0].number``, ``query:sender``, ``header:X-Message-Id``."""

Secret = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
"""The name of a secret; its value comes from the setting ``gateway_secrets``, never from a profile."""


class StandardWebhooks(Strict):
    """Signed as the Standard Webhooks specification 1.0.0 says (source A10)."""

    kind: Literal["standard_webhooks"]
    secret: Secret = Field(default="signing")
    tolerance_s: int = Field(default=300, ge=1, le=3600, description="how old or early a delivery may be (A11)")


class Hmac(Strict):
    """Signed with a keyed hash in a header. ``signs`` is what is hashed; see DEVELOPERS.md for its placeholders."""

    kind: Literal["hmac"]
    secret: Secret = Field(default="signing")
    header: str
    prefix: str = ""
    algorithm: Literal["sha1", "sha256", "sha512"] = "sha256"
    encoding: Literal["hex", "base64"] = "hex"
    signs: str = Field(
        default="{body}", description="{body}, {url}, {sorted_form}, {query:x} and {header:X} are filled"
    )
    time: Source | None = Field(default=None, description="where the signed Unix time stands, to refuse old ones")
    tolerance_s: int = Field(default=300, ge=1, le=3600)


class SharedSecret(Strict):
    """A secret that comes along as it is."""

    kind: Literal["shared_secret"]
    secret: Secret = Field(default="token")
    at: Source


class Basic(Strict):
    """HTTP basic authentication."""

    kind: Literal["basic"]
    user: str
    secret: Secret = Field(default="password")


class Bearer(Strict):
    """A bearer token in the Authorization header."""

    kind: Literal["bearer"]
    secret: Secret = Field(default="token")


class Addresses(Strict):
    """Only from these addresses. Behind a proxy, let the proxy set the client address and trust only that proxy."""

    kind: Literal["addresses"]
    allow: tuple[IPv4Network | IPv6Network, ...] = Field(min_length=1)


Auth = Annotated[
    StandardWebhooks | Hmac | SharedSecret | Basic | Bearer | Addresses, Field(discriminator="kind")
]  # fmt: skip
SendAuth = Annotated[Basic | Bearer, Field(discriminator="kind")]


class Charset(Strict):
    """How the bytes of the text are to be read, when that is not UTF-8."""

    told_by: Source | None = Field(default=None, description="header:content-type means its charset parameter")
    names: dict[str, str] = Field(default={}, description="what the gateway calls them, to Python's names")
    otherwise: str = "utf-8"


class Time(Strict):
    """When the carrier took the text."""

    at: Source
    written: Literal["iso", "unix", "unix_ms"] = "iso"


class Composed(Strict):
    """An id made of the delivery itself, for a gateway that has none."""

    of: tuple[Literal["sender", "recipient", "text", "time", "media"], ...] = Field(min_length=2)
    repeat_within_s: int = Field(default=0, ge=0, description="without a time: equal texts this near are one text")


class Answer(Strict):
    """
    What the gateway wants to hear.

    json: ``{"status": "ok"}``. empty: nothing. reply: the reply itself, as plain text.
    """

    kind: Literal["json", "empty", "reply"] = "json"
    status: int = Field(default=200, ge=200, le=299)
    headers: dict[str, str] = Field(default={})
    charset: str = "utf-8"
    beyond_7_bit: dict[str, str] = Field(default={}, description="headers to add when the 7-bit alphabet is not enough")
    beyond_7_bit_charset: str | None = None
    nothing_status: int = Field(default=200, ge=200, le=299, description="when there is no reply")
    nothing_headers: dict[str, str] = Field(default={})
    malformed_status: int = Field(
        default=422, ge=200, le=499, description="some texts the customer its own error for 4xx"
    )


class Receive(Strict):
    """How texts come in."""

    method: Literal["POST", "GET"] = "POST"
    body: Literal["json", "form", "query", "raw"] = "json"
    auth: tuple[Auth, ...] = Field(min_length=1, description="all of these must agree")
    only: dict[Source, tuple[str, ...]] = Field(default={}, description="other deliveries are answered and left")
    sender: Source
    recipient: Source | None = Field(default=None, description="without it, the shop's own number")
    text: Source
    media: tuple[Source, ...] = Field(default=(), description="links; a list in JSON counts as all of its links")
    id: Source | Composed
    time: Time | None = None
    charset: Charset = Charset()
    region: str = Field(default="US", pattern=r"^[A-Z]{2}$", description="country of numbers without country code")
    answer: Answer = Answer()

    @model_validator(mode="after")
    def _repeats_can_be_told(self) -> Receive:
        if isinstance(self.id, Composed):
            timed = "time" in self.id.of and self.time is not None
            if not timed and not self.id.repeat_within_s:
                raise ValueError("an id composed without a time needs repeat_within_s, or two equal answers become one")
        return self


class Coding(Strict):
    """How a text is written for the gateway."""

    charset: str = "utf-8"
    code: str = Field(default="", description="fills {coding}")


class Success(Strict):
    """How an answer says that the text was taken: every given rule must hold."""

    status: tuple[int, ...] = (200, 201, 202, 204)
    at: Source | None = None
    equals: tuple[str, ...] = ()


class Send(Strict):
    """
    How texts go out.

    url, fields, query and headers take placeholders: {to} {from} {text} {key} {shop} {coding} {receipt_url} and
    {secret:NAME}. ``key`` is the same on every attempt of one text.
    """

    method: Literal["POST", "GET", "PUT"] = "POST"
    url: str = Field(pattern=r"^(https?://|\{secret:)")
    auth: SendAuth | None = None
    body: Literal["json", "form", "query", "raw"] = "json"
    fields: dict[str, object] = Field(default={}, description="a JSON body may nest")
    query: dict[str, str] = Field(default={})
    headers: dict[str, str] = Field(default={})
    plus: bool = Field(default=True, description="numbers with their leading +")
    seven_bit: Coding = Coding()
    beyond: Coding = Coding()
    idempotency_header: str | None = Field(default=None, description="the gateway sends a text with this key only once")
    success: Success = Success()
    reference: Source | None = Field(default=None, description="the gateway's own id, for receipts")
    busy: tuple[int, ...] = (408, 425, 429)
    timeout_s: float = Field(default=20, gt=0, le=60)


class Receipts(Strict):
    """How the gateway tells what became of a text, at ``/hooks/SHOP/GATEWAY/receipts``, or at the hook itself."""

    method: Literal["POST", "GET"] = "POST"
    body: Literal["json", "form", "query", "raw"] = "json"
    auth: tuple[Auth, ...] = Field(default=(), description="as for texts when none is given")
    only: dict[Source, tuple[str, ...]] = Field(default={})
    key: Source | None = Field(default=None, description="where our own {key} comes back")
    reference: Source | None = Field(default=None, description="or where the gateway's id stands")
    state: Source
    delivered: tuple[str, ...] = Field(min_length=1)
    failed: tuple[str, ...] = ()
    at_the_hook: bool = Field(default=False, description="they come to the address of the texts; tell them by ``only``")

    @model_validator(mode="after")
    def _names_the_text(self) -> Receipts:
        if self.key is None and self.reference is None:
            raise ValueError("a receipt needs key or reference, to know which text it is about")
        if self.at_the_hook and not self.only:
            raise ValueError("receipts at the hook need only, to tell them from texts")
        return self


class Limits(Strict):
    """What the gateway bears."""

    per_second: float = Field(default=1, gt=0, description="texts a second")
    burst: int = Field(default=5, ge=1)
    attempts: int = Field(default=8, ge=1, le=20, description="then a person decides")
    max_body_bytes: int = Field(default=65_536, ge=1_024)


class Profile(Strict):
    """``deploy/gateways/NAME.yaml``."""

    gateway: Code
    about: str
    local: bool = Field(default=False, description="inside this service: a text is there once it is written")
    receive: Receive | None = None
    send: Send | None = None
    receipts: Receipts | None = None
    limits: Limits = Limits()

    @model_validator(mode="after")
    def _whole(self) -> Profile:
        if self.local:
            if self.receive or self.send or self.receipts:
                raise ValueError("a local gateway has no receive, send or receipts")
        elif self.send is None:
            raise ValueError("send is missing: also a gateway that takes replies in its answer must be able to remind")
        return self
