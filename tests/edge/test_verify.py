"""Every way a profile may prove a delivery, and that nothing less passes."""

from __future__ import annotations

import base64
import hashlib
import hmac
from datetime import UTC, datetime
from typing import Any

import pytest
from pydantic import TypeAdapter

from service.edge.delivery import Delivery
from service.edge.profile_proofs import Auth
from service.edge.verify import NotProven, verify

NOW = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
SECRETS = {"token": "tok-é-1", "password": "pass:word", "signing": "key"}
AUTH: TypeAdapter[Any] = TypeAdapter(Auth)


def proven(way: dict[str, Any], *, shape: Any = "form", **delivery: Any) -> bool:
    given: dict[str, Any] = {"method": "POST", "url": "", "query": b"", "headers": {}, "body": b""}
    try:
        verify(Delivery(**(given | delivery)), shape, (AUTH.validate_python(way),), SECRETS.__getitem__, NOW)
    except NotProven:
        return False
    return True


@pytest.mark.parametrize(
    ("at", "where"),
    [
        ("header:X-Token", {"headers": {"x-token": "tok-é-1"}}),
        ("query:token", {"query": b"token=tok-%C3%A9-1"}),
        ("body:secret", {"body": b"secret=tok-%C3%A9-1"}),
    ],
)
def test_a_shared_secret_is_taken_where_the_profile_says_and_only_whole(at: str, where: dict[str, Any]) -> None:
    way = {"kind": "shared_secret", "at": at}
    assert proven(way, **where)
    assert not proven(way)
    shorter = {k: (v[:-1] if isinstance(v, bytes) else {n: x[:-1] for n, x in v.items()}) for k, v in where.items()}
    assert not proven(way, **shorter)


def basic(user: str, password: str, scheme: str = "Basic") -> dict[str, Any]:
    token = base64.b64encode(f"{user}:{password}".encode()).decode()
    return {"headers": {"authorization": f"{scheme} {token}"}}


def test_basic_authentication_needs_user_and_password() -> None:
    way = {"kind": "basic", "user": "gateway"}
    assert proven(way, **basic("gateway", "pass:word"))
    assert proven(way, **basic("gateway", "pass:word", "basic"))
    assert not proven(way, **basic("gateway", "password"))
    assert not proven(way, **basic("Gateway", "pass:word"))
    assert not proven(way, **basic("gateway", "pass:word", "Bearer"))
    assert not proven(way)


def test_a_bearer_token_must_be_the_token() -> None:
    way = {"kind": "bearer", "secret": "signing"}
    assert proven(way, headers={"authorization": "Bearer key"})
    assert not proven(way, headers={"authorization": "Bearer keys"})
    assert not proven(way, headers={"authorization": "key"})
    assert not proven(way)


@pytest.mark.parametrize(
    ("client", "good"),
    [
        ("10.1.2.3", True),
        ("::ffff:10.1.2.3", True),
        ("11.1.2.3", False),
        ("fd00::1", True),
        (None, False),
        ("x", False),
    ],
)
def test_only_the_gateways_addresses_may_deliver(client: str | None, good: bool) -> None:
    assert proven({"kind": "addresses", "allow": ["10.0.0.0/8", "fd00::/8"]}, client=client) is good


def test_a_keyed_hash_can_be_over_address_and_sorted_form() -> None:
    """The address as the gateway knows it, then every form field by name: how some hosted gateways sign."""
    body = b"To=2&From=1&Text=hi+there"
    signed = b"https://line.example/hooks/demo/g?x=1" + b"From1" + b"Texthi there" + b"To2"
    digest = base64.b64encode(hmac.digest(b"key", signed, hashlib.sha1)).decode()
    way = {"kind": "hmac", "header": "X-Sig", "algorithm": "sha1", "encoding": "base64", "signs": "{url}{sorted_form}"}
    given: dict[str, Any] = {"url": "https://line.example/hooks/demo/g?x=1", "body": body}
    assert proven(way, headers={"x-sig": digest}, **given)
    assert not proven(way, headers={"x-sig": digest}, **(given | {"body": body + b"&More=1"}))
    assert not proven(way, **given)


@pytest.mark.parametrize(("off_s", "good"), [(0, True), (300, True), (-300, True), (301, False), (-301, False)])
def test_a_keyed_hash_with_a_time_is_refused_when_old(off_s: int, good: bool) -> None:
    at = str(int(NOW.timestamp()) + off_s)
    digest = hmac.digest(b"key", f"v0:{at}:body".encode(), hashlib.sha256).hex()
    way = {"kind": "hmac", "header": "X-Sig", "signs": "v0:{header:X-At}:{body}", "time": "header:X-At"}
    assert proven(way, headers={"x-sig": digest.upper(), "x-at": at}, body=b"body") is good


def test_all_ways_of_a_profile_must_agree() -> None:
    both = tuple(
        AUTH.validate_python(way)
        for way in ({"kind": "bearer", "secret": "signing"}, {"kind": "addresses", "allow": ["10.0.0.0/8"]})
    )
    good = Delivery("POST", "", b"", {"authorization": "Bearer key"}, b"", "10.0.0.1")
    verify(good, "json", both, SECRETS.__getitem__, NOW)
    stranger = Delivery("POST", "", b"", {"authorization": "Bearer key"}, b"", "12.0.0.1")
    with pytest.raises(NotProven):
        verify(stranger, "json", both, SECRETS.__getitem__, NOW)
    with pytest.raises(NotProven):
        verify(good, "json", (), SECRETS.__getitem__, NOW)


def test_what_was_wrong_is_said_without_the_secret() -> None:
    delivery = Delivery("POST", "", b"", {"authorization": "Bearer almost"}, b"")
    with pytest.raises(NotProven) as wrong:
        verify(delivery, "json", (AUTH.validate_python({"kind": "bearer"}),), SECRETS.__getitem__, NOW)
    assert "tok" not in str(wrong.value).replace("token", "")
    assert "almost" not in str(wrong.value)


SORTED = b"b=2&sig={}&a=x+y&a=%26&none=&trace=7"


@pytest.mark.parametrize(
    ("how", "signed"),
    [
        ({}, "a&ax yb2nonetrace7"),
        ({"equals": "=", "between": "&"}, "a=&&a=x y&b=2&none=&trace=7"),
        ({"equals": "=", "between": "&", "values_written": "form"}, "a=%26&a=x+y&b=2&none=&trace=7"),
        ({"between": "|", "values_written": "percent", "without": ["trace"]}, "a%26|ax%20y|b2|none"),
        ({"equals": ":", "between": "\n", "empty": False, "without": ["a"]}, "b:2\ntrace:7"),
    ],
)
@pytest.mark.parametrize("where", ["form", "query"])
def test_sorted_fields_are_joined_as_told_and_leave_the_signature_out(
    how: dict[str, Any], signed: str, where: str
) -> None:
    own, other = ("body", "query") if where == "form" else ("query", "body")
    digest = hmac.digest(b"key", signed.encode(), "sha256").hex()
    way = {"kind": "hmac", "at": f"{own}:sig", "signs": f"{{sorted_{where}}}", "sorted": how}
    assert proven(way, **{own: SORTED.replace(b"{}", digest.encode())})
    assert not proven(way, **{own: SORTED.replace(b"{}", digest.encode()) + b"&c=3"})
    assert not proven(way, **{own: SORTED.replace(b"{}", digest.encode()).replace(b"b=2", b"b=3")})
    assert not proven(way, **{other: SORTED.replace(b"{}", digest.encode())})
    beside = {"headers": {"x-sig": digest}}
    assert not proven(way | {"at": "header:X-Sig"}, **{own: SORTED}, **beside), "another field of that name is signed"


def test_one_of_several_signatures_is_enough_and_none_of_them_is_not() -> None:
    """While a secret is changed a gateway signs by the old one and by the new."""
    good = hmac.digest(b"key", b"body", "sha256").hex()
    way = {"kind": "hmac", "at": "header:X-Sig;v1"}
    for written in (f"v1={good}", f"v1={'0' * 64},v1={good}", f"v1={good}, v1={'0' * 64}"):
        assert proven(way, headers={"x-sig": written}, body=b"body")
    for written in (f"v1={'0' * 64},v1={'1' * 64}", f"v0={good},v1={'1' * 64}", "v1=,v1="):
        assert not proven(way, headers={"x-sig": written}, body=b"body")


@pytest.mark.parametrize(
    ("written", "said", "good"),
    [
        ({"written": "iso"}, "2026-12-01T17:04:00Z", True),
        ({"written": "iso"}, "2026-12-01T10:00:00.5-07:00", True),
        ({"written": "iso"}, "2026-12-01T17:06:00Z", False),
        ({"written": "iso"}, "2026-12-01T10:00:00", False),
        ({"written": "iso", "zone": "America/Denver"}, "2026-12-01T10:00:00", True),
        ({"written": "http"}, "Tue, 01 Dec 2026 16:56:00 GMT", True),
        ({"written": "%Y%m%d%H%M%S"}, "20261201165500", True),
        ({"written": "%Y%m%d%H%M%S"}, "20261201165459", False),
        ({"written": "unix_ms"}, "1796144400000", True),
        ({"written": "iso"}, "1796144400", False),
        ({"written": "iso"}, "", False),
        ({"written": "iso"}, "soon", False),
    ],
)
def test_the_signed_time_is_read_as_it_is_written(written: dict[str, str], said: str, good: bool) -> None:
    digest = hmac.digest(b"key", f"{said}.body".encode(), "sha256").hex()
    way = {"kind": "hmac", "header": "X-Sig", "signs": "{header:X-At}.{body}", "time": {"at": "header:X-At", **written}}
    assert proven(way, headers={"x-sig": digest, "x-at": said}, body=b"body") is good
    assert not proven(way, headers={"x-sig": digest}, body=b"body")


def test_spaces_and_lines_at_the_ends_of_what_is_signed_are_signed() -> None:
    digest = hmac.digest(b"key", b"\nPOST body \n", "sha256").hex()
    way = {"kind": "hmac", "header": "X-Sig", "signs": "\n{method} {body} \n", "prefix": "Proof "}
    assert proven(way, headers={"x-sig": f"Proof {digest}"}, body=b"body")
    assert not proven(way | {"signs": "{method} {body}"}, headers={"x-sig": f"Proof {digest}"}, body=b"body")
