"""
Signed deliveries against published vectors and the reference library.

Sources A10, A11: the Standard Webhooks specification 1.0.0 and the vectors of its own test suites; PyPI standardwebhooks.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from standardwebhooks.webhooks import Webhook

from service.edge.delivery import Delivery
from service.edge.profile_proofs import Hmac, StandardWebhooks
from service.edge.verify import NotProven, SecretUnusable, sign_standard, verify

# Source A-2: secret, id, timestamp, body, signature. The first is the vector of the project's own test suites.
VECTORS = [
    (
        "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw",
        "msg_p5jXN8AQM9LWM0D4loKWxJek",
        1614265330,
        b'{"test": 2432232314}',
        "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
    ),
    (
        "whsec_AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8=",
        "msg_0001",
        1767225600,
        b'{"type":"ticket.created","timestamp":"2026-01-01T00:00:00Z","data":{"id":"T-1"}}',
        "v1,6hnYYa4kZAfuNwMsSZg1AOw76gdanbgAmBcFiNNVfiQ=",
    ),
]
SECRET, ID, AT, BODY, GOOD = VECTORS[0]
WAY = (StandardWebhooks(kind="standard_webhooks"),)


def check(signature: str, *, secret: str = SECRET, identity: str = ID, timestamp: object = AT, late_s: int = 0) -> None:
    headers = {"webhook-id": identity, "webhook-timestamp": str(timestamp), "webhook-signature": signature}
    delivery = Delivery("POST", "", b"", headers, BODY)
    now = datetime.fromtimestamp(AT, UTC) + timedelta(seconds=late_s)
    verify(delivery, "json", WAY, lambda name: secret, now)


@pytest.mark.parametrize(("secret", "identity", "timestamp", "body", "signature"), VECTORS)
def test_our_signature_is_the_published_one(
    secret: str, identity: str, timestamp: int, body: bytes, signature: str
) -> None:
    assert sign_standard(secret, identity, timestamp, body) == signature


@pytest.mark.parametrize(("secret", "identity", "timestamp", "body", "signature"), VECTORS)
def test_a_published_delivery_is_proven(
    secret: str, identity: str, timestamp: int, body: bytes, signature: str
) -> None:
    headers = {"webhook-id": identity, "webhook-timestamp": str(timestamp), "webhook-signature": signature}
    delivery = Delivery("POST", "", b"", headers, body)
    verify(delivery, "json", WAY, lambda name: secret, datetime.fromtimestamp(timestamp, UTC))


def test_the_secret_works_with_and_without_its_prefix() -> None:
    check(GOOD, secret=SECRET)
    check(GOOD, secret=SECRET.removeprefix("whsec_"))


def test_a_secret_that_is_no_base64_is_our_mistake_not_the_gateways() -> None:
    with pytest.raises(SecretUnusable):
        check(GOOD, secret="whsec_not base64!")


def test_one_good_signature_among_several_is_enough() -> None:
    check(f"v1,{'A' * 43}= v2,whatever {GOOD} v1,{'B' * 43}=")


@pytest.mark.parametrize("late_s", [-299, 0, 299, 300])
def test_a_delivery_within_five_minutes_is_taken(late_s: int) -> None:
    check(GOOD, late_s=late_s)


@pytest.mark.parametrize("late_s", [-301, 301, 86_400])
def test_a_delivery_older_or_earlier_than_five_minutes_is_refused(late_s: int) -> None:
    with pytest.raises(NotProven):
        check(GOOD, late_s=late_s)


@pytest.mark.parametrize(
    "signature",
    ["", "v1,", GOOD[:-4], GOOD.replace("v1,", "v2,"), GOOD.replace("v1,", ""), GOOD.replace("g0h", "g1h"), "v1,é"],
)
def test_a_wrong_signature_is_refused(signature: str) -> None:
    with pytest.raises(NotProven):
        check(signature)


@pytest.mark.parametrize("timestamp", ["", "soon", "16142653.30", "-1614265330", "1614265330 ", "٣", "9" * 400])
def test_a_timestamp_that_is_no_number_is_refused(timestamp: str) -> None:
    with pytest.raises(NotProven):
        check(GOOD, timestamp=timestamp)


def test_another_id_is_refused_with_the_same_signature() -> None:
    with pytest.raises(NotProven):
        check(GOOD, identity=ID + "x")


@given(
    key=st.binary(min_size=24, max_size=64),
    identity=st.from_regex(r"msg_[A-Za-z0-9]{1,30}", fullmatch=True),
    timestamp=st.integers(min_value=1_000_000_000, max_value=4_000_000_000),
    body=st.text(max_size=200),
)
def test_the_reference_library_signs_as_we_do(key: bytes, identity: str, timestamp: int, body: str) -> None:
    secret = "whsec_" + base64.b64encode(key).decode()
    moment = datetime.fromtimestamp(timestamp, UTC)
    theirs = Webhook(secret).sign(identity, moment, body)
    assert sign_standard(secret, identity, timestamp, body.encode()) == theirs


def test_a_keyed_hash_over_the_body_is_the_published_one() -> None:
    """RFC 4231, test case 2: key "Jefe", data "what do ya want for nothing?", HMAC-SHA-256."""
    body = b"what do ya want for nothing?"
    expected = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    way = (Hmac(kind="hmac", header="X-Signature", prefix="sha256="),)
    delivery = Delivery("POST", "", b"", {"x-signature": f"sha256={expected}"}, body)
    verify(delivery, "json", way, lambda name: "Jefe", datetime.now(UTC))
    assert hmac.new(b"Jefe", body, hashlib.sha256).hexdigest() == expected
