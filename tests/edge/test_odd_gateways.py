"""Gateways as odd as they come, by nothing but a profile: lists, XML, coded texts, paths, signed sends, filled answers."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import timedelta
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit
from xml.etree.ElementTree import fromstring  # of what we wrote ourselves

import httpx
import pytest
import yaml
from fastapi import FastAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from service.edge.deps import Deps
from service.edge.gateways import Gateway, ProfilesMistaken, load_gateways
from service.edge.inbound import Inbound
from service.edge.outbox import send_due
from service.edge.profile import Profile
from service.edge.webhook import router
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, Carrier, Line

MakeDeps = Callable[..., Deps]
WORDS = "¿mañana? \N{DROPLET} & <agua>"

LANTERN: dict[str, Any] = {
    "gateway": "lantern",
    "about": "several texts in one XML post, written in hex, a secret in the address; sends signed XML",
    "receive": {
        "body": "xml",
        "auth": [{"kind": "shared_secret", "at": "path:1"}],
        "each": "body:batch/sms",
        "sender": "item:@from",
        "text": "item:words",
        "id": "item:@ref",
        "time": {"at": "item:when", "written": "%d.%m.%Y %H:%M", "zone": "America/Denver"},
        "charset": {"told_by": "item:words/@coding", "names": {"8": "hex utf-16-be"}},
        "answer": {"kind": "fixed", "written": "xml", "template": "<taken/>"},
    },
    "send": {
        "url": "{secret:url}/out",
        "body": "xml",
        "template": '<send ref="{key}"><to>{to}</to><words>{text}</words></send>',
        "computed": {"seal": {"of": "{time_unix}.{body}", "key": "sealing", "written": "base64"}},
        "headers": {"X-Seal": "t={time_unix},v={computed:seal}", "X-Api-Key": "{secret:token}"},
        "success": {"at": "body:answer/@code", "equals": ["^0$"], "later": ["^9$"]},
        "reference": "body:answer/ref",
    },
    "receipts": {
        "body": "xml",
        "auth": [{"kind": "shared_secret", "at": "path:1"}],
        "each": "body:reports/report",
        "reference": "item:@ref",
        "state": "item:@state",
        "delivered": ["done"],
        "failed": ["lost"],
    },
    "limits": {"per_second": 1000, "burst": 1000},
}

DRUM: dict[str, Any] = {
    "gateway": "drum",
    "about": "multipart forms with texts in base64, hashed with the secret inside; the reply in JSON; sends by GET in hex",
    "receive": {
        "body": "multipart",
        "auth": [
            {
                "kind": "hmac", "at": "body:sign", "algorithm": "md5", "keyed": False, "signs": "{body:nr}{secret}",
                "secret": "token",
            }
        ],
        "sender": "body:nr",
        "text": "body:msg",
        "id": "body:no",
        "charset": {"otherwise": "base64 utf-8"},
        "answer": {
            "kind": "reply",
            "written": "json",
            "template": '{"to": "{to}", "say": ["{reply}"]}',
            "nothing_template": '{"say": []}',
            "content_type": "application/json",
        },
    },
    "send": {
        "method": "GET",
        "url": "{secret:url}/go",
        "query": {"nr": "{to}", "hex": "{text}", "dcs": "{coding}", "pw": "{computed:pass}", "at": "{time}"},
        "computed": {"pass": {"of": "{to}:{secret:token}", "digest": "md5"}},
        "time": {"written": "%Y%m%d", "zone": "America/Denver"},
        "plus": False,
        "seven_bit": {"written": "hex", "charset": "latin-1", "code": "0"},
        "beyond": {"written": "hex", "charset": "utf-16-be", "code": "8"},
        "success": {"at": "body", "equals": ["^OK "]},
        "reference": "body",
        "reference_pattern": "id=(\\w+)",
    },
    "limits": {"per_second": 1000, "burst": 1000},
}  # fmt: skip


@dataclass(frozen=True)
class Received:
    """As the exchange answers."""

    thread: str = "thread1"


@dataclass
class Exchange:
    """Notes what it is given; fails on the texts it is told to."""

    got: list[Inbound] = field(default_factory=list)
    fails_on: str = "\0"
    answers: Callable[[str], object] | None = None

    def receive(self, deps: Deps, inbound: Inbound) -> Received:
        """Note it."""
        if inbound.text == self.fails_on:
            raise RuntimeError("no")
        self.got.append(inbound)
        if self.answers:
            self.answers(inbound.text)
        return Received()


def with_secrets(deps: Deps, carrier: Carrier, **profiles: dict[str, Any]) -> Deps:
    """*deps* with only these gateways, and secrets for them."""
    secrets = {"url": carrier.url, "token": "s3cret/key", "sealing": "seal-key"}
    made = {
        name: Gateway(Profile.model_validate(p), lambda _, asked: secrets.get(asked.rpartition(".")[2]))
        for name, p in profiles.items()
    }
    return replace(deps, gateways=made)


@contextmanager
def served(deps: Deps, exchange: Exchange) -> Iterator[TestClient]:
    app = FastAPI()
    app.include_router(router(deps, exchange.receive))
    with TestClient(app, raise_server_exceptions=False) as web:
        yield web


@pytest.fixture
def lantern(make_deps: MakeDeps, carrier: Carrier) -> Deps:
    return with_secrets(make_deps(), carrier, lantern=LANTERN)


@pytest.fixture
def drum(make_deps: MakeDeps, carrier: Carrier) -> Deps:
    return with_secrets(make_deps(), carrier, drum=DRUM)


@pytest.fixture
def both(make_deps: MakeDeps, carrier: Carrier) -> Deps:
    return with_secrets(make_deps(), carrier, lantern=LANTERN, drum=DRUM)


def batch(*texts: tuple[str, str]) -> bytes:
    items = "".join(
        f'<sms from="{CUSTOMER}" ref="{ref}"><when>25.11.2026 08:30</when>'
        f'<words coding="8">{text.encode("utf-16-be").hex()}</words></sms>'
        for ref, text in texts
    )
    return f'<?xml version="1.0"?><batch xmlns="urn:x">{items}</batch>'.encode()


HOOK = "/hooks/demo/lantern/s3cret%2Fkey"


def test_several_texts_in_one_xml_post_are_taken_in_order(lantern: Deps) -> None:
    exchange = Exchange()
    with served(lantern, exchange) as web:
        answer = web.post(HOOK, content=batch(("r1", WORDS), ("r2", "it leaks")))
    assert (answer.status_code, answer.text) == (200, "<taken/>")
    assert [(i.text, i.carrier_id, i.sender) for i in exchange.got] == [
        (WORDS, "r1", CUSTOMER),
        ("it leaks", "r2", CUSTOMER),
    ]
    at = exchange.got[0].carrier_at
    assert at is not None
    assert at.isoformat() == "2026-11-25T15:30:00+00:00"


def test_the_secret_in_the_address_must_fit_and_nothing_more_may_follow(lantern: Deps) -> None:
    exchange = Exchange()
    with served(lantern, exchange) as web:
        assert web.post("/hooks/demo/lantern/wrong", content=batch(("r1", "hi"))).status_code == 401
        assert web.post("/hooks/demo/lantern", content=batch(("r1", "hi"))).status_code == 401
        assert web.post(f"{HOOK}/more", content=batch(("r1", "hi"))).status_code == 404
    assert exchange.got == []


def test_a_bad_one_of_several_loses_none_of_the_others_and_asks_for_another_delivery(lantern: Deps) -> None:
    exchange = Exchange(fails_on="fails")
    with served(lantern, exchange) as web:
        failed = web.post(HOOK, content=batch(("r1", "first"), ("r2", "fails"), ("r3", "third")))
        unread = web.post(HOOK, content=batch(("r4", "fourth")).replace(b"</batch>", b"<sms/></batch>"))
    assert failed.status_code == 500
    assert failed.headers["retry-after"]
    assert unread.status_code == 422
    assert "number 2" in unread.json()["detail"]
    assert [i.text for i in exchange.got] == ["first", "third", "fourth"]


@pytest.mark.parametrize(
    "body",
    [
        b'<!DOCTYPE b [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><batch><sms from="1" ref="1"><words>&b;</words></sms></batch>',
        b'<!DOCTYPE b [<!ENTITY x SYSTEM "file:///etc/hostname">]><batch><sms><words>&x;</words></sms></batch>',
        b"<batch><sms>",
        b"\xff\xfe",
    ],
)  # fmt: skip
def test_xml_with_entities_of_its_own_or_half_of_it_is_refused(lantern: Deps, body: bytes) -> None:
    exchange = Exchange()
    with served(lantern, exchange) as web:
        answer = web.post(HOOK, content=body)
    assert answer.status_code == 422
    assert answer.headers["content-type"].startswith("application/problem+json")
    assert exchange.got == []


def test_a_signed_xml_text_goes_out_and_its_report_comes_back(
    lantern: Deps, carrier: Carrier, client: httpx.Client, clock: Clock
) -> None:
    carrier.usual = (200, {"content-type": "text/xml"}, b'<answer code="0"><ref>L-77</ref></answer>')
    line = Line(lantern, gateway="lantern").begin()
    key = line.write(WORDS)
    send_due(lantern, client)
    (sent,) = carrier.requests
    document = fromstring(sent.body)
    assert [document.get("ref"), document.findtext("to"), document.findtext("words")] == [key, CUSTOMER, WORDS]
    at = str(int(clock().timestamp()))
    seal = base64.b64encode(hmac.digest(b"seal-key", f"{at}.".encode() + sent.body, "sha256")).decode()
    assert sent.headers["x-seal"] == f"t={at},v={seal}"
    with served(lantern, Exchange()) as web:
        reports = b'<reports><report ref="L-77" state="done"/><report ref="L-0" state="lost"/></reports>'
        assert web.post(HOOK.replace("lantern/", "lantern/receipts/"), content=reports).status_code == 200
    assert line.states() == {WORDS: "delivered"}


def test_an_answer_that_says_later_is_tried_again_and_another_word_is_a_failure(
    lantern: Deps, carrier: Carrier, client: httpx.Client
) -> None:
    line = Line(lantern, gateway="lantern").begin()
    carrier.answers = [(200, {}, b'<answer code="9"/>')]
    line.write("first")
    send_due(lantern, client)
    assert line.states() == {"first": "waiting"}


def form(web: TestClient, text: bytes, nr: str = CUSTOMER, no: str = "1", sign: str | None = None) -> Any:
    sign = sign if sign is not None else hashlib.md5(f"{nr}s3cret/key".encode()).hexdigest()
    fields = {"nr": nr, "no": no, "sign": sign, "msg": text.decode()}
    return web.post("/hooks/demo/drum", files={name: (None, value) for name, value in fields.items()})


def test_a_multipart_text_in_base64_is_answered_in_json(drum: Deps) -> None:
    line = Line(drum, gateway="drum").begin()
    exchange = Exchange(answers=lambda text: line.write(f'You said "{text}"\n\\'))
    with served(drum, exchange) as web:
        answer = form(web, base64.b64encode(WORDS.encode()))
        assert form(web, b"aGk=", sign="0" * 32).status_code == 401
    assert answer.json() == {"to": CUSTOMER, "say": [f'You said "{WORDS}"\n\\']}
    assert answer.headers["content-type"].startswith("application/json")
    assert [i.text for i in exchange.got] == [WORDS]


def test_base64_that_is_none_is_kept_as_it_came(drum: Deps) -> None:
    exchange = Exchange()
    Line(drum, gateway="drum").begin()
    with served(drum, exchange) as web:
        answer = form(web, b"it leaks!")
    assert answer.json() == {"say": []}
    assert [i.text for i in exchange.got] == ["it leaks!"]


@pytest.mark.parametrize(("words", "code", "charset"), [("it leaks", "0", "latin-1"), (WORDS, "8", "utf-16-be")])
def test_a_text_goes_out_by_get_in_hex_with_a_hashed_password(
    drum: Deps, carrier: Carrier, client: httpx.Client, clock: Clock, words: str, code: str, charset: str
) -> None:
    carrier.usual = (200, {}, b"OK id=Z9\n")
    line = Line(drum, gateway="drum").begin()
    line.write(words)
    clock.moment += timedelta(minutes=5)  # nobody fetched it as the answer to a text
    send_due(drum, client)
    asked = parse_qs(urlsplit(carrier.requests[0].path).query)
    assert bytes.fromhex(asked["hex"][0]).decode(charset) == words
    assert asked["dcs"] == [code]
    assert asked["pw"] == [hashlib.md5(f"{CUSTOMER[1:]}:s3cret/key".encode()).hexdigest()]
    assert len(asked["at"][0]) == 8
    assert line.row(words).carrier_ref == "Z9"


def test_a_name_that_comes_twice_in_a_form_is_signed_twice(make_deps: MakeDeps, carrier: Carrier) -> None:
    profile = {
        "gateway": "twice", "about": "for tests", "send": {"url": "{secret:url}"},
        "receive": {
            "body": "form", "sender": "body:From", "text": "body:Body", "id": "body:Id",
            "auth": [{"kind": "hmac", "secret": "sealing", "header": "X-Sign", "signs": "{sorted_form}"}],
        },
    }  # fmt: skip
    deps = with_secrets(make_deps(), carrier, twice=profile)
    body = b"From=%2B15055550142&Body=hi&Id=1&Tag=b&Tag=a"
    sign = hmac.digest(b"seal-key", b"BodyhiFrom+15055550142Id1TagaTagb", "sha256").hex()
    kind = {"content-type": "application/x-www-form-urlencoded"}
    exchange = Exchange()
    with served(deps, exchange) as web:
        assert web.post("/hooks/demo/twice", content=body, headers=kind | {"x-sign": sign}).status_code == 200
        less = hmac.digest(b"seal-key", b"BodyhiFrom+15055550142Id1Taga", "sha256").hex()
        assert web.post("/hooks/demo/twice", content=body, headers=kind | {"x-sign": less}).status_code == 401
    assert len(exchange.got) == 1


def test_a_json_list_is_a_post_of_several(make_deps: MakeDeps, carrier: Carrier) -> None:
    profile = {
        "gateway": "list", "about": "for tests", "send": {"url": "{secret:url}"},
        "receive": {
            "auth": [{"kind": "bearer"}], "each": "body", "only": {"item:type": ["sms"]},
            "sender": "item:from.number", "text": "item:text", "id": "item:id",
        },
    }  # fmt: skip
    deps = with_secrets(make_deps(), carrier, list=profile)
    said = [
        {"type": "sms", "from": {"number": CUSTOMER}, "text": "one", "id": "a"},
        {"type": "call", "from": {"number": CUSTOMER}, "id": "b"},
        {"type": "sms", "from": {"number": CUSTOMER}, "text": "two", "id": "c"},
    ]
    exchange = Exchange()
    with served(deps, exchange) as web:
        answer = web.post("/hooks/demo/list", content=json.dumps(said), headers={"authorization": "Bearer s3cret/key"})
    assert answer.status_code == 200, answer.text
    assert [i.text for i in exchange.got] == ["one", "two"]


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    body=st.one_of(
        st.binary(max_size=200), st.text(max_size=80).map(lambda t: f"<batch><sms>{t}</sms></batch>".encode())
    )
)
def test_whatever_is_posted_there_is_an_answer_and_never_a_traceback(both: Deps, body: bytes) -> None:
    with served(both, Exchange()) as web:
        for path, kind in ((HOOK, "text/xml"), ("/hooks/demo/drum", "multipart/form-data; boundary=x")):
            answer = web.post(path, content=body, headers={"content-type": kind})
            assert answer.status_code in (200, 401, 422), answer.text
            assert "Traceback" not in answer.text


@pytest.mark.parametrize(
    ("at", "put", "words"),
    [
        (("receive", "each"), None, "within one of several"),
        (("receive", "id"), "body:no", "same id"),
        (("receive", "text"), "item:words[", "cannot be read from"),
        (("receive", "answer"), {"kind": "fixed", "written": "xml", "template": "<taken>"}, "no XML"),
        (("receive", "answer"), {"kind": "reply"}, "cannot carry the replies"),
        (("send", "method"), "GET", "Only an xml body has a template"),
        (("send", "template"), "<send>{text}", "no XML"),
        (("send", "template"), "<send>{txt}</send>", 'Did you mean "text"?'),
        (("send", "template"), "<send>{computed:seal}</send>", "cannot stand in the part it is computed of"),
        (("send", "success"), {"at": "body:a"}, "Nothing is said of what stands there"),
        (("receive", "time"), {"at": "item:when", "written": "%d.%m. %H:%M"}, "has no year"),
        (("receive", "charset"), {"otherwise": "hex utf-61"}, "is no charset"),
    ],
)
def test_a_profile_that_cannot_work_is_refused_with_its_line_and_the_remedy(
    tmp_path: Path, at: tuple[str, str], put: object, words: str
) -> None:
    document = json.loads(json.dumps(LANTERN))
    document[at[0]][at[1]] = put
    if put is None:
        del document[at[0]][at[1]]
    (tmp_path / "lantern.yaml").write_text(yaml.safe_dump(document, sort_keys=False), encoding="utf-8")
    with pytest.raises(ProfilesMistaken) as wrong:
        load_gateways(tmp_path, lambda *_: "x")
    assert words in str(wrong.value)
    assert "lantern.yaml" in str(wrong.value)
    assert "line " in str(wrong.value)


def test_fields_that_a_get_request_would_never_send_are_refused(tmp_path: Path) -> None:
    document = DRUM | {"send": DRUM["send"] | {"fields": {"nr": "{to}"}}}
    (tmp_path / "drum.yaml").write_text(yaml.safe_dump(document, sort_keys=False), encoding="utf-8")
    with pytest.raises(ProfilesMistaken, match="A GET request has no body, so its fields are never sent"):
        load_gateways(tmp_path, lambda *_: "x")
