"""Sends as odd gateways want them: signed, keyed, coded, as XML and as lists; and what their answers mean."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import parse_qs, unquote_to_bytes
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.edge.calling import Busy, Outcome, Refused, Taken, Unknown, call, judge
from service.edge.gateways import Gateway, load_gateways
from service.edge.network import Network
from service.edge.profile import Profile
from service.edge.sending import Text, request_for
from service.edge.verify import SecretUnusable
from service.edge.wire import Request
from tests.conftest import ROOT
from tests.edge.conftest import CUSTOMER, Carrier

NOW = datetime(2026, 12, 1, 17, 0, 0, 250_000, tzinfo=UTC)
SPANISH = "La lavadora gotea \N{DROPLET} ¿pueden venir?"
UNSAID = Unknown("its answer does not say whether it took the text")
NOT_TAKEN = Refused("its answer says that it did not take the text")
SECRETS = {
    "brindle.account": "a/7", "brindle.user": "line", "brindle.password": "pw", "brindle.send_key": "00ff",
    "quillet.key": "k-1", "mine.key": "k&y", "mine.hash": "h",
}  # fmt: skip


ODD = load_gateways(ROOT / "tests" / "edge" / "odd_gateways", lambda shop, key: None)
ODD_SENDS = [gateway.profile.send for gateway in ODD.values() if gateway.profile.send]


def text(words: str) -> Text:
    return Text("demo", "t1.1:1", CUSTOMER, "+15055550100", words, "http://line.example/receipts")


@dataclass
class Out:
    """The odd gateways, and the carrier behind them."""

    carrier: Carrier
    network: Network

    def send(self, name: str, words: str) -> Outcome:
        """What came of *words*, sent over HTTP."""
        secrets = SECRETS | {f"{name}.url": self.carrier.url}
        gateway = Gateway(ODD[name].profile, lambda shop, key: secrets.get(key))
        at = NOW + timedelta(seconds=len(self.carrier.requests))
        return call(self.network, gateway, text(words), at)


@pytest.fixture
def out(carrier: Carrier, network: Network) -> Out:
    return Out(carrier, network)


def made(words: str, secrets: dict[str, str] = SECRETS, **send: Any) -> Request:
    """The request that a profile with *send* makes."""
    rule = {"url": "https://carrier.example/send"} | send
    profile = Profile.model_validate({"gateway": "mine", "about": "for tests", "send": rule})
    assert profile.send is not None
    return request_for(Gateway(profile, lambda shop, key: secrets.get(key)), profile.send, text(words), NOW)


def headers_of(request: Request) -> dict[str, str]:
    """By name; each stands once."""
    names = [name for name, _ in request.headers]
    assert len(set(names)) == len(names)
    return {name.decode(): value.decode() for name, value in request.headers}


def test_a_send_is_a_json_list_with_a_key_header_and_its_words_coded_in_the_address(out: Out) -> None:
    out.carrier.usual = (202, {"content-type": "text/plain"}, b"OK: ab12 queued")
    for words, charset in ((SPANISH, "utf-16-be"), ("be there & stay {to}", "utf-8")):
        assert out.send("quillet", words) == Taken("ab12")
        request = out.carrier.requests[-1]
        assert (request.method, request.headers["x-api-key"]) == ("PUT", "k-1")
        (one,) = request.json
        assert (one["to"], one["kind"], len(one["once"])) == ([int(CUSTOMER)], "text", 32)
        assert unquote_to_bytes(request.path.partition("words=")[2]).decode(charset) == words
    assert len({request.json[0]["once"] for request in out.carrier.requests}) == 2


@pytest.mark.parametrize(
    ("answer", "outcome"),
    [
        ('<parcel ref="R1"><status>0</status></parcel>', Taken("R1")),
        ("<parcel><status>0</status></parcel>", Taken(None)),
        ("<parcel><status>7</status></parcel>", Busy("its answer says later")),
        ("<parcel><status>3</status></parcel>", Refused("its answer says that it did not take the text")),
        ("<parcel><status>0", UNSAID),
        ('<!DOCTYPE p [<!ENTITY a "0">]><parcel><status>&a;</status></parcel>', UNSAID),
    ],
)  # fmt: skip
def test_an_answer_in_xml_says_what_became_of_a_text(out: Out, answer: str, outcome: object) -> None:
    out.carrier.usual = (200, {}, answer.encode())
    assert out.send("brindle", "at 8 < 9 & 'later'") == outcome


def test_what_is_computed_can_stand_in_a_field_and_be_made_of_another() -> None:
    """The hash of a hash and the time, as some gateways want a password."""
    request = made(
        "hola, ¿qué tal?", body="form", plus=False,
        computed={
            "inner": {"of": "{secret:key}", "digest": "md5"},
            "pass": {"of": "{computed:inner}.{time_iso}.{to}.{text}", "digest": "sha512", "key": "hash"},
        },
        fields={"pass": "{computed:pass}", "to": ["{to}", "{from}"], "text": "{text}", "ms": "{time_unix_ms}"},
    )  # fmt: skip
    fields = parse_qs(request.body.decode())
    inner = hashlib.md5(b"k&y").hexdigest()
    signed = f"{inner}.2026-12-01T17:00:00Z.15055550142.hola, ¿qué tal?"
    assert fields["pass"] == [hmac.digest(b"h", signed.encode(), "sha512").hex()]
    assert fields["to"] == ["15055550142", "15055550100"]
    assert fields["ms"] == ["1796144400250"]


def test_a_signature_covers_the_address_as_it_is_sent() -> None:
    request = made(
        "a b&c", url="https://carrier.example/{secret:key}/x", method="GET",
        query={"t": "{text}"},
        computed={"s": {"of": "{method} {url} {path} {query} {body}", "key": "hash", "written": "base64"}},
        headers={"X-Sign": "{computed:s}"},
    )  # fmt: skip
    assert request.address.url == "https://carrier.example/k%26y/x?t=a+b%26c"
    signed = b"GET https://carrier.example/k%26y/x?t=a+b%26c /k%26y/x t=a+b%26c "
    assert headers_of(request)["x-sign"] == base64.b64encode(hmac.digest(b"h", signed, "sha256")).decode()


@pytest.mark.parametrize(
    "words", ["a b&c", "k%26y 100% %zz", SPANISH, "[{|}]^`\\\"<>~'()*!;:@,/?#", "../x/./", "\t\n\x7f\0"]
)
@pytest.mark.parametrize("path", ["/k%26y/x", "/a%2fb/ñ [x]{y}|%/../é", "/x//?q=100%&[]=ü"])
def test_the_address_that_is_signed_is_the_one_on_the_wire(out: Out, path: str, words: str) -> None:
    rule = {
        "url": f"{out.carrier.url}{path}", "method": "GET", "query": {"t": "{text}"},
        "computed": {"s": {"of": "{url}\n{path}\n{query}", "digest": "none", "written": "hex"}},
        "headers": {"X-Signed": "{computed:s}"},
    }  # fmt: skip
    profile = Profile.model_validate({"gateway": "mine", "about": "for tests", "send": rule})
    assert call(out.network, Gateway(profile, lambda shop, key: None), text(words), NOW) == Taken(None)
    (request,) = out.carrier.requests
    url, signed_path, query = bytes.fromhex(request.headers["x-signed"]).decode().split("\n")
    assert url == out.carrier.url + request.path
    assert [signed_path, query] == request.path.split("?", 1)
    assert parse_qs(query, keep_blank_values=True)["t"] == [words]


def test_a_user_in_the_address_or_the_profile_goes_out_as_basic_authentication(out: Out) -> None:
    url = out.carrier.url.replace("//", "//us%40er:p%3Aw@")
    for more, told in (
        ({}, b"us@er:p:w"),
        ({"auth": {"kind": "basic", "user": "me", "secret": "key"}}, b"me:k\xc3\xb1"),
    ):
        profile = Profile.model_validate({"gateway": "mine", "about": "for tests", "send": {"url": url} | more})
        assert call(out.network, Gateway(profile, lambda shop, key: "kñ"), text("hi"), NOW) == Taken(None)
        assert out.carrier.requests[-1].headers["authorization"] == "Basic " + base64.b64encode(told).decode()


@pytest.mark.parametrize(
    ("written", "charset", "coded"),
    [
        ("hex", "utf-16-be", "ñ\N{DROPLET}".encode("utf-16-be").hex().upper()),
        ("base64", "utf-8", base64.b64encode("ñ\N{DROPLET}".encode()).decode()),
        ("percent", "utf-8", "%C3%B1%F0%9F%92%A7"),
    ],
)
def test_a_text_is_spelled_in_every_kind_of_body(written: str, charset: str, coded: str) -> None:
    coding = {"beyond": {"charset": charset, "written": written}}
    words = "ñ\N{DROPLET}"
    assert made(words, fields={"t": "{text}"}, **coding).body.decode() == f'{{"t": "{coded}"}}'
    xml = made(words, body="xml", template="<t>{text}</t>", **coding)
    assert fromstring(xml.body).text == coded
    assert made(words, body="raw", **coding).body == coded.encode()
    form = made(words, body="form", fields={"t": "{text}"}, **coding)
    assert parse_qs(form.body.decode()) == {"t": [coded]}


def test_a_text_goes_out_in_the_carriers_own_alphabet() -> None:
    coding = {
        "seven_bit": {"charset": "gsm03.38", "written": "hex"},
        "beyond": {"charset": "utf-16-be", "written": "hex"},
    }
    sent = made("@ ñ €", body="form", fields={"t": "{text}"}, **coding)
    assert parse_qs(sent.body.decode()) == {"t": ["00207D201B65"]}, "3GPP TS 23.038, 6.2.1"
    raw = made("ñ", body="raw", seven_bit={"charset": "gsm03.38"})
    assert raw.body == b"\x7d"


def test_a_header_of_the_profile_stands_once_and_in_one_line() -> None:
    request = made("a\nb ñ", fields={"t": "{text}"}, headers={"Content-Type": "text/x", "X-Words": "{text}"})
    assert headers_of(request)["content-type"] == "text/x"
    assert dict(request.headers)[b"x-words"] == "a b ñ".encode()


def test_a_key_that_is_not_spelled_as_the_profile_says_is_told() -> None:
    computed = {"s": {"of": "{body}", "key": "hash", "key_written": "hex"}}
    with pytest.raises(SecretUnusable, match="not hex"):
        made("x", computed=computed, headers={"x-sign": "{computed:s}"})


def test_an_address_that_is_none_is_refused_and_raises_nothing(out: Out) -> None:
    out.carrier.url = "http://127.0.0.1:port"
    assert isinstance(out.send("quillet", "x"), Refused)


def test_whatever_the_words_are_an_xml_body_stays_one_text() -> None:
    @settings(max_examples=30, deadline=None)
    @given(words=st.text(max_size=200))
    def send(words: str) -> None:
        request = made(words, body="xml", template='<m a="{text}"><to>{to}</to><t>{text}</t></m>')
        root = fromstring(request.body)
        assert [child.tag for child in root] == ["to", "t"]
        assert root.findtext("to") == CUSTOMER

    send()


@given(
    body=st.binary(max_size=80) | st.text('<>/parcelstu0&;{}[]:"', max_size=40).map(str.encode),
    said=st.text(max_size=30),
)
def test_whatever_is_answered_something_is_made_of_it(body: bytes, said: str) -> None:
    for send in ODD_SENDS:
        for status in send.success.status:
            outcome = judge(send, status, {"content-type": said, "retry-after": said}, body, NOW)
            assert isinstance(outcome, Taken | Busy | Refused | Unknown)


@pytest.mark.parametrize(
    ("answered", "outcome"),
    [
        (b'[{"id": 9007199254740993, "status": "queued"}]', Taken("9007199254740993")),
        (b'[{"id": 1, "status": "refused"}, {"id": 2, "status": "queued"}]', NOT_TAKEN),
        (b"[]", UNSAID),
    ],
)
def test_a_list_in_the_answer_is_read(answered: bytes, outcome: Outcome) -> None:
    send = ODD["osier"].profile.send
    assert send is not None
    assert judge(send, 202, {}, answered, NOW) == outcome


@pytest.mark.parametrize("words", ["a & b <c> 'd' \"e\" \\", SPANISH, "one\ntwo &amp; {to} {text|xml}", "]]><x/>"])
def test_a_document_within_a_field_holds_any_text(out: Out, words: str) -> None:
    out.send("marl", words)
    fields = parse_qs(out.carrier.requests[0].body.decode(), keep_blank_values=True)
    document = fromstring(fields["XML"][0])
    assert document.findtext("sms/text") == words
    assert [child.tag for child in document] == ["sms"]
    assert json.loads(fields["also"][0]) == {"text": words}


def test_a_newline_at_the_end_of_what_is_computed_is_hashed() -> None:
    computed = {"sign": {"of": "\n{key} \n", "key": "hash"}}
    request = made("hi", computed=computed, headers={"X-Sign": "{computed:sign}"})
    assert headers_of(request)["x-sign"] == hmac.digest(b"h", b"\nt1.1:1 \n", "sha256").hex()


def test_an_idempotency_key_is_quoted_unless_the_profile_writes_it() -> None:
    assert headers_of(made("hi", idempotency_header="X-Once"))["x-once"] == '"t1.1:1"'
    own = {"X-ONCE": "k-{key}"}
    assert headers_of(made("hi", idempotency_header="X-Once", headers=own))["x-once"] == "k-t1.1:1"
