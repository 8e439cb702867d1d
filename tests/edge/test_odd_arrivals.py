"""Deliveries that are not as the profile's author saw one: nothing in them is lost, and what is wrong is told."""

from __future__ import annotations

import hashlib
import hmac
import json
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from typing import Any

import pytest
from sqlalchemy import Engine, select

from service.edge.outbox import send_due
from service.edge.profile import Profile
from service.edge.wire import Answer, Request
from service.edge.worker import tick
from service.storage.engine import reading
from service.storage.ledgers import early_receipts
from service.storage.tables import outbox, threads
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, Carrier
from tests.edge.hooked import Hooked, gateway, hooked

Start = Callable[[Profile], Hooked]
sqlite_alone = pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)


@pytest.fixture
def start(engine: Engine, clock: Clock, carrier: Carrier) -> Iterator[Start]:
    with ExitStack() as lines:
        yield lambda profile: lines.enter_context(hooked(engine, clock, profile, carrier.url))


def event(identity: str, kind: str = "mo", **more: Any) -> dict[str, Any]:
    return {"type": kind, "from": CUSTOMER, "text": f"text {identity}", "id": identity} | more


ITEMS = {"each": "body:batch.events", "sender": "item:from", "text": "item:text", "id": "item:id"}
ACROSS = {"body:batch.events.type": ["mo"]}
FATES = {"key": "body:batch.events.key", "state": "body:batch.events.state", "delivered": ["ok"], "at_the_hook": True}


@sqlite_alone
@pytest.mark.parametrize("kinds", [["dlr", "mo"], ["mo", "dlr"], ["dlr", "dlr", "mo", "mo"]])
def test_a_condition_across_a_list_is_met_by_any_of_it(start: Start, kinds: list[str]) -> None:
    line = start(gateway(ITEMS | {"only": ACROSS}))
    events = [event(f"m{n}", kind) if kind == "mo" else {"type": kind, "state": "ok"} for n, kind in enumerate(kinds)]
    answer = line.post({"batch": {"events": events}})
    assert answer.status_code == 422, "those of the other kind are no texts, and this profile does not leave them out"
    assert len(line.kept()) == kinds.count("mo")
    assert line.post({"batch": {"events": [{"type": "dlr"}]}}).status_code == 200


@sqlite_alone
def test_a_condition_on_the_item_leaves_out_the_items_of_other_kinds(start: Start) -> None:
    line = start(gateway(ITEMS | {"only": {"item:type": ["mo"]}}))
    assert line.post({"batch": {"events": [event("m1", "dlr"), event("m2"), event("m3", "dlr")]}}).status_code == 200
    assert line.kept() == ["text m2"]


@sqlite_alone
@pytest.mark.parametrize("texts_say", [True, False])
def test_a_post_that_is_receipt_and_text_is_taken_as_both(start: Start, texts_say: bool) -> None:
    """The texts' own condition or none; either way the receipt's must not swallow the text."""
    texts = {"sender": "body:batch.events.from", "text": "body:batch.events.text", "id": "body:batch.events.id"}
    fates = FATES | {"only": {"body:batch.events.type": ["dlr"]}}
    line = start(gateway(texts | ({"only": ACROSS} if texts_say else {}), receipts=fates))
    both = [{"type": "dlr", "key": "nobody's", "state": "ok"}, event("m1")]
    assert line.post({"batch": {"events": both}}).status_code == 200
    assert line.kept() == ["text m1"]
    assert line.post({"batch": {"events": both[:1]}}).status_code == 200
    bad = [{"type": "dlr"}, event("m2")]
    assert line.post({"batch": {"events": bad}}).status_code == 422
    assert sorted(line.kept()) == ["text m1", "text m2"]


FATE_LIST = {"each": "body:fates", "at_the_hook": True, "key": "item:key", "state": "item:is", "delivered": ["ok"]}


@sqlite_alone
@pytest.mark.parametrize(
    "fates", [[{"is": "ok"}], [{"key": "nobody's", "is": "ok"}], [{"key": "k", "is": "ok"}] * 1001, ["x", None, 7]]
)
def test_a_text_beside_a_list_of_receipts_is_kept_whatever_they_are(start: Start, fates: list[Any]) -> None:
    line = start(gateway({}, receipts=FATE_LIST))
    line.post(event("m1") | {"fates": fates})
    assert line.kept() == ["text m1"]
    assert line.post({"fates": [{"key": "k", "is": "ok"}]}).status_code == 200


@sqlite_alone
def test_bad_receipts_and_texts_in_one_list_lose_none_of_the_good(start: Start) -> None:
    fates = {"each": "body:batch.events", "only": {"item:type": ["dlr"]}, "at_the_hook": True, "key": "item:key"}
    line = start(gateway(ITEMS, receipts=fates | {"state": "item:is", "delivered": ["ok"]}))
    events = [{"type": "dlr"}, event("m1"), {"type": "mo"}, 7, event("m2")]
    answer = line.post({"batch": {"events": events}})
    assert (answer.status_code, sorted(line.kept())) == (422, ["text m1", "text m2"])
    assert "3 of 5 cannot be read" in answer.json()["detail"]


@sqlite_alone
def test_a_number_left_out_hides_no_text_after_it(start: Start) -> None:
    fields = {"body": "form", "each": "body:m{n}", "text": "item:m{n}", "sender": "item:f{n}", "id": "item:i{n}"}
    line = start(gateway(fields))
    sent = {"m0": "one", "f0": CUSTOMER, "i0": "a", "m7": "two", "f7": CUSTOMER, "i7": "b", "m10": "three"}
    answer = line.web.post("/hooks/demo/plain", data=sent | {"f10": CUSTOMER, "i10": "c"})
    assert (answer.status_code, sorted(line.kept())) == (200, ["one", "three", "two"])


@sqlite_alone
def test_a_missing_time_makes_no_repeat_of_a_new_text(
    start: Start, clock: Clock, caplog: pytest.LogCaptureFixture
) -> None:
    line = start(gateway({"id": {"of": ["sender", "text", "time"]}, "time": {"at": "body:at"}}))
    for _ in range(2):
        assert line.post({"from": CUSTOMER, "text": "yes", "at": "2026-12-01T16:59:00Z"}).status_code == 200
    assert line.kept() == ["yes"]
    for _ in range(2):
        assert line.post({"from": CUSTOMER, "text": "yes"}).status_code == 200
        clock.forward(minutes=3)
    assert line.kept() == ["yes"] * 3
    assert "the moment of arrival stands for it" in caplog.text


@sqlite_alone
def test_a_place_that_may_be_missing_tells_texts_apart_where_it_is_there(start: Start, clock: Clock) -> None:
    line = start(gateway({"id": {"of": ["sender", "text"], "also": ["header:x-id?"]}}))
    said = {"from": CUSTOMER, "text": "yes"}
    for identity in ("a", "b", "a"):
        assert line.post(said, headers={"x-id": identity}).status_code == 200
    assert len(line.kept()) == 2
    assert line.post(said).status_code == 200
    clock.forward(seconds=1)
    assert line.post(said).status_code == 200
    assert len(line.kept()) == 4


SPANISH = "¿La secadora? Está fría, mañana"


@sqlite_alone
@pytest.mark.parametrize(
    ("told", "charset", "codec", "read"),
    [
        ("application/json; charset=iso-8859-1", {}, "latin-1", SPANISH),
        ("application/json; charset=utf-16-le", {}, "utf-16-le", SPANISH),
        ("application/json", {"otherwise": "latin-1"}, "latin-1", SPANISH),
        ("application/json", {"told_by": "header:x-cs", "names": {"L1": "cp1252"}}, "cp1252", SPANISH),
        ("application/json; charset=nonsense", {}, "utf-8", SPANISH),
        ("application/json; charset=us-ascii", {}, "utf-8", SPANISH),
        ("application/json", {"otherwise": "hex utf-16-be"}, "utf-8", SPANISH),
        ("application/json", {}, "utf-16", SPANISH),
        ("application/json", {}, "utf-16-be", SPANISH),
        ("application/json", {}, "utf-8-sig", SPANISH),
        ("application/json", {}, "latin-1", SPANISH.encode("latin-1").decode("utf-8", "replace")),
    ],
)
def test_json_is_read_as_declared_else_as_utf_8_else_with_replacement_signs(
    start: Start, told: str, charset: dict[str, Any], codec: str, read: str
) -> None:
    line = start(gateway({"charset": charset}))
    body = json.dumps({"from": CUSTOMER, "text": SPANISH, "id": 1}, ensure_ascii=False).encode(codec)
    answer = line.web.post("/hooks/demo/plain", content=body, headers={"content-type": told, "x-cs": "L1"})
    assert (answer.status_code, line.kept()) == (200, [read])


@sqlite_alone
@pytest.mark.parametrize(("told", "read"), [("text/xml; charset=latin-1", SPANISH), ("text/xml", None)])
def test_xml_that_declares_nothing_is_read_as_its_content_type_says(start: Start, told: str, read: str | None) -> None:
    line = start(gateway({"body": "xml", "sender": "body:m/from", "text": "body:m/text", "id": "body:m/id"}))
    body = f"<m><from>{CUSTOMER}</from><text>{SPANISH}</text><id>1</id></m>".encode("latin-1")
    answer = line.web.post("/hooks/demo/plain", content=body, headers={"content-type": told})
    expected = read or SPANISH.encode("latin-1").decode("utf-8", "replace")
    assert (answer.status_code, line.kept()) == (200, [expected])


@sqlite_alone
def test_a_text_of_several_values_is_all_of_them(start: Start) -> None:
    line = start(gateway({}))
    assert line.post({"from": CUSTOMER, "text": ["it leaks", "since monday"], "id": 1}).status_code == 200
    form = start(gateway({"body": "form"}))
    sent = {"from": CUSTOMER, "text": ["it leaks", "and hums"], "id": "2"}
    assert form.web.post("/hooks/demo/plain", data=sent).status_code == 200
    spelled = start(gateway({"charset": {"written": "hex"}}))
    assert spelled.post({"from": CUSTOMER, "text": ["6e6f", "67757374"], "id": 3}).status_code == 200
    assert sorted(line.kept()) == ["it leaks\nand hums", "it leaks\nsince monday", "no\ngust"]


@sqlite_alone
def test_a_number_with_00_for_the_plus_is_the_same_number(start: Start, engine: Engine) -> None:
    line = start(gateway({}))
    for n, sender in enumerate(("+15055550183", "0015055550183", "00 1 505 555 0183", "15055550183", "5055550183")):
        assert line.post({"from": sender, "text": "STOP" if n == 1 else "hello", "id": n}).status_code == 200
    with reading(engine) as connection:
        (row,) = connection.execute(select(threads.c.number, threads.c.consent)).all()
    assert tuple(row) == ("+15055550183", "out")


def test_a_receipt_that_overtakes_the_gateways_answer_counts(
    start: Start, engine: Engine, clock: Clock, carrier: Carrier, caplog: pytest.LogCaptureFixture
) -> None:
    receipts = {"reference": "body:ref", "state": "body:is", "delivered": ["ok"], "failed": ["lost"]}
    line = start(gateway({}, receipts=receipts))
    line.post({"from": CUSTOMER, "text": "dishwasher leaks", "id": 1})

    def early(request: Request) -> Answer:
        """Reports what became of the text before it says that it took it."""
        for state in ("on its way", "ok"):
            assert line.post({"ref": "c-1", "is": state}, "/receipts").status_code == 200
        assert line.post({"ref": "strange", "is": "ok"}, "/receipts").status_code == 200
        return Answer(200, {}, b'{"id": "c-1"}')

    assert send_due(line.deps, early).sent == 1
    assert {status for _, status in line.replies()} == {"sent"}
    tick(line.deps, early)
    assert {status for _, status in line.replies()} == {"delivered"}
    assert "no text of ours" not in caplog.text
    clock.forward(minutes=11)
    tick(line.deps)
    assert caplog.text.count("no text of ours") == 1
    with reading(engine) as connection:
        assert connection.execute(select(early_receipts)).all() == []
    assert line.post({"ref": "strange", "is": "ok"}, "/receipts").status_code == 200
    assert caplog.text.count("no text of ours") == 2, "with nothing in hand there is nothing to wait for"


@sqlite_alone
def test_an_early_word_that_a_text_is_lost_reaches_people(start: Start, engine: Engine) -> None:
    receipts = {"reference": "body:ref", "state": "body:is", "delivered": ["ok"], "failed": ["lost"]}
    line = start(gateway({}, receipts=receipts))
    line.post({"from": CUSTOMER, "text": "dishwasher leaks", "id": 1})

    def lose(request: Request) -> Answer:
        line.post({"ref": "c-1", "is": "lost"}, "/receipts")
        return Answer(200, {}, b'{"id": "c-1"}')

    send_due(line.deps, lose)
    tick(line.deps, lose)
    with reading(engine) as connection:
        told = connection.execute(select(outbox.c.status, outbox.c.reason).where(outbox.c.kind == "answer")).first()
    assert told is not None
    assert tuple(told) == ("failed", "the carrier could not deliver it")


@sqlite_alone
@pytest.mark.parametrize(
    ("rule", "body"),
    [
        ({"kind": "fixed", "template": "OK"}, "OK"),
        ({"kind": "json", "status": 202}, '{"status":"ok"}'),
        ({"kind": "empty"}, ""),
        (None, ""),
    ],
)
@pytest.mark.parametrize("path", ["/receipts", ""])
def test_receipts_are_answered_as_the_profile_says(
    start: Start, rule: dict[str, Any] | None, body: str, path: str
) -> None:
    receipts: dict[str, Any] = {"key": "body:k", "state": "body:is", "delivered": ["ok"], "answer": rule}
    here = {} if path else {"at_the_hook": True, "only": {"body:is": ["ok", "lost"]}}
    line = start(gateway({"answer": {"kind": "fixed", "template": "TEXT"}}, receipts=receipts | here))
    answer = line.post({"k": "nobody's", "is": "ok"}, path)
    assert (answer.status_code, answer.text) == ((rule or {}).get("status", 200), body)
    assert line.post(event("m1")).text == "TEXT"


@sqlite_alone
def test_a_body_too_large_names_what_limits_it(start: Start, caplog: pytest.LogCaptureFixture) -> None:
    big = {"from": CUSTOMER, "text": "x" * 70_000, "id": 1}
    answer = start(gateway({})).post(big)
    assert answer.status_code == 413
    assert "the limit is the setting PLAINFAULT_MAX_BODY_BYTES" in answer.json()["detail"]
    answer = start(gateway({}, limits={"max_body_bytes": 2000})).post(big)
    assert (
        "larger than 2000 bytes; the limit is limits > max_body_bytes of the profile plain" in answer.json()["detail"]
    )
    assert caplog.text.count("a delivery is larger than is taken") == 2


@sqlite_alone
def test_a_text_that_is_cut_is_said_in_the_log(start: Start, caplog: pytest.LogCaptureFixture) -> None:
    line = start(gateway({}))
    assert line.post({"from": CUSTOMER, "text": "leak " * 2_001, "id": 1}).status_code == 200
    assert [len(text) for text in line.kept()] == [10_000]
    assert "its end was cut off" in caplog.text
    assert "leak" not in caplog.text


@sqlite_alone
def test_a_signed_time_may_be_in_milliseconds_and_a_bad_one_says_where(start: Start, clock: Clock) -> None:
    way = {"kind": "hmac", "header": "x-sign", "signs": "{header:x-at}", "time": "header:x-at", "keyed": True}
    line = start(gateway({"auth": [way | {"secret": "url"}]}, gateway="plain"))
    key = line.deps.gateways["plain"].secret("demo", "url").encode()

    def at(stamp: str) -> Any:
        sign = hmac.digest(key, stamp.encode(), hashlib.sha256).hex()
        return line.post(event("m1"), headers={"x-at": stamp, "x-sign": sign})

    now_s = int(clock().timestamp())
    assert at(str(now_s)).status_code == 200
    assert at(f"{now_s}250").status_code == 200
    late = at(f"{now_s - 400}000")
    assert (late.status_code, "at header:x-at is more than 300 seconds off" in late.json()["detail"]) == (401, True)
    odd = at("yesterday").json()["detail"]
    assert "the timestamp at header:x-at is no Unix time, which is a whole number of seconds or milliseconds" in odd
