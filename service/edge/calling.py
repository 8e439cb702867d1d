"""One call to a gateway, and what its answer means for the text."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from html import unescape
from urllib.parse import quote, quote_plus

from service.edge.bodies import Malformed, charset_of
from service.edge.codings import reads_anything
from service.edge.delivery import Delivery
from service.edge.gateways import Gateway, SecretMissing
from service.edge.places import Shape
from service.edge.profile_send import Send
from service.edge.readiness import names_of
from service.edge.sending import Text, request_for
from service.edge.verify import SecretUnusable
from service.edge.wire import Ask, NoAddress, NoAnswer, NotReached

UNKNOWN_STATUS = (502, 504)
"""Said by something between us and the gateway, which may well have taken the text."""

LONGEST_RETRY_AFTER_S = 3600.0

MOST_SAID = 160
"""Characters kept of what a gateway says when it does not take a text."""

MOST_READ = 8_192
"""Bytes of such an answer that are looked at: before an error page says anything there may be a screen of markup."""

SHORTEST_SECRET = 4
"""A shorter one is no secret, and would be found in every other word."""


@dataclass(frozen=True, slots=True)
class _NotTaken:
    """
    Why it was not taken, and how the gateway put it.

    said: the beginning of its answer, in one line. status: of its answer, None if there was none. Both are for people.
    """

    why: str
    said: str = field(default="", compare=False, kw_only=True)
    status: int | None = field(default=None, compare=False, kw_only=True)

    @property
    def words(self) -> str:
        """Why, and the gateway's own words."""
        return f"{self.why}: {self.said}" if self.said else self.why


@dataclass(frozen=True, slots=True)
class Taken:
    """The gateway has it. reference: its own id, if it gave one."""

    reference: str | None = None


@dataclass(frozen=True, slots=True)
class Refused(_NotTaken):
    """It does not have it and never will."""


@dataclass(frozen=True, slots=True)
class Busy(_NotTaken):
    """It does not have it yet; again later, not before *after_s* if given."""

    after_s: float | None = None


@dataclass(frozen=True, slots=True)
class Unknown(_NotTaken):
    """It may have it or not."""


@dataclass(frozen=True, slots=True)
class NotSetUp(_NotTaken):
    """It was not asked, for a fault of ours that only a person mends: the text waits for that."""


Outcome = Taken | Refused | Busy | Unknown | NotSetUp


def call(ask: Ask, gateway: Gateway, text: Text, now: datetime) -> Outcome:
    """Hand *text* to the gateway. Raises nothing for a failure of the network or a secret that is missing."""
    send = gateway.profile.send
    if send is None:
        return Refused(f"gateway {gateway.name} has no way to send")
    try:
        request = request_for(gateway, send, text, now)
    except SecretMissing as wrong:
        return NotSetUp(str(wrong))
    except SecretUnusable as wrong:
        return NotSetUp(f"Gateway {gateway.name}: {wrong}. Mend it in the setting PLAINFAULT_GATEWAY_SECRETS.")
    except NoAddress:
        return Refused("what its profile and secrets make for an address is none")
    try:
        answer = ask(request)
    except NotReached as wrong:  # the text was certainly not taken
        return Busy(f"not reached: {wrong}")
    except NoAnswer as wrong:
        return Unknown(f"no answer: {wrong}")
    outcome = judge(send, answer.status, answer.headers, answer.body, now)
    if isinstance(outcome, Taken):
        return outcome
    names = names_of(gateway.profile).send
    secrets = [gateway.secret(text.shop, name) for name in names if gateway.has_secret(text.shop, name)]
    said = first_words(answer.body, answer.headers.get("content-type", ""), secrets)
    return replace(outcome, said=said, status=answer.status)


def first_words(body: bytes, content_type: str, secrets: Sequence[str] = ()) -> str:
    """The beginning of an answer as people read it: one line, without HTML's tags, without any of *secrets*."""
    charset = charset_of(content_type) or "utf-8"
    text = body[:MOST_READ].decode(charset if reads_anything(charset) else "utf-8", "replace")
    if re.match(r"\s*<(!doctype\s+)?html\b", text, re.IGNORECASE):
        text = unescape(re.sub(r"<(script|style|head)\b.*?</\1>|<[^>]*>?", " ", text, flags=re.IGNORECASE | re.DOTALL))
    for secret in sorted((form for one in secrets for form in {one, quote(one, safe=""), quote_plus(one)}), key=len)[
        ::-1
    ]:
        if len(secret) >= SHORTEST_SECRET:
            text = text.replace(secret, "(secret)")
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())[:MOST_SAID]


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
