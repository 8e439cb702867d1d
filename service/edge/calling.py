"""One call to a gateway, and what its answer means for the text."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime

import httpx

from service.edge.bodies import Malformed
from service.edge.delivery import Delivery
from service.edge.gateways import Gateway
from service.edge.places import Shape
from service.edge.profile_send import Send
from service.edge.sending import Text, request_for

NOT_REACHED = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout, httpx.UnsupportedProtocol)
"""Failures before a byte of the request could have arrived: the text was certainly not taken."""

UNKNOWN_STATUS = (502, 504)
"""Said by something between us and the gateway, which may well have taken the text."""

LONGEST_RETRY_AFTER_S = 3600.0


@dataclass(frozen=True, slots=True)
class Taken:
    """The gateway has it. reference: its own id, if it gave one."""

    reference: str | None = None


@dataclass(frozen=True, slots=True)
class Refused:
    """It does not have it and never will."""

    why: str


@dataclass(frozen=True, slots=True)
class Busy:
    """It does not have it yet; again later, not before *after_s* if given."""

    why: str
    after_s: float | None = None


@dataclass(frozen=True, slots=True)
class Unknown:
    """It may have it or not."""

    why: str


Outcome = Taken | Refused | Busy | Unknown


def call(client: httpx.Client, gateway: Gateway, text: Text, now: datetime) -> Outcome:
    """Hand *text* to the gateway. Raises SecretMissing and SecretUnusable; no failure of the network is raised."""
    send = gateway.profile.send
    if send is None:
        return Refused(f"gateway {gateway.name} has no way to send")
    try:
        request = request_for(client, gateway, send, text, now)
    except httpx.InvalidURL:
        return Refused("what its profile and secrets make for an address is none")
    try:
        response = client.send(request, follow_redirects=False)
    except NOT_REACHED as wrong:
        return Busy(f"not reached: {type(wrong).__name__}")
    except httpx.HTTPError as wrong:
        return Unknown(f"no answer: {type(wrong).__name__}")
    return judge(send, response.status_code, dict(response.headers), response.content, now)


def judge(send: Send, status: int, headers: Mapping[str, str], body: bytes, now: datetime) -> Outcome:
    """What an answer says about the text."""
    if status in send.success.status:
        return _taken(send, headers, body, now)
    if status in send.busy or status in (429, 503):
        return Busy(f"answered {status}", _retry_after(headers, now))
    if status in UNKNOWN_STATUS:
        return Unknown(f"answered {status}")
    if status >= 500:
        return Busy(f"answered {status}", _retry_after(headers, now))
    return Refused(f"answered {status}")


def _taken(send: Send, headers: Mapping[str, str], body: bytes, now: datetime) -> Outcome:
    answer = Delivery("", "", b"", {name.lower(): value for name, value in headers.items()}, body)
    try:
        said = answer.value(send.success.at, _shape(send.success.at, body)) if send.success.at else None
        reference = answer.value(send.reference, _shape(send.reference, body)) if send.reference else None
    except Malformed:
        said, reference = None, None
    if reference and send.reference_pattern:
        part = re.search(send.reference_pattern, reference)
        reference = (part[part.lastindex or 0] if part else "") or None
    if send.success.at is not None:
        if said is None:
            return Unknown("its answer does not say whether it took the text")
        if any(re.search(wanted, said) for wanted in send.success.later):
            return Busy("its answer says later", _retry_after(headers, now))
        if not any(re.search(wanted, said) for wanted in send.success.equals):
            return Refused("its answer says that it did not take the text")
    return Taken(reference[:200] if reference else None)


def _shape(source: str, body: bytes) -> Shape:
    """What an answer is, by its first sign: the Content-Type of answers is often wrong."""
    first = body.lstrip(b"\xef\xbb\xbf \t\r\n")[:1]
    if not source.startswith("body:"):
        return "form"
    return "json" if first in (b"{", b"[") else "xml" if first == b"<" else "form"


def _retry_after(headers: Mapping[str, str], now: datetime) -> float | None:
    """Seconds, from seconds or an HTTP date (source A13); at most an hour, so that no answer can stop the line."""
    found = {name.lower(): value for name, value in headers.items()}.get("retry-after", "").strip()
    if found.isdigit():
        return min(float(found), LONGEST_RETRY_AFTER_S)
    try:
        at = parsedate_to_datetime(found)
    except (TypeError, ValueError):
        return None
    at = at if at.tzinfo else at.replace(tzinfo=UTC)
    return min(max(0.0, (at - now).total_seconds()), LONGEST_RETRY_AFTER_S)
