"""Two gateways nobody has seen, each a profile and nothing else: texts and receipts in, replies out, over real HTTP."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import format_datetime
from pathlib import Path
from xml.etree.ElementTree import fromstring
from xml.sax.saxutils import escape
from zoneinfo import ZoneInfo

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

OTHER = "+15055550143"
SPANISH = "La lavadora gotea \N{DROPLET} ¿pueden venir?"
SEND_KEY = bytes(range(32))


@dataclass
class Running:
    """A line with its address, and the carrier behind it."""

    url: str
    deps: Deps
    carrier: Carrier
    web: httpx2.Client

    def kept(self) -> list[tuple[str, str]]:
        """(text, carrier id) of every text that came, in order."""
        with reading(self.deps.engine) as connection:
            query = select(messages.c.text, messages.c.carrier_id).where(messages.c.direction == "in")
            return [
                (row.text, row.carrier_id) for row in connection.execute(query.order_by(messages.c.at, messages.c.id))
            ]


@pytest.fixture
def line(engine: Engine, carrier: Carrier) -> Iterator[Running]:
    """The demo shop's line with the odd gateways alone."""
    port = free_port()
    secrets = {
        "brindle.path": "p4th-secret", "brindle.url": carrier.url, "brindle.account": "a/7", "brindle.user": "line",
        "brindle.password": "pw", "brindle.send_key": SEND_KEY.hex(),
        "quillet.signing": "q-sign", "quillet.url": carrier.url, "quillet.key": "k-1",
    }  # fmt: skip
    folder = Path(ROOT / "tests" / "edge" / "odd_gateways")
    with running_line(engine, folder, secrets, port) as deps, httpx2.Client(trust_env=False, timeout=30) as web:
        yield Running(f"http://127.0.0.1:{port}", deps, carrier, web)


def entry(identity: str, words: str, *, sender: str = CUSTOMER, dcs: str = "8") -> str:
    """One text as brindle writes it, an hour ago."""
    charset = {"8": "utf-16-be", "0": "latin-1"}.get(dcs)
    spelled = words.encode(charset).hex() if charset else escape(words)
    who = f"<who>{sender}</who>" if sender else ""
    return f'<entry n="{identity}">{who}<when>01.11.2026 08:30:00</when><words dcs="{dcs}">{spelled}</words></entry>'


def brindle(line: Running, inner: str, kind: str = "parcel", path: str = "p4th-secret") -> httpx2.Response:
    document = (
        f'<?xml version="1.0"?><b:bundle xmlns:b="urn:brindle" type="{kind}" line="+15055550100">{inner}</b:bundle>'
    )
    return line.web.put(f"{line.url}/hooks/demo/brindle/{path}", content=document.encode())


def test_xml_with_several_texts_goes_both_ways_and_its_receipts_are_kept(line: Running) -> None:
    line.carrier.usual = (
        200,
        {"content-type": "text/plain"},
        b'<?xml version="1.0"?><parcel ref="R9"><status>0</status></parcel>',
    )
    answer = brindle(line, entry("e1", SPANISH) + entry("e2", "my dryer is loud", sender=OTHER, dcs="0"))
    assert (answer.status_code, answer.text) == (200, "<taken/>")
    assert answer.headers["content-type"] == "text/xml; charset=utf-8"
    assert line.kept() == [(SPANISH, "e1"), ("my dryer is loud", "e2")]
    until(lambda: all(status == "sent" for _, status in written(line.deps, CUSTOMER) + written(line.deps, OTHER)))
    sent = {}
    zone = ZoneInfo(line.deps.rulebook_of("demo").shop.timezone)
    for request in line.carrier.requests:
        assert request.path == "/brindle/a%2F7"
        assert request.headers["content-type"].startswith("application/xml")
        at = request.headers["x-brindle-time"]
        signed = f"POST\n/brindle/a%2F7\n{at}\n".encode() + request.body
        digest = base64.b64encode(hmac.digest(SEND_KEY, signed, "sha256")).decode()
        assert request.headers["x-brindle-sign"] == f"v3 {digest}"
        parcel = fromstring(request.body)
        local = datetime.fromtimestamp(int(at), UTC).astimezone(zone)
        assert parcel.get("pass") == hashlib.md5(f"line:pw:{local:%Y%m%d%H%M%S}".encode()).hexdigest()
        charset = {"0": "latin-1", "8": "utf-16-be"}[parcel.findtext("dcs") or ""]
        sent[bytes.fromhex(parcel.findtext("words") or "").decode(charset)] = "+" + (parcel.findtext("to/n") or "")
    expected = {text: number for number in (CUSTOMER, OTHER) for text, _ in written(line.deps, number)}
    assert sent == expected
    assert len(sent) >= 2

    with reading(line.deps.engine) as connection:
        assert set(connection.execute(select(outbox.c.carrier_ref)).scalars()) == {"R9"}
    assert brindle(line, '<fate ref="R9">there</fate><fate ref="unknown">gone</fate>', "fate").status_code == 200
    assert "delivered" in {status for number in (CUSTOMER, OTHER) for _, status in written(line.deps, number)}


def test_one_bad_text_of_several_loses_none_and_is_told(line: Running) -> None:
    bad = entry("e2", "who am I", sender="")
    three = entry("e1", "my washer leaks") + bad + entry("e3", "&<water>", sender=OTHER, dcs="")
    for _ in range(2):  # as a gateway repeats what was not answered 200
        answer = brindle(line, three)
        assert answer.status_code == 422
        assert (
            "1 of 3 cannot be read, and the others are kept; number 2: the sender is missing" in answer.json()["detail"]
        )
        assert "who am I" not in answer.text
        assert line.kept() == [("my washer leaks", "e1"), ("&<water>", "e3")]


ENTITIES = (
    '<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">',
    '<!ENTITY b SYSTEM "file:///etc/hostname">',
    '<!ENTITY % c SYSTEM "http://127.0.0.1:9/x">%c;',
)


def test_a_wrong_path_and_xml_with_entities_of_its_own_are_refused(line: Running) -> None:
    """No more segments than the profile has places for, and nothing in XML that may stand for something else."""
    for declared in ENTITIES:
        words = entry("e1", "X", dcs="").replace("X", "&b;")
        document = f'<!DOCTYPE bundle [{declared}]><bundle type="parcel" line="x">{words}</bundle>'
        answer = line.web.put(f"{line.url}/hooks/demo/brindle/p4th-secret", content=document.encode())
        assert answer.status_code == 422
        assert "entities" in answer.json()["detail"]
    assert brindle(line, entry("e1", "hello"), path="wrong").status_code == 401
    assert brindle(line, entry("e1", "hello"), path="p4th-secret/more").status_code == 404
    assert line.web.put(f"{line.url}/hooks/demo/brindle").status_code == 401
    assert line.kept() == []


def quillet(line: Running, words: str, identity: str, *, proof: str | None = None) -> httpx2.Response:
    say = base64.b64encode(words.encode()).decode()
    envelope = json.dumps(
        {"party": [{"role": "to", "number": "+15055550100"}, {"role": "from", "number": CUSTOMER}], "say": say}
    )
    at = str(int(time.time()))
    digest = hmac.digest(b"q-sign", f"{at}.{identity}.{envelope}".encode(), "sha512").hex()
    headers = {"Quillet-Proof": proof or f"t={at}, v1={digest}", "Quillet-Shard": "s1"}
    fields = {"mid": identity, "date": format_datetime(datetime.now(UTC), usegmt=True), "envelope": envelope}
    files = {name: (None, value) for name, value in fields.items()} | {"pic": ("a.jpg", b"\xff\xd8")}
    return line.web.post(f"{line.url}/hooks/demo/quillet", files=files, headers=headers)


def test_a_multipart_post_is_answered_with_the_reply_in_json_and_a_repeat_alike(line: Running) -> None:
    line.carrier.usual = (202, {"content-type": "text/plain"}, b"OK: ab12 queued")
    answer = quillet(line, SPANISH, "q1")
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "application/vnd.quillet+json; charset=utf-8"
    told = answer.json()["replies"][0]
    assert told["to"] == CUSTOMER
    assert told["text"] in "\n\n".join(text for text, _ in written(line.deps, CUSTOMER))
    assert [text for text, _ in line.kept()] == [SPANISH]
    assert quillet(line, SPANISH, "q1").json() == answer.json()
    assert len(line.kept()) == 1
    assert quillet(line, "no", "q2", proof="t=1,v1=00").status_code == 401


def test_a_gateway_that_asks_whether_the_address_is_ours_hears_back_what_it_sent(line: Running) -> None:
    hook = f"{line.url}/hooks/demo/quillet"
    asked = {"intent": "join", "code": "k-1", "word": "<b>x7 ñ</b>"}
    answer = line.web.get(hook, params=asked)
    assert (answer.status_code, answer.text) == (200, "<b>x7 ñ</b>")
    assert answer.headers["content-type"] == "text/plain; charset=utf-8"
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert line.web.get(hook, params=asked | {"code": "wrong"}).status_code == 401
    assert line.web.get(hook, params=asked | {"intent": "leave"}).status_code == 405, "no question: texts come by POST"
    del asked["word"]
    assert line.web.get(hook, params=asked).status_code == 422
    assert line.kept() == []
