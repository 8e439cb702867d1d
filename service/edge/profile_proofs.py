"""How a gateway may prove that a delivery is its own, and how a profile names the secrets for it."""

from __future__ import annotations

import re
from ipaddress import IPv4Network, IPv6Network
from typing import Annotated, Literal

from pydantic import Field, StringConstraints, model_validator

from service.edge.places import Source, is_place
from service.edge.times import TimeWritten, ZoneName
from service.rulebook.schema.common import Strict

Secret = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
"""The name of a secret; its value comes from the setting ``gateway_secrets``, never from a profile."""

Verbatim = Annotated[str, StringConstraints(strip_whitespace=False)]
"""Kept to the last space and newline: what is signed is signed with them."""

KeyWritten = Literal["plain", "hex", "base64"]
"""How the secret that is a key is written: as it is, or its bytes in hex or base64."""


SIGNED = ("body", "url", "method", "sorted_form", "sorted_query", "secret")
"""What may be signed besides places."""


class StandardWebhooks(Strict):
    """Signed as the Standard Webhooks specification 1.0.0 says (source A10)."""

    kind: Literal["standard_webhooks"]
    secret: Secret = Field(default="signing")
    tolerance_s: int = Field(default=300, ge=1, le=3600, description="how old or early a delivery may be (A11)")


class SignedTime(Strict):
    """Where the signed moment stands, and how it is written where it is no Unix time."""

    at: Source
    written: TimeWritten = "iso"
    zone: ZoneName = "UTC"


class Sorted(Strict):
    """How the fields stand in ``{sorted_form}`` and ``{sorted_query}``; the signature itself is never among them."""

    equals: Verbatim = Field(default="", description="between a name and its value")
    between: Verbatim = Field(default="", description="between two fields")
    values_written: Literal["plain", "percent", "form"] = Field(
        default="plain", description="percent: coded as in an address; form: the same with a plus for a space"
    )
    without: tuple[str, ...] = Field(default=(), description="fields that are not signed")
    empty: bool = Field(default=True, description="no: fields without a value are not signed either")


class Hmac(Strict):
    """Signed with a hash. ``signs`` is what is hashed; see DEVELOPERS.md for its placeholders."""

    kind: Literal["hmac"]
    secret: Secret = Field(default="signing")
    key_written: KeyWritten = "plain"
    header: str = Field(default="", description="the header with the signature")
    at: Source | None = Field(default=None, description="or any other place of the signature, such as body:sign")
    prefix: Verbatim = ""
    algorithm: Literal["md5", "sha1", "sha256", "sha512"] = "sha256"
    keyed: bool = Field(default=True, description="no: a plain hash, with {secret} in what is hashed")
    encoding: Literal["hex", "base64"] = "hex"
    signs: Verbatim = Field(
        default="{body}",
        description="{body}, {url}, {method}, {sorted_form}, {sorted_query}, {secret} and any place such as {header:X}",
    )
    sorted: Sorted = Sorted()
    time: Source | SignedTime | None = Field(
        default=None, description="where the signed Unix time stands, or {at, written, zone}"
    )
    tolerance_s: int = Field(default=300, ge=1, le=3600)

    @model_validator(mode="after")
    def _has_a_place(self) -> Hmac:
        if bool(self.header) == bool(self.at):
            raise ValueError("hmac needs header or at, one of them: the place of the signature")
        if self.sorted != Sorted() and "{sorted_" not in self.signs:
            raise ValueError("sorted says how {sorted_form} or {sorted_query} is written, and signs has neither")
        if not self.keyed and "{secret}" not in self.signs:
            raise ValueError("a hash without a key needs {secret} in signs, or anybody can make it")
        return self

    @model_validator(mode="after")
    def _can_be_filled(self) -> Hmac:
        for name in re.findall(r"\{([^}]+)\}", self.signs):
            if name not in SIGNED and not is_place(name):
                known = ", ".join(f"{{{one}}}" for one in SIGNED)
                raise ValueError(
                    f"{{{name}}} in signs is no placeholder; write {known} or a place such as {{header:X}}"
                )
        return self

    @property
    def place(self) -> str:
        """The place of the signature."""
        return self.at or f"header:{self.header}"

    @property
    def time_at(self) -> str | None:
        """The place of the time, if there is one."""
        return self.time.at if isinstance(self.time, SignedTime) else self.time


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
