"""
A gateway's profile: where its fields stand, how it signs, what it wants for an answer, how to send by it.

A profile is data. Nothing of a gateway is known outside its profile, so a new gateway needs no code.
"""

from __future__ import annotations

from pydantic import Field, model_validator

from service.edge.profile_receive import Receipts, Receive
from service.edge.profile_send import Send
from service.rulebook.schema.common import Code, Strict


class Limits(Strict):
    """What the gateway bears."""

    per_second: float = Field(default=1, gt=0, description="texts a second")
    burst: int = Field(default=5, ge=1)
    attempts: int = Field(default=8, ge=1, le=20, description="then a person decides")
    max_body_bytes: int | None = Field(
        default=None, ge=1_024, description="of one delivery; without it PLAINFAULT_MAX_BODY_BYTES"
    )


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
