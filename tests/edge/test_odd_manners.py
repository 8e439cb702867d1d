"""Three more gateways nobody has seen, over real HTTP: XML within forms, sorted signatures, pings and questions in JSON."""

from __future__ import annotations

import hashlib
import hmac
import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from urllib.parse import parse_qsl, quote_plus, unquote_plus
from xml.etree.ElementTree import fromstring
from xml.sax.saxutils import escape

import httpx2
import pytest
from sqlalchemy import Engine, select

from service.edge.deps import Deps
from service.storage.engine import reading
from service.storage.tables import messages, outbox
from tests.conftest import ROOT
from tests.edge.conftest import CUSTOMER, Carrier
from tests.edge.running import free_port, running_line, until, written

pytestmark = pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)

FOLDER = ROOT / "tests" / "edge" / "odd_gateways"
SAID = 'La lavadora gotea \N{DROPLET} & no para: 100% "mojado" <aquí>, a+b'
SECRETS = {"marl.token": "tk", "hobbin.signing": "h-sign", "hobbin.verify": "h-ask", "osier.signing": "o-sign"}


@dataclass
class Running:
    """A line with its address, and the carrier behind it."""

    url: str
    deps: Deps
    carrier: Carrier
    web: httpx2.Client

    def kept(self) -> list[str]:
        """Every text that came, in order."""
        with reading(self.deps.engine) as connection:
            query = select(messages.c.text).where(messages.c.direction == "in").order_by(messages.c.at, messages.c.id)
            return list(connection.execute(query).scalars())

    def sent(self) -> list[tuple[str, str, str]]:
        """(text, key, status) of every reply, once all are out."""
        until(
            lambda: (
                (found := written(self.deps, CUSTOMER)) and all(status in ("sent", "delivered") for _, status in found)
            )
        )
        with reading(self.deps.engine) as connection:
            rows = connection.execute(select(outbox.c.text, outbox.c.key, outbox.c.status).order_by(outbox.c.seq))
            return [(row.text, row.key, row.status) for row in rows]


@pytest.fixture
def line(engine: Engine, carrier: Carrier) -> Iterator[Running]:
    """The demo shop's line with the odd gateways alone."""
    port = free_port()
    secrets = SECRETS | {f"{name}.url": carrier.url for name in ("marl", "hobbin", "osier")}
    with running_line(engine, FOLDER, secrets, port) as deps, httpx2.Client(trust_env=False, timeout=30) as web:
        yield Running(f"http://127.0.0.1:{port}/hooks/demo", deps, carrier, web)


# XML within the fields of a form


def marl(line: Running, inner: str, key: str = "tk") -> httpx2.Response:
    document = f'<?xml version="1.0"?><inbound batch="b&amp;7" line="+15055550100">{inner}</inbound>'
    return line.web.post(f"{line.url}/marl?k={key}", data={"xmldata": document})


def sms(identity: str, words: str) -> str:
    return f'<sms id="{identity}"><from>15055550142</from><text>{escape(words)}</text></sms>'


def test_xml_within_a_form_goes_both_ways(line: Running) -> None:
    line.carrier.usual = (200, {"content-type": "text/xml"}, b"<result><code>0</code><id>m9</id></result>")
    assert marl(line, sms("1", SAID), key="wrong").status_code == 401
    for _ in range(2):
        answer = marl(line, sms("1", SAID) + sms("2", "my dryer is loud"))
        assert answer.text == "<response><code>0</code><batch>b&amp;7</batch></response>"
    assert line.kept() == [SAID, "my dryer is loud"]
    texts = [text for text, _, _ in line.sent()]
    read = []
    for request in line.carrier.requests:
        fields = dict(parse_qsl(request.body.decode()))
        read.append(fromstring(fields["XML"]).findtext("sms/text"))
        assert json.loads(fields["also"]) == {"text": read[-1]}
    assert read == texts
    report = {"xmldata": '<report id="m9"><state>DELIVRD</state></report>'}
    assert line.web.post(f"{line.url}/marl/receipts?k=tk", data=report).text == "OK"
    assert "delivered" in {status for _, _, status in line.sent()}


@pytest.mark.parametrize(
    ("field", "why"),
    [
        (
            f'<inbound batch="b">{sms("2", "x").replace("15055550142", "")}{sms("1", "my dryer is loud")}</inbound>',
            "the sender",
        ),
        ("<inbound", "not XML"),
        ('<!DOCTYPE inbound [<!ENTITY e "boom">]><inbound>&e;</inbound>', "entities"),
        ("no xml", "no list"),
    ],
)
def test_what_cannot_be_read_is_answered_as_the_gateway_wants_it_and_told_to_the_log(
    line: Running, field: str, why: str, caplog: pytest.LogCaptureFixture
) -> None:
    answer = line.web.post(f"{line.url}/marl?k=tk", data={"xmldata": field})
    assert answer.status_code == 200
    assert answer.text.startswith("<response><code>0</code>")
    assert answer.headers["content-type"] == "text/xml; charset=utf-8"
    assert line.kept() == (["my dryer is loud"] if "dryer" in field else [])
    assert [record for record in caplog.records if record.levelname == "ERROR" and why in getattr(record, "why", "")]
    receipt = line.web.post(f"{line.url}/marl/receipts?k=tk", data={"xmldata": field})
    assert (receipt.status_code, receipt.text) == (200, "OK")


# A form signed over its sorted fields


def hobbin(line: Running, fields: dict[str, str], path: str = "", **changed: str) -> httpx2.Response:
    """The signed fields, and then what somebody *changed* on the way."""
    signed = "&".join(f"{name}={quote_plus(value)}" for name, value in sorted(fields.items()) if value)
    sig = hmac.digest(b"h-sign", signed.encode(), "sha1").hex()
    return line.web.post(f"{line.url}/hobbin{path}", data={**fields, "sig": sig, "trace": "t-1", "empty": ""} | changed)


def test_a_form_that_holds_its_own_signature_goes_both_ways(line: Running) -> None:
    came = {"msisdn": "(505) 555-0142", "text": quote_plus(SAID), "msgid": "7"}
    assert hobbin(line, came, text="something else").status_code == 401
    assert hobbin(line, came, more="1").status_code == 401
    assert hobbin(line, came, sig="").status_code == 401
    assert line.kept() == []
    assert [hobbin(line, came).text for _ in range(2)] == ["ACK 7", "ACK 7"]
    assert line.kept() == [SAID]
    sent = line.sent()
    for request, (text, key, _) in zip(line.carrier.requests, sent, strict=True):
        fields = dict(parse_qsl(request.body.decode()))
        assert unquote_plus(fields["text"]) == text
        assert fields["to"] == "5055550142"
        assert request.headers["idempotency-key"] == key, "as the profile writes it"
        signed = f"custom={quote_plus(key)}&text={quote_plus(fields['text'])}&to=5055550142"
        assert fields["sig"] == hmac.digest(b"h-sign", signed.encode(), "sha1").hex()
    key = sent[0][1]
    assert hobbin(line, {"custom": key, "status": "delivered"}, "/receipts", status="rejected").status_code == 401
    assert hobbin(line, {"custom": key, "status": "delivered"}, "/receipts").status_code == 200
    assert line.sent()[0][2] == "delivered"


def test_a_question_in_json_is_answered_in_json_to_whoever_proves_to_be_them(line: Running) -> None:
    asked = {"data": {"type": "verify", "token": "h-ask", "challenge": 'a"b<{echo}'}}
    answer = line.web.post(f"{line.url}/hobbin", json=asked)
    assert answer.json() == {"data": {"challenge": 'a"b<{echo}'}}
    assert answer.headers["content-type"] == "application/json"
    asked["data"]["token"] = "wrong"
    assert line.web.post(f"{line.url}/hobbin", json=asked).status_code == 401


# A query signed over its sorted parameters


def osier(line: Running, off_s: float = 0, sign: bool = True, **fields: str) -> httpx2.Response:
    at = (datetime.now(UTC) + timedelta(seconds=off_s)).strftime("%Y-%m-%dT%H:%M:%S+0000")
    fields |= {"date": at}
    signed = "".join(name + value for name, value in sorted(fields.items())) + "o-sign"
    made = hashlib.md5(signed.encode()).hexdigest() if sign else "0" * 32
    return line.web.get(f"{line.url}/osier", params=fields | {"signature": made})


def test_a_query_signed_with_its_time_is_replied_to_in_the_answer(line: Running) -> None:
    came = {"event": "text", "phone": "5055550142", "text": SAID, "id": "9"}
    assert osier(line, sign=False, **came).status_code == 401
    for off_s in (-200, 200):
        assert "120 seconds off" in osier(line, off_s, **came).json()["detail"]
    assert line.kept() == []
    said = osier(line, **came).json()
    assert line.kept() == [SAID]
    assert len(said["reply"]) > 20
    assert osier(line, **came).json() == said, "a repeat is told the same"
    assert osier(line, event="status", ref=said["ref"], status="4").status_code == 200
    assert "delivered" in {status for _, _, status in line.sent()}


def test_a_ping_is_answered_without_a_proof_and_nothing_else_is(line: Running) -> None:
    answer = line.web.get(f"{line.url}/osier?event=ping&text=hello")
    assert (answer.json(), line.kept()) == ({"pong": True}, [])
    assert line.web.get(f"{line.url}/osier?event=text&phone=5055550142&text=hello&id=1").status_code == 401
    assert osier(line, event="text", phone="5055550142", text="hello").json() == {"reply": None}, "it has no id"
    assert line.kept() == []
