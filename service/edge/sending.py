"""The request by which a text goes out, made of a profile's templates."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote, quote_plus

import httpx

from service.edge.gateways import Gateway
from service.edge.profile import Basic, Coding, Send
from service.wording.segments import count


@dataclass(frozen=True, slots=True)
class Text:
    """What is to be sent. key: the same on every attempt."""

    shop: str
    key: str
    number: str
    shop_number: str
    words: str
    receipt_url: str


class _Filling:
    """Fills ``{placeholders}``; what is filled in is never looked through again, so a customer's braces stay braces."""

    def __init__(self, plain: Mapping[str, str], gateway: Gateway, shop: str) -> None:
        self._plain, self._gateway, self._shop = plain, gateway, shop

    def __call__(self, template: str, *, in_address: bool = False) -> str:
        def one(match: re.Match[str]) -> str:
            name = match[1]
            if name.startswith("secret:"):
                return self._gateway.secret(self._shop, name[7:])
            value = self._plain.get(name)
            if value is None:
                return match[0]
            return quote(value, safe="") if in_address else value

        return re.sub(r"\{([a-z_]+(?::[a-z0-9_]+)?)\}", one, template)

    def json(self, fields: object) -> bytes:
        return json.dumps(self._nested(fields), ensure_ascii=False).encode()

    def _nested(self, value: object) -> object:
        if isinstance(value, dict):
            return {key: self._nested(item) for key, item in value.items()}
        if isinstance(value, list):
            return [self._nested(item) for item in value]
        return self(value) if isinstance(value, str) else value


def request_for(client: httpx.Client, gateway: Gateway, send: Send, text: Text) -> httpx.Request:
    """The request that hands *text* to the gateway. Raises SecretMissing."""
    coding = send.seven_bit if count(text.words).encoding == "GSM-7" else send.beyond
    plain = {
        "to": _spelled(text.number, send), "from": _spelled(text.shop_number, send), "text": text.words,
        "key": text.key, "shop": text.shop, "coding": coding.code, "receipt_url": text.receipt_url,
    }  # fmt: skip
    fill = _Filling(plain, gateway, text.shop)
    headers = {name: fill(value) for name, value in send.headers.items()}
    if send.idempotency_header:
        headers[send.idempotency_header] = f'"{text.key}"'
    url = fill(send.url, in_address=True)
    if send.query:
        url += ("&" if "?" in url else "?") + _encoded(send.query, fill, coding)
    body = _body(send, fill, coding, headers)
    auth = _auth(gateway, send, text.shop, headers)
    request = client.build_request(send.method, url, headers=headers, content=body, timeout=send.timeout_s)
    return next(auth.auth_flow(request)) if auth else request


def _body(send: Send, fill: _Filling, coding: Coding, headers: dict[str, str]) -> bytes | None:
    if send.method == "GET" or send.body == "query":
        return None
    if send.body == "json":
        headers.setdefault("content-type", "application/json")
        return fill.json(send.fields)
    if send.body == "form":
        headers.setdefault("content-type", "application/x-www-form-urlencoded")
        return _encoded({name: str(value) for name, value in send.fields.items()}, fill, coding).encode()
    headers.setdefault("content-type", f"text/plain; charset={coding.charset}")
    return fill(str(send.fields.get("text", "{text}"))).encode(coding.charset, "replace")


def _encoded(fields: Mapping[str, str], fill: _Filling, coding: Coding) -> str:
    """Form or query, the text in the encoding the gateway wants it in, all else in UTF-8."""
    pairs = []
    for name, template in fields.items():
        charset = coding.charset if "{text}" in template else "utf-8"
        pairs.append(f"{quote_plus(name)}={quote_plus(fill(template).encode(charset, 'replace'))}")
    return "&".join(pairs)


def _auth(gateway: Gateway, send: Send, shop: str, headers: dict[str, str]) -> httpx.BasicAuth | None:
    if send.auth is None:
        return None
    secret = gateway.secret(shop, send.auth.secret)
    if isinstance(send.auth, Basic):
        return httpx.BasicAuth(send.auth.user, secret)
    headers["authorization"] = f"Bearer {secret}"
    return None


def _spelled(number: str, send: Send) -> str:
    return number if send.plus else number.removeprefix("+")
