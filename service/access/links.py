"""
Signed links: an address that opens one thing for whoever holds it, until it expires. Nothing is stored.

A link says which shop and thing it opens and until when, behind a keyed hash of that and of its purpose. A link for one
purpose opens nothing of another. Sources X5, X9.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Literal

Purpose = Literal["sheet", "customer", "calendar"]

LIVES: dict[Purpose, timedelta] = {
    "sheet": timedelta(days=30),
    "customer": timedelta(days=30),
    "calendar": timedelta(days=30),
}
"""How long each link opens: long enough for a visit two weeks ahead and the outcome after it."""

_MARK_BYTES = 20  # 160 bits, more than the 128 of source X9
_SHORTEST_SECRET = 32


@dataclass(frozen=True, slots=True)
class Link:
    """What a valid link opens."""

    purpose: Purpose
    shop: str
    subject: str
    expires: datetime


@dataclass(frozen=True, slots=True)
class Expired:
    """The link is ours, but its time is over."""

    shop: str


def sign(secret: str, purpose: Purpose, shop: str, subject: str, expires: datetime) -> str:
    """A token for an address: letters, digits, ``-`` and ``_``. *expires*: aware; kept to the second."""
    if "\n" in shop + subject:
        raise ValueError("a link's shop and subject are single lines")
    body = f"{int(expires.timestamp()):x}\n{shop}\n{subject}".encode()
    return base64.urlsafe_b64encode(_mark(secret, purpose, body) + body).decode().rstrip("=")


def read(secret: str, purpose: Purpose, token: str, now: datetime) -> Link | Expired | None:
    """What *token* opens; Expired if it no longer does, None if it was never ours or is for something else."""
    try:
        raw = base64.b64decode(token + "=" * (-len(token) % 4), altchars=b"-_", validate=True)
        mark, body = raw[:_MARK_BYTES], raw[_MARK_BYTES:]
        if not hmac.compare_digest(mark, _mark(secret, purpose, body)):
            return None
        moment, shop, subject = body.decode().split("\n")
        expires = datetime.fromtimestamp(int(moment, 16), UTC)
    except (ValueError, binascii.Error, OverflowError):
        return None
    return Link(purpose, shop, subject, expires) if now < expires else Expired(shop)


def _mark(secret: str, purpose: str, body: bytes) -> bytes:
    if len(secret) < _SHORTEST_SECRET:
        raise ValueError(f"the secret that signs links needs {_SHORTEST_SECRET} characters or more")
    key = hmac.new(secret.encode(), f"plainfault link: {purpose}".encode(), hashlib.sha256).digest()
    return hmac.new(key, body, hashlib.sha256).digest()[:_MARK_BYTES]
