"""The request by which a text goes out, made of a profile's templates."""

from __future__ import annotations

import base64
import hashlib
import logging
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from urllib.parse import quote_plus
from zoneinfo import ZoneInfo

from service.edge.codings import holds
from service.edge.filling import Filling
from service.edge.gateways import Gateway
from service.edge.numbers import forms_of
from service.edge.profile_proofs import Basic
from service.edge.profile_send import Coding, Send, in_characters
from service.edge.wire import Request, address_of
from service.wording.segments import count

log = logging.getLogger("plainfault.sender")


@dataclass(frozen=True, slots=True)
class Text:
    """What is to be sent. key: the same on every attempt."""

    shop: str
    key: str
    number: str
    shop_number: str
    words: str
    receipt_url: str


def request_for(gateway: Gateway, send: Send, text: Text, now: datetime) -> Request:
    """The request that hands *text* to the gateway at *now*. Raises SecretMissing, SecretUnusable and NoAddress."""
    coding = _coding(gateway, send, text)
    values = _values(send, coding, text, now)
    fill = Filling(values, coding, lambda name: gateway.secret(text.shop, name), send.computed)
    url = fill.address(send.url)
    if send.query:
        url += ("&" if "?" in url else "?") + _encoded(send.query, fill)
    body = _body(send, fill, coding)
    address = address_of(url)
    fill.of_request = {
        "body": body or b"", "url": address.url.encode(), "path": address.path.encode(),
        "query": address.query.encode(), "method": send.method.encode(),
    }  # fmt: skip
    headers = _headers(send, fill, coding, body is not None)
    if send.idempotency_header:
        headers.setdefault(send.idempotency_header.lower(), f'"{text.key}"')
    if auth := _auth(gateway, send, text.shop, address.user):
        headers["authorization"] = auth
    # As bytes and in one line each: what a profile puts there may hold any character.
    lines = tuple((name.encode(), " ".join(value.splitlines()).encode()) for name, value in headers.items())
    return Request(method=send.method, address=address, headers=lines, body=body, timeout_s=send.timeout_s)


def _coding(gateway: Gateway, send: Send, text: Text) -> Coding:
    """As the text's alphabet says, or the way beyond it where the charset for 7-bit texts has not all of that alphabet."""
    coding = send.seven_bit if count(text.words).encoding == "GSM-7" else send.beyond
    if in_characters(send.body, coding) or holds(coding.charset, text.words):
        return coding
    if holds(send.beyond.charset, text.words):
        return send.beyond
    log.warning(
        "a text has signs that the gateway's charset lacks",
        extra={"gateway": gateway.name, "shop": text.shop, "key": text.key},
    )
    return coding


def _values(send: Send, coding: Coding, text: Text, now: datetime) -> dict[str, str]:
    at = f"{now.timestamp():.6f}"
    return {
        **forms_of({"to": text.number, "from": text.shop_number}),
        "to": _spelled(text.number, send), "from": _spelled(text.shop_number, send), "text": text.words,
        "key": text.key, "shop": text.shop, "coding": coding.code, "receipt_url": text.receipt_url,
        "time_unix": str(int(now.timestamp())), "time_unix_ms": str(int(now.timestamp() * 1000)),
        "time_iso": now.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
        "time": now.astimezone(ZoneInfo(send.time.zone)).strftime(send.time.written),
        "nonce": hashlib.sha256(f"{text.shop}.{text.key}.{at}".encode()).hexdigest()[:32],
    }  # fmt: skip


def _body(send: Send, fill: Filling, coding: Coding) -> bytes | None:
    if send.method == "GET" or send.body == "query":
        return None
    if send.body == "json":
        return fill.json(send.fields)
    if send.body == "xml":
        return fill(send.template or "", "xml").encode("utf-8", "replace")
    fields = send.fields if isinstance(send.fields, dict) else {}
    if send.body == "form":
        return _encoded(fields, fill).encode()
    charset = coding.charset if coding.written == "plain" else "ascii"
    return fill(str(fields.get("text", "{text}"))).encode(charset, "replace")


def _headers(send: Send, fill: Filling, coding: Coding, body: bool) -> dict[str, str]:
    kinds = {
        "json": "application/json",
        "form": "application/x-www-form-urlencoded",
        "xml": "application/xml; charset=utf-8",
        "raw": f"text/plain; charset={coding.charset}",
    }
    headers = {"content-type": kinds[send.body]} if body else {}
    return headers | {name.lower(): fill(value) for name, value in send.headers.items()}


def _encoded(fields: Mapping[str, object], fill: Filling) -> str:
    """Form or query; a list gives its field several times."""
    pairs = []
    for name, value in fields.items():
        for template in value if isinstance(value, list) else [value]:
            pairs.append(f"{quote_plus(name)}={quote_plus(fill.content(str(template)))}")
    return "&".join(pairs)


def _auth(gateway: Gateway, send: Send, shop: str, user: str) -> str | None:
    """The Authorization header; *user*: what the address says before its host."""
    if send.auth is None:
        return _basic(user) if user else None
    secret = gateway.secret(shop, send.auth.secret)
    return _basic(f"{send.auth.user}:{secret}") if isinstance(send.auth, Basic) else f"Bearer {secret}"


def _basic(user: str) -> str:
    return f"Basic {base64.b64encode(user.encode()).decode()}"


def _spelled(number: str, send: Send) -> str:
    return number if send.plus else number.removeprefix("+")
