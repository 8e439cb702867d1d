"""What gateways deliver becomes one Inbound, in every encoding they use."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from urllib.parse import quote, urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.edge.bodies import Malformed
from service.edge.delivery import Delivery
from service.edge.gateways import read_profile
from service.edge.inbound import Inbound
from service.edge.parse import inbound_of, receipt_of
from service.edge.profile import Profile
from service.edge.profile_receive import Charset, Receive
from tests.conftest import ROOT

NOW = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
SPANISH = "No enjuaga. ¿Pueden venir mañana? Está goteando \N{DROPLET}"


def shipped(name: str) -> Profile:
    profile, problems = read_profile(ROOT / "deploy" / "gateways" / f"{name}.yaml")
    assert not problems
    assert profile is not None
    return profile


def parsed(profile: Profile, *, query: str = "", body: bytes = b"", **headers: str) -> Inbound:
    assert profile.receive is not None
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    delivery = Delivery(profile.receive.method, "", query.encode(), named, body)
    return inbound_of(delivery, profile.receive, shop="demo", gateway=profile.gateway, number="+15055550100", now=NOW)


def standard(document: object, identity: str = "m1") -> Inbound:
    return parsed(shipped("standard"), body=json.dumps(document).encode(), webhook_id=identity)


def test_a_json_delivery_is_read() -> None:
    document = {
        "from": "(505) 555-0142",
        "to": "+15055550100",
        "text": "it leaks",
        "media": ["http://x/1", "http://x/2"],
    }
    document["sent_at"] = "2026-12-01T09:59:00-07:00"
    assert standard(document) == Inbound(
        shop="demo",
        gateway="standard",
        sender="+15055550142",
        recipient="+15055550100",
        text="it leaks",
        media=("http://x/1", "http://x/2"),
        carrier_id="m1",
        carrier_at=datetime(2026, 12, 1, 16, 59, tzinfo=UTC),
    )


def test_nested_fields_and_numbers_in_json_are_read() -> None:
    receive = Receive.model_validate(
        {
            "auth": [{"kind": "bearer"}],
            "sender": "body:data.from[0].number",
            "text": "body:data.body",
            "id": "body:data.id",
            "time": {"at": "body:data.at", "written": "unix_ms"},
        }
    )
    body = {"data": {"from": [{"number": "15055550142"}], "body": "hi", "id": 77, "at": 1796144340000}}
    delivery = Delivery("POST", "", b"", {}, json.dumps(body).encode())
    inbound = inbound_of(delivery, receive, shop="demo", gateway="g", number="+15055550100", now=NOW)
    assert (inbound.sender, inbound.text, inbound.carrier_id) == ("+15055550142", "hi", "77")
    assert inbound.carrier_at == datetime(2026, 12, 1, 16, 59, tzinfo=UTC)
    assert inbound.recipient == "+15055550100"


@pytest.mark.parametrize("document", [{"text": "x"}, {"from": "", "text": "x"}, {"from": "+15055550142"}, [], 7, None])
def test_a_delivery_without_sender_or_text_is_malformed(document: object) -> None:
    with pytest.raises(Malformed):
        standard(document)


@pytest.mark.parametrize("body", [b"", b"{", b"\xff\xfe", b"[" * 100_000])
def test_a_body_that_is_no_json_is_malformed(body: bytes) -> None:
    with pytest.raises(Malformed):
        parsed(shipped("standard"), body=body, webhook_id="m1")


def test_an_empty_text_with_a_picture_is_a_text() -> None:
    inbound = standard({"from": "+15055550142", "media": ["http://x/1"]})
    assert (inbound.text, inbound.media) == ("", ("http://x/1",))
    assert standard({"from": "+15055550142", "text": ""}).text == ""


def test_a_form_is_read_with_its_pictures() -> None:
    form = {"From": "+15055550142", "To": "+15055550100", "Text": SPANISH, "Media0": "http://x/0", "Id": "SM1"}
    inbound = parsed(shipped("form_basic"), body=urlencode(form).encode())
    assert (inbound.text, inbound.media, inbound.carrier_id) == (SPANISH, ("http://x/0",), "SM1")


@pytest.mark.parametrize(("coding", "charset"), [("0", "utf-8"), ("1", "latin-1"), ("2", "utf-16-be")])
def test_a_query_string_is_read_in_the_encoding_it_tells(coding: str, charset: str) -> None:
    text = SPANISH if coding != "1" else "¿Pueden venir mañana?"
    encoded = quote(text.encode(charset), safe="")
    query = f"from=%2B15055550142&to=x&id=9&at=1796144340&coding={coding}&text={encoded}"
    inbound = parsed(shipped("query_reply"), query=query)
    assert inbound.text == text
    assert inbound.carrier_at == datetime(2026, 12, 1, 16, 59, tzinfo=UTC)


def test_an_unknown_coding_is_read_as_the_profile_says_otherwise() -> None:
    assert parsed(shipped("query_reply"), query="from=72975&id=9&coding=zebra&text=hola").text == "hola"


@pytest.mark.parametrize(
    ("content_type", "charset"),
    [
        ("text/plain; charset=UTF-8", "utf-8"),
        ("text/plain;charset=utf-16be", "utf-16-be"),
        ('text/plain; charset="UTF-16BE"', "utf-16-be"),
        ("text/plain; charset=utf-16", "utf-16"),
        ("text/plain", "utf-8"),
        ("text/plain; charset=klingon", "utf-8"),
        ("", "utf-8"),
    ],
)
def test_a_raw_body_is_read_in_the_charset_of_its_content_type(content_type: str, charset: str) -> None:
    query = "from=%2B15055550142&id=7"
    inbound = parsed(shipped("raw_text"), query=query, body=SPANISH.encode(charset), content_type=content_type)
    assert inbound.text == SPANISH


def test_bytes_nobody_can_read_do_not_lose_the_text() -> None:
    inbound = parsed(shipped("raw_text"), query="from=72975&id=7", body=b"gas sm\xffell", content_type="text/plain")
    assert inbound.text == "gas sm\N{REPLACEMENT CHARACTER}ell"


def test_what_no_database_can_hold_is_taken_out() -> None:
    body = b'{"from": "+15055550142", "text": "a\\u0000b \\ud83d c \\ud83d\\udca7"}'
    inbound = parsed(shipped("standard"), body=body, webhook_id="m1")
    assert inbound.text == "ab \N{REPLACEMENT CHARACTER} c \N{DROPLET}"


def test_an_id_longer_than_a_column_is_kept_by_its_hash_and_repeats_the_same() -> None:
    first, again = (standard({"from": "72975", "text": "x"}, "i" * 5000).carrier_id for _ in range(2))
    assert first == again
    assert len(first) <= 200


def test_a_carrier_clock_far_ahead_is_not_believed() -> None:
    ahead = standard({"from": "72975", "text": "x", "sent_at": "2031-01-01T00:00:00Z"})
    behind = standard({"from": "72975", "text": "x", "sent_at": "2026-11-30T00:00:00Z"})
    assert ahead.carrier_at is None
    assert behind.carrier_at is not None


@pytest.mark.parametrize("time", ["yesterday", "99999999999999999999", "2026-13-01"])
def test_a_time_nobody_can_read_loses_no_text(time: str) -> None:
    kept = standard({"from": "72975", "text": "x", "sent_at": time})
    assert (kept.text, kept.carrier_at) == ("x", None)


def composing(**rule: object) -> Receive:
    return Receive.model_validate(
        {
            "auth": [{"kind": "bearer"}],
            "body": "form",
            "sender": "body:from",
            "text": "body:text",
            "time": {"at": "body:at", "written": "unix"},
            "id": rule,
        }
    )


def composed(receive: Receive, text: str, at: int | str, now_s: int = 0) -> str:
    body = urlencode({"from": "+15055550142", "text": text, "at": at}).encode()
    now = datetime.fromtimestamp(1_796_144_400 + now_s, UTC)
    return inbound_of(
        Delivery("POST", "", b"", {}, body), receive, shop="demo", gateway="g", number="+15055550100", now=now
    ).carrier_id


def test_an_id_made_with_the_time_tells_two_equal_answers_apart_and_repeats_the_same() -> None:
    receive = composing(of=["sender", "text", "time"])
    assert composed(receive, "yes", 100) == composed(receive, "yes", 100, now_s=900)
    assert composed(receive, "yes", 100) != composed(receive, "yes", 101)
    assert composed(receive, "yes", 100) != composed(receive, "no", 100)


def test_an_id_made_without_a_time_takes_near_equal_texts_for_one() -> None:
    receive = composing(of=["sender", "text"], repeat_within_s=60)
    assert composed(receive, "yes", 100) == composed(receive, "yes", 200, now_s=30)
    assert composed(receive, "yes", 100) != composed(receive, "yes", 100, now_s=61)


@pytest.mark.parametrize(
    ("state", "arrived"), [("delivered", True), ("failed", False), ("expired", False), ("accepted", None)]
)
def test_a_receipt_says_whether_a_text_arrived_or_is_on_its_way(state: str, arrived: bool | None) -> None:
    receipts = shipped("standard").receipts
    assert receipts is not None
    body = json.dumps({"id": "c-1", "state": state}).encode()
    receipt = receipt_of(Delivery("POST", "", b"", {}, body), receipts)
    assert (receipt.reference, receipt.arrived) == ("c-1", arrived)


@pytest.mark.parametrize("body", [b"{}", b'{"id": "c-1"}', b'{"state": "failed"}', b"x"])
def test_a_receipt_without_text_or_state_is_malformed(body: bytes) -> None:
    receipts = shipped("standard").receipts
    assert receipts is not None
    with pytest.raises(Malformed):
        receipt_of(Delivery("POST", "", b"", {}, body), receipts)


@given(query=st.binary(max_size=200), body=st.binary(max_size=300), content_type=st.text(max_size=40))
@pytest.mark.parametrize("name", ["standard", "form_basic", "query_reply", "raw_text"])
def test_whatever_is_delivered_is_read_or_called_malformed(
    name: str, query: bytes, body: bytes, content_type: str
) -> None:
    receive = shipped(name).receive
    assert receive is not None
    headers = {"webhook-id": content_type, "content-type": content_type}
    delivery = Delivery("POST", "", query, headers, body)
    try:
        inbound = inbound_of(delivery, receive, shop="demo", gateway=name, number="+15055550100", now=NOW)
    except Malformed:
        return
    inbound.text.encode("utf-8")
    assert "\x00" not in inbound.text + inbound.sender + inbound.carrier_id + "".join(inbound.media)
    assert inbound.sender
    assert len(inbound.carrier_id) <= 200


def test_an_id_made_of_a_time_nobody_can_read_tells_texts_apart_by_it() -> None:
    receive = composing(of=["sender", "text", "time"])
    assert composed(receive, "leaks", "soon") == composed(receive, "leaks", "soon", now_s=900)
    assert composed(receive, "leaks", "soon") != composed(receive, "leaks", "later")


@pytest.mark.parametrize("charset", ["rot13", "hex", "base64", "idna", "punycode", "undefined", "no-such-code"])
def test_a_charset_that_is_no_encoding_of_texts_loses_no_text(charset: str) -> None:
    told = Charset(told_by="header:content-type", otherwise="utf-8")
    came = Delivery("POST", "", b"", {"content-type": f"text/plain; charset={charset}"}, "se mojó — water!".encode())
    assert came.text("body", "raw", told) == "se mojó — water!"


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("15055550142", "15055550142"), ("1.5055550142E10", "15055550142"), ("15055550142.0", "15055550142"),
        ("9007199254740993123", "9007199254740993123"), ("1.5", "1.5"), ("-0.0", "0"), ("1e300", "1e+300"), ("true", "true"),
    ],
)  # fmt: skip
def test_numbers_are_read_as_they_are_meant(written: str, read: str) -> None:
    came = Delivery("POST", "", b"", {}, f'{{"a": {written}, "b": [{written}]}}'.encode())
    assert came.values("body:a", "json") == came.values("body:b", "json") == (read,)
