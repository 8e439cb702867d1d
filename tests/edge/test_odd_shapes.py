"""Lists, XML, forms, spelled texts, paths and times: each is read as the profile says, and broken ones are malformed."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote, urlencode

import pytest
from fastapi import FastAPI
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from service.edge.answers import answer, answer_with
from service.edge.bodies import Malformed
from service.edge.delivery import Delivery
from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.edge.parse import inbound_of
from service.edge.places import steps
from service.edge.profile_checks import mistakes
from service.edge.profile_proofs import Hmac
from service.edge.profile_receive import Answer, Charset, Receive
from service.edge.verify import NotProven, verify
from service.edge.webhook import hooks
from service.storage.engine import writing
from service.storage.tables import outbox
from tests.conftest import Clock
from tests.edge.conftest import Line, json_gateway
from tests.edge.test_webhook import Exchange

NOW = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
SPANISH = "¿Pueden venir mañana? \N{DROPLET}"
MULTIPART = "multipart/form-data; boundary=zz"


def receiving(**more: Any) -> Receive:
    fields = {"sender": "body:from", "text": "body:text", "id": "body:id", "auth": [{"kind": "bearer"}]}
    return Receive.model_validate(fields | more)


ITEMS = {"sender": "item:from", "text": "item:text", "id": "item:id"}


def read(receive: Receive, body: bytes, *, query: bytes = b"", **headers: str) -> list[Inbound]:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    came = Delivery("POST", "", query, named, body)
    items = came.items(receive.each, receive.body) if receive.each else (came,)
    return [inbound_of(one, receive, shop="demo", gateway="g", number="+15055550100", now=NOW) for one in items]


def told(found: list[Inbound]) -> list[tuple[str, str, str]]:
    return [(one.sender, one.text, one.carrier_id) for one in found]


TWO = [("+15055550142", "one", "a"), ("+15055550143", "two & <2>", "b")]
XML = "".join(f"<m id='{i}'><from>{n}</from><text><![CDATA[{t}]]></text></m>" for n, t, i in TWO).join(["<a>", "</a>"])
LIST = [dict(zip(("from", "text", "id"), row, strict=True)) for row in TWO]


@pytest.mark.parametrize(
    ("shape", "each", "body"),
    [
        ("json", "body:data.messages", {"data": {"messages": LIST}}),
        ("json", "body", LIST),
        ("json", "body:entry.changes.messages", {"entry": [{"changes": [{"messages": [one]}]} for one in LIST]}),
        ("json", "body:Message.list", {"Message": json.dumps({"list": LIST})}),
        ("form", "body:from", urlencode([pair for one in LIST for pair in one.items()])),
        ("form", "body:payload.list", urlencode({"payload": json.dumps({"list": LIST})})),
        ("xml", "body:a/m", XML),
    ],
)  # fmt: skip
def test_several_texts_in_one_post_are_read_in_order(shape: str, each: str, body: object) -> None:
    more = ITEMS | ({"id": "item:@id"} if shape == "xml" else {})
    content = body if isinstance(body, str) else json.dumps(body)
    assert told(read(receiving(body=shape, each=each, **more), content.encode())) == TWO


@pytest.mark.parametrize("first", [0, 1])
def test_numbered_form_fields_are_several_texts(first: int) -> None:
    fields = {f"{name}{n}": value for n, one in enumerate(LIST, first) for name, value in one.items()}
    more = {"sender": "item:from{n}", "text": "item:text{n}", "id": "item:id{n}"}
    assert told(read(receiving(body="form", each="body:from{n}", **more), urlencode(fields).encode())) == TWO


def test_an_empty_list_is_no_text_and_a_missing_one_is_malformed() -> None:
    receive = receiving(each="body:messages", **ITEMS)
    assert read(receive, b'{"messages": []}') == []
    assert told(read(receive, json.dumps({"messages": LIST[0]}).encode())) == TWO[:1]
    for body in (b"{}", b'{"messages": null}', b"[]"):
        with pytest.raises(Malformed, match="no list at body:messages"):
            read(receive, body)
    with pytest.raises(Malformed, match="more than 1000"):
        read(receive, json.dumps({"messages": [1] * 1001}).encode())


def test_xml_is_read_by_names_attributes_and_pairs_whatever_its_namespaces() -> None:
    members = "".join(f"<x:member><name>{k}</name><value>{v}</value></x:member>" for k, v in LIST[0].items())
    document = f'<?xml version="1.0" encoding="utf-16"?><x:call xmlns:x="urn:x" at="7"><!-- c -->{members}</x:call>'
    places = {name: f"body:call/member[name={name}]/value" for name in ("from", "text", "id")}
    receive = receiving(body="xml", sender=places["from"], text=places["text"], id="body:call.@at")
    assert told(read(receive, document.encode("utf-16"))) == [("+15055550142", "one", "7")]


@pytest.mark.parametrize(
    "body", [b"", b"<", b"<a>", b"<a>&b;</a>", b"\xff", b"<?xml version='1.0' encoding='big5'?><a/>", b"<a/>"]
)
def test_xml_that_is_none_or_has_no_text_is_malformed(body: bytes) -> None:
    with pytest.raises(Malformed):
        read(receiving(body="xml", sender="body:a/from", text="body:a/text", id="body:a/id"), body)


@pytest.mark.parametrize("levels", [65, 500, 900, 990, 5_000])
@pytest.mark.parametrize("pair", ["[]", ('{"a":', "}")])
def test_json_of_more_levels_than_any_gateway_needs_is_malformed(levels: int, pair: tuple[str, str]) -> None:
    body = '{"from": "1", "id": 1, "text": ' + pair[0] * levels + '"x"' + pair[1] * levels + "}"
    with pytest.raises(Malformed, match="not JSON"):
        read(receiving(), body.encode())
    with pytest.raises(Malformed, match="text is missing"):
        read(receiving(text="body:t.a"), json.dumps({"from": "1", "id": 1, "t": body}).encode())


def part(name: str, value: bytes, more: str = "") -> bytes:
    return f'--zz\r\nContent-Disposition: form-data; name="{name}"{more}\r\n\r\n'.encode() + value + b"\r\n"


def test_a_multipart_form_is_read_and_a_broken_one_is_malformed() -> None:
    body = part("from", b"+15055550142") + part("text", SPANISH.encode("utf-16")) + part("id", b"7")
    body += part("text", b"no", '; filename="x"')
    receive = receiving(body="form", charset={"otherwise": "utf-16"})
    assert told(read(receive, body + b"--zz--\r\n", content_type=MULTIPART)) == [("+15055550142", SPANISH, "7")]
    for broken in (body, b"", b"from=1&text=2&id=3"):
        with pytest.raises(Malformed):
            read(receive, broken, content_type=MULTIPART)
    with pytest.raises(Malformed, match="boundary"):
        read(receive, body, content_type="multipart/form-data")


@pytest.mark.parametrize(
    ("coding", "sent"),
    [
        ("hex utf-16-be", SPANISH.encode("utf-16-be").hex()),
        ("hex utf-8", SPANISH.encode().hex().upper()),
        ("base64 utf-8", base64.b64encode(SPANISH.encode()).decode()),
        ("base64 utf-16-le", base64.urlsafe_b64encode(SPANISH.encode("utf-16-le")).decode().rstrip("=")),
        ("percent utf-8", quote(SPANISH)),
        ("plain utf-8", SPANISH),
    ],
)
def test_a_spelled_text_is_read_by_the_coding_its_field_tells(coding: str, sent: str) -> None:
    receive = receiving(charset={"told_by": "body:c", "names": {"9": coding}, "otherwise": "utf-8"})
    fields = {"from": "+15055550142", "text": sent, "id": 1, "c": 9}
    assert read(receive, json.dumps(fields).encode())[0].text == SPANISH
    form = receive.model_copy(update={"body": "form"})
    assert read(form, urlencode(fields).encode())[0].text == SPANISH


@pytest.mark.parametrize("spelling", ["hex", "base64"])
def test_a_text_in_the_carriers_own_alphabet_is_read(spelling: str) -> None:
    """Septets a byte, by hand from the table of 3GPP TS 23.038, 6.2.1: @ 00, é 05, ñ 7D, € 1B 65; what is cut short is kept."""
    septets = bytes([0x00, 0x38, 0x20, 0x63, 0x61, 0x66, 0x05, 0x20, 0x7D, 0x20, 0x1B, 0x65, 0x35])
    sent = septets.hex() if spelling == "hex" else base64.b64encode(septets).decode()
    receive = receiving(charset={"written": spelling, "otherwise": "gsm03.38"})
    fields = {"from": "+15055550142", "text": sent, "id": 1}
    assert read(receive, json.dumps(fields).encode())[0].text == "@8 café ñ €5"
    cut = (septets + b"\x1b").hex() if spelling == "hex" else base64.b64encode(septets + b"\x1b").decode()
    assert read(receive, json.dumps(fields | {"text": cut}).encode())[0].text == "@8 café ñ €5"


@pytest.mark.parametrize("sent", ["gas smell", "0123 and more", "abc", "ñ"])
def test_what_is_not_spelled_as_told_is_kept_as_it_came(sent: str) -> None:
    receive = receiving(charset={"written": "hex", "otherwise": "utf-16-be"})
    assert read(receive, json.dumps({"from": "1", "text": sent, "id": 1}).encode())[0].text == sent


@pytest.mark.parametrize(
    ("written", "zone", "sent"),
    [
        ("http", "UTC", "Tue, 01 Dec 2026 16:30:00 GMT"),
        ("%Y%m%d%H%M%S", "America/Denver", "20261201093000"),
        ("%d/%m/%y %I:%M %p", "America/Denver", "01/12/26 09:30 AM"),
        ("%Y-%m-%d %H:%M:%S %z", "America/Denver", "2026-12-01 17:30:00 +0100"),
        ("iso", "America/Denver", "2026-12-01T09:30:00"),
        ("unix", "UTC", "1796142600"),
    ],
)
def test_times_are_read_in_the_form_and_zone_the_profile_says(written: str, zone: str, sent: str) -> None:
    receive = receiving(time={"at": "body:at", "written": written, "zone": zone})
    fields = {"from": "+15055550142", "text": "x", "id": 1, "at": sent}
    assert read(receive, json.dumps(fields).encode())[0].carrier_at == datetime(2026, 12, 1, 16, 30, tzinfo=UTC)
    for unreadable in ("", "soon", "0001-01-01T00:00:00", "99999999999999999999"):
        (kept,) = read(receive, json.dumps(fields | {"at": unreadable}).encode())
        assert (kept.text, kept.carrier_at if unreadable in ("", "soon") else None) == ("x", None)


def test_an_id_made_of_places_tells_texts_apart_by_them() -> None:
    receive = receiving(each="body:m", **(ITEMS | {"id": {"of": ["sender"], "also": ["header:x-id", "item:n"]}}))
    body = json.dumps({"m": [{"from": "1", "text": "yes", "n": 1}, {"from": "1", "text": "yes", "n": 2}]}).encode()
    ids = [one.carrier_id for one in read(receive, body, x_id="d1")]
    assert len(set(ids)) == 2
    assert ids == [one.carrier_id for one in read(receive, body, x_id="d1")]
    with pytest.raises(Malformed, match="id is missing"):
        read(receive, body)


def signed_with(way: dict[str, Any], delivery: Delivery, secret: str = "key") -> bool:
    try:
        verify(delivery, "form", (Hmac.model_validate({"kind": "hmac"} | way),), lambda name: secret, NOW)
    except NotProven:
        return False
    return True


def test_repeated_fields_are_all_signed() -> None:
    body = b"b=2&a=3&a=1&c"
    digest = hmac.digest(b"key", b"a1a3b2c", "sha256").hex()
    way = {"header": "x-sig", "signs": "{sorted_form}"}
    assert signed_with(way, Delivery("POST", "", b"", {"x-sig": digest}, body))
    assert not signed_with(way, Delivery("POST", "", b"", {"x-sig": digest}, b"b=2&a=1&c"))


def test_a_signature_may_stand_in_a_field_and_be_a_hash_of_fields_and_secret() -> None:
    made = hashlib.md5(b"keyPOST42hi").hexdigest()
    way = {"at": "body:sign", "algorithm": "md5", "keyed": False, "signs": "{secret}{method}{path:1}{body:text}"}
    body = f"text=hi&sign={made}".encode()
    assert signed_with(way, Delivery("POST", "", b"", {}, body, path=("42",)))
    assert not signed_with(way, Delivery("POST", "", b"", {}, body, path=("43",)))


def test_a_key_may_be_written_in_hex() -> None:
    digest = base64.b64encode(hmac.digest(b"\x00\xff", b"body", "sha1")).decode()
    way = {"header": "x-sig", "key_written": "hex", "algorithm": "sha1", "encoding": "base64"}
    assert signed_with(way, Delivery("POST", "", b"", {"x-sig": digest}, b"body"), "00ff")


@pytest.mark.parametrize(
    ("written", "template", "body"),
    [
        (
            "xml",
            "<r><m to='{to}'>{reply}</m></r>",
            "<r><m to='+15055550142'>&lt;a&gt; &amp; &quot;b&quot; ñ {to}</m></r>",
        ),
        ("json", '[{"m": "{reply}"}]', json.dumps([{"m": '<a> & "b" ñ {to}'}])),
        ("text", "SAY {reply}", 'SAY <a> & "b" ñ {to}'),
    ],
)
def test_a_reply_is_escaped_into_its_template(written: str, template: str, body: str) -> None:
    rule = Answer.model_validate({"kind": "reply", "written": written, "template": template, "nothing_template": "-"})
    inbound = Inbound("demo", "g", "+15055550142", "+15055550100", "hi", (), "id1")
    made = answer_with(rule, ['<a> & "b" ñ {to}'], inbound)
    assert made.body.decode() == body
    assert bytes(answer(rule).body) == b"-"
    latin = rule.model_copy(update={"charset": "ascii"})
    assert "ñ" not in answer_with(latin, ["ñ"], inbound).body.decode("ascii")


@given(path=st.text(max_size=40))
def test_any_path_is_read_or_told_to_be_unreadable(path: str) -> None:
    try:
        steps(path, "json")
    except ValueError:
        return
    Delivery("POST", "", b"", {}, b'{"a": [{"b": "[1]"}], "0": {"": null}}').values(f"body:{path}", "json")


SHAPES: dict[str, dict[str, Any]] = {
    "list": {"each": "body:m.n", **ITEMS},
    "tree": {"body": "xml", "each": "body:a/m", **ITEMS},
    "many": {
        "body": "form",
        "each": "body:from{n}",
        "sender": "item:from{n}",
        "text": "item:text{n}",
        "id": "item:id{n}",
    },
    "parts": {"body": "multipart", "time": {"at": "body:at", "written": "%Y%m%d%H%M%S"}},
    "coded": {"charset": {"told_by": "body:c", "names": {"1": "hex utf-16-be", "2": "base64 cp037"}}},
}


@pytest.fixture
def web(make_deps: Callable[..., Deps]) -> Iterator[tuple[TestClient, Exchange]]:
    proof = {"auth": [{"kind": "addresses", "allow": ["0.0.0.0/0"]}]}
    fields = {"sender": "body:from", "text": "body:text", "id": "body:id"}
    profiles = [json_gateway(gateway=name, receive=fields | shape | proof) for name, shape in SHAPES.items()]
    app, exchange = FastAPI(), Exchange()
    app.router.routes.extend(hooks(make_deps(*profiles), exchange.receive))
    with TestClient(app, client=("127.0.0.1", 1)) as client:
        yield client, exchange


VALUES = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=9), lambda v: st.lists(v, max_size=3)
)
USUAL = {
    "from": st.just("+15055550142"),
    "text": st.text(max_size=9),
    "id": st.integers(),
    "from0": VALUES,
    "text0": VALUES,
    "id0": VALUES,
}
FIELDS = st.fixed_dictionaries(USUAL, optional={"at": VALUES, "c": st.sampled_from("12")}) | st.dictionaries(
    st.sampled_from(["from", "text", "id", "at", "c", "from0", "text0", "id0"]), VALUES
)
PIECES = [
    "<a>",
    "</a>",
    "<m>",
    "</m>",
    "<from>1</from>",
    "<text>x</text>",
    "<id>7</id>",
    "&lt;",
    "&x;",
    "<![CDATA[",
    "]]>",
    "\x00",
]
MARKUP = st.lists(st.sampled_from([*PIECES, "<!DOCTYPE a>", "<m><from>1</from><text>x</text><id>7</id></m>"])).map(
    "".join
)
AS_JSON = st.lists(st.one_of(FIELDS, FIELDS, VALUES), max_size=3).flatmap(
    lambda items: FIELDS.map(lambda f: json.dumps({**f, "m": {"n": items}}).encode("utf-8", "replace"))
)
AS_FORM = FIELDS.map(lambda f: urlencode(f, errors="replace").encode())
AS_PARTS = FIELDS.map(
    lambda f: b"".join(part(k, str(v).encode("utf-8", "replace")) for k, v in f.items()) + b"--zz--\r\n"
)
CLOSED = st.lists(
    st.sampled_from(["<m><from>1</from><text>x</text><id>7</id></m>", "<m/>", "&#8364;", "<m>x</m>"])
).map("".join)
AS_XML = st.one_of(CLOSED, MARKUP).map(lambda inner: f"<a>{inner}</a>".encode()) | MARKUP.map(str.encode)
BODIES = {"list": AS_JSON, "tree": AS_XML, "many": AS_FORM, "parts": AS_PARTS, "coded": AS_JSON}


WHOLE = {
    "list": b'{"m": {"n": [{"from": "1", "text": "", "id": 1}]}}',
    "tree": b"<a><m><from>1</from><text/><id>1</id></m></a>",
    "many": b"from1=1&text1=&id1=1",
    "parts": part("from", b"1") + part("text", b"") + part("id", b"1") + b"--zz--",
    "coded": b'{"from": "1", "text": "zz", "id": 1, "c": 1}',
}


@pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
@pytest.mark.parametrize("name", SHAPES)
def test_whatever_is_posted_is_stored_or_answered_otherwise_than_200(
    web: tuple[TestClient, Exchange], name: str
) -> None:
    client, exchange = web
    usual = MULTIPART if name == "parts" else ""

    @settings(max_examples=25, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
    @example(body=WHOLE[name], kind=usual)
    @given(
        body=BODIES[name] | st.binary(max_size=60),
        kind=st.sampled_from([usual, usual, MULTIPART, "application/json", "multipart/form-data; boundary="]),
    )
    def deliver(body: bytes, kind: str) -> None:
        before = len(exchange.got)
        answer = client.post(f"/hooks/demo/{name}", content=body, headers={"content-type": kind})
        assert answer.status_code in (200, 422), answer.text
        assert "Traceback" not in answer.text
        if answer.status_code == 200 and not (name == "list" and json.loads(body)["m"]["n"] == []):
            assert len(exchange.got) > before

    deliver()
    assert len(exchange.got) > 1, "nothing that was made up could be read"


def test_a_charset_nobody_knows_is_told() -> None:
    with pytest.raises(ValueError, match="no charset"):
        Charset(names={"8": "hex utf-61"})
    with pytest.raises(ValueError, match="no spelling"):
        Charset(otherwise="hox utf-8")


@pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)
def test_texts_and_receipts_may_come_in_one_post_each_in_a_list_of_its_own(
    make_deps: Callable[..., Deps], clock: Clock
) -> None:
    receive = ITEMS | {"each": "body:texts", "auth": [{"kind": "addresses", "allow": ["0.0.0.0/0"]}]}
    receipts = {
        "each": "body:fates",
        "at_the_hook": True,
        "key": "item:key",
        "state": "item:is",
        "delivered": ["there"],
    }
    deps, exchange, app = make_deps(json_gateway(receive=receive, receipts=receipts)), Exchange(), FastAPI()
    app.router.routes.extend(hooks(deps, exchange.receive))
    line = Line(deps).begin()
    key = line.write("on our way")
    with writing(deps.engine) as connection:
        connection.execute(outbox.update().values(status="sent", sent_at=clock()))
    with TestClient(app, client=("127.0.0.1", 1)) as client:
        both = {
            "texts": LIST,
            "fates": [{"key": "nobody's", "is": "there"}, {"is": "there"}, {"key": key, "is": "there"}],
        }
        answer = client.post("/hooks/demo/plain", json=both)
        assert answer.status_code == 422
        assert "1 of 5 cannot be read" in answer.json()["detail"]
        assert [one.text for one in exchange.got] == ["one", "two & <2>"]
        assert line.states() == {"on our way": "delivered"}
        assert client.post("/hooks/demo/plain", json={"fates": [{"key": key, "is": "there"}]}).status_code == 200
        assert client.post("/hooks/demo/plain", json={"other": 1}).status_code == 422


def test_receipts_in_the_list_of_the_texts_must_be_told_from_them() -> None:
    receive = ITEMS | {"each": "body:m", "auth": [{"kind": "bearer"}]}
    receipts = {"each": "body:m", "at_the_hook": True, "key": "item:key", "state": "item:is", "delivered": ["there"]}
    (wrong,) = mistakes(json_gateway(receive=receive, receipts=receipts))
    assert (wrong.path, wrong.remedy[:10]) == (("receipts", "at_the_hook"), "Write only")
    assert not list(mistakes(json_gateway(receive=receive, receipts=receipts | {"only": {"item:is": ["there"]}})))
