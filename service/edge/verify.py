"""Is this delivery from the gateway? Every way a profile may prove it; all comparisons take constant time."""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import re
from collections.abc import Callable
from datetime import datetime
from ipaddress import ip_address

from service.edge.codings import spelled, unspelled
from service.edge.delivery import Delivery
from service.edge.places import Shape
from service.edge.profile_proofs import (
    Addresses,
    Auth,
    Basic,
    Bearer,
    Hmac,
    KeyWritten,
    SharedSecret,
    SignedTime,
    StandardWebhooks,
)
from service.edge.times import time_of

Secrets = Callable[[str], str]
"""The name of a secret to its value; raises SecretMissing."""


class NotProven(Exception):
    """The delivery is not proven to be the gateway's; the message says what was missing or wrong, never a secret."""


class SecretUnusable(Exception):
    """A secret is not what its way of signing needs; the message says what is needed, never the secret."""


def verify(delivery: Delivery, shape: Shape, ways: tuple[Auth, ...], secrets: Secrets, now: datetime) -> None:
    """All *ways* must agree, or NotProven is raised. *now* judges the age of what carries a time."""
    if not ways:
        raise NotProven("the profile has no way to prove a delivery")
    for way in ways:
        if isinstance(way, StandardWebhooks):
            _standard(delivery, way, secrets(way.secret), now)
        elif isinstance(way, Hmac):
            _hmac(delivery, shape, way, secrets(way.secret), now)
        elif isinstance(way, SharedSecret):
            _same(delivery.value(way.at, shape), secrets(way.secret), f"the secret at {way.at}")
        elif isinstance(way, Basic):
            _basic(delivery, way, secrets(way.secret))
        elif isinstance(way, Bearer):
            _bearer(delivery, secrets(way.secret))
        else:
            _address(delivery, way)


def sign_standard(secret: str, identity: str, timestamp: int, body: bytes) -> str:
    """The ``webhook-signature`` of a body (source A10), *secret* with or without ``whsec_``. Raises SecretUnusable."""
    digest = hmac.digest(_key(secret), f"{identity}.{timestamp}.".encode() + body, "sha256")
    return "v1," + base64.b64encode(digest).decode()


def _key(secret: str) -> bytes:
    try:
        return base64.b64decode(secret.removeprefix("whsec_"), validate=True)
    except binascii.Error as wrong:
        raise SecretUnusable("a Standard Webhooks secret is whsec_ and base64") from wrong


def _standard(delivery: Delivery, way: StandardWebhooks, secret: str, now: datetime) -> None:
    identity = delivery.headers.get("webhook-id")
    timestamp = delivery.headers.get("webhook-timestamp")
    signatures = delivery.headers.get("webhook-signature")
    if not identity or not timestamp or not signatures:
        raise NotProven("webhook-id, webhook-timestamp and webhook-signature must all be there")
    _fresh(timestamp, "header:webhook-timestamp", way.tolerance_s, now)
    expected = sign_standard(secret, identity, int(timestamp), delivery.body).encode()
    given = [one.encode() for one in signatures.split(" ") if one.startswith("v1,")]
    # All are compared, not up to the first good one: the time it takes must not tell which was good.
    if not sum(hmac.compare_digest(one, expected) for one in given):
        raise NotProven("the signature does not fit the body")


MOST_SIGNATURES = 8
"""Of one delivery; no gateway changes its secret so often."""

MILLISECONDS_FROM = 10**11
"""A Unix time beyond this (in seconds, the year 5138) is in milliseconds."""


def _fresh(timestamp: str, place: str, tolerance_s: int, now: datetime) -> None:
    if not re.fullmatch(r"\d{1,15}", timestamp, re.ASCII):
        raise NotProven(f"the timestamp at {place} is no Unix time, which is a whole number of seconds or milliseconds")
    at = int(timestamp) / 1000 if int(timestamp) > MILLISECONDS_FROM else int(timestamp)
    _near(at, place, tolerance_s, now)


def _near(at: float, place: str, tolerance_s: int, now: datetime) -> None:
    if abs(now.timestamp() - at) > tolerance_s:
        raise NotProven(
            f"the timestamp at {place} is more than {tolerance_s} seconds off; it may be a replay, or a clock is wrong"
        )


def key_bytes(secret: str, written: KeyWritten) -> bytes:
    """The key that *secret* is or spells. Raises SecretUnusable."""
    key = unspelled(secret.encode(), written)
    if not key:
        raise SecretUnusable(f"a secret is not {written}, as its profile says")
    return key


def _hmac(delivery: Delivery, shape: Shape, way: Hmac, secret: str, now: datetime) -> None:
    given = delivery.values(way.place, shape)
    if not given:
        raise NotProven(f"the signature is missing at {way.place}")
    _in_time(delivery, shape, way, now)
    key = key_bytes(secret, way.key_written)
    signed = _signed(delivery, shape, way, key)
    digest = hmac.digest(key, signed, way.algorithm) if way.keyed else hashlib.new(way.algorithm, signed).digest()
    made = digest.hex() if way.encoding == "hex" else base64.b64encode(digest).decode()
    sent = [one.strip().removeprefix(way.prefix) for one in given[:MOST_SIGNATURES]]
    # All are compared: while a secret is changed there may be one by the old and one by the new.
    fit = [_is_same(one.lower() if way.encoding == "hex" else one, made) for one in sent]
    if not sum(fit):
        raise NotProven(f"the signature at {way.place} is missing or wrong")


def _in_time(delivery: Delivery, shape: Shape, way: Hmac, now: datetime) -> None:
    place = way.time_at
    if place is None:
        return
    said = (delivery.value(place, shape) or "").strip()
    if not isinstance(way.time, SignedTime) or way.time.written.startswith("unix"):
        _fresh(said, place, way.tolerance_s, now)
        return
    at = time_of(said, way.time.written, way.time.zone)
    if at is None:
        raise NotProven(f"the timestamp at {place} is not written as the profile says")
    _near(at.timestamp(), place, way.tolerance_s, now)


def _sorted(delivery: Delivery, shape: Shape, way: Hmac) -> bytes:
    """The fields by name, then by value (a name that comes twice is signed twice), but for the signature among them."""
    rule, (where, _, own) = way.sorted, way.place.partition(":")
    left = {*rule.without, *([own] if where == ("query" if shape == "query" else "body") else ())}
    told = sorted((name, value) for name, value in delivery.pairs(shape) if name not in left and (value or rule.empty))
    written = rule.values_written
    fields = [
        name.encode() + rule.equals.encode() + (value if written == "plain" else spelled(value, written).encode())
        for name, value in told
    ]
    return rule.between.encode().join(fields)


def _signed(delivery: Delivery, shape: Shape, way: Hmac, key: bytes) -> bytes:
    """The bytes a hash is taken of: what *way* signs with its placeholders filled."""
    signed = b""
    for literal, name in re.findall(r"([^{]+)|\{([^}]+)\}", way.signs):
        if literal:
            signed += literal.encode()
        elif name == "body":
            signed += delivery.body
        elif name == "url":
            signed += delivery.url.encode()
        elif name == "method":
            signed += delivery.method.encode()
        elif name == "secret":
            signed += key
        elif name in ("sorted_form", "sorted_query"):
            signed += _sorted(delivery, "form" if name == "sorted_form" else "query", way)
        else:
            signed += _placed(delivery, shape, name)
    return signed


def _placed(delivery: Delivery, shape: Shape, place: str) -> bytes:
    found = delivery.raw(place, shape)
    if found is not None:
        return found
    value = delivery.value(place, shape) or ""
    return value.encode("latin-1" if place.startswith("header:") else "utf-8", "replace")


def _basic(delivery: Delivery, way: Basic, secret: str) -> None:
    scheme, _, given = delivery.headers.get("authorization", "").partition(" ")
    if scheme.lower() != "basic":
        raise NotProven("basic authentication is missing")
    expected = base64.b64encode(f"{way.user}:{secret}".encode()).decode()
    _same(given.strip(), expected, "the user or password")


def _bearer(delivery: Delivery, secret: str) -> None:
    scheme, _, given = delivery.headers.get("authorization", "").partition(" ")
    if scheme.lower() != "bearer":
        raise NotProven("the bearer token is missing")
    _same(given.strip(), secret, "the bearer token")


def _same(given: str | None, expected: str, what: str) -> None:
    if given is None or not _is_same(given, expected):
        raise NotProven(f"{what} is missing or wrong")


def _is_same(given: str, expected: str) -> bool:
    return hmac.compare_digest(given.encode("utf-8", "replace"), expected.encode())


def _address(delivery: Delivery, way: Addresses) -> None:
    try:
        client = ip_address(delivery.client or "")
    except ValueError as wrong:
        raise NotProven("the address it came from is not known") from wrong
    mapped = getattr(client, "ipv4_mapped", None) or client
    if not any(mapped in network for network in way.allow):
        raise NotProven("the address it came from is not one of the gateway's")
