"""Replies in the answer: what of the delivery they may name, how they are coded, and receipts for them; over the exchange."""

from __future__ import annotations

import base64
import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import pytest
from fastapi import FastAPI
from sqlalchemy import Engine, select, update
from starlette.testclient import TestClient

from service.edge.answers import answer_with
from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.edge.profile import Profile
from service.edge.profile_receive import Answer
from service.edge.webhook import hooks
from service.storage.engine import reading, writing
from service.storage.messages import record_inbound
from service.storage.tables import messages, outbox
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER, SIGNING, Line, json_gateway

MakeDeps = Callable[..., Deps]
GSM_EURO = "the visit is 89 € today"


@dataclass(frozen=True)
class Received:
    """As the exchange answers."""

    thread: str = "thread1"


def keeping(deps: Deps, inbound: Inbound) -> Received:
    """Keeps a text as the exchange does, and takes no turn for it."""
    with writing(deps.engine) as connection:
        record_inbound(
            connection, shop="demo", thread="thread1", gateway=inbound.gateway, carrier_id=inbound.carrier_id,
            text=inbound.text, media=(), carrier_at=None, now=deps.clock(),
        )  # fmt: skip
    return Received()


def named(**answer: Any) -> Profile:
    """A gateway that composes ids and wants its own back, with the reply in the answer."""
    receive: dict[str, Any] = {
        "body": "form", "auth": [{"kind": "shared_secret", "secret": "signing", "at": "query:s"}],
        "sender": "body:from", "recipient": "body:to", "text": "body:text",
        "id": {"of": ["sender"], "also": ["body:MsgId"]},
        "answer": {
            "kind": "reply", "written": "json", "reference": "body:MsgId", "nothing_template": '{"for": "{body:MsgId}"}',
            "template": '{"for": "{body:MsgId}", "by": "{header:X-Node}", "gone": "{query:nope}", "key": "{key}", '
            '"to": "{to|national}", "from": "{from|00}", "id": "{id}", "text": "{reply}"}',
        } | answer,
    }  # fmt: skip
    receipts = {
        "reference": "query:ref",
        "key": "query:key",
        "state": "query:state",
        "delivered": ["ok"],
        "failed": ["no"],
    }
    return json_gateway(receive=receive, receipts=receipts | {"method": "GET", "body": "query"})


@contextmanager
def posting(deps: Deps) -> Iterator[TestClient]:
    app = FastAPI()
    app.router.routes.extend(hooks(deps, keeping))
    with TestClient(app, raise_server_exceptions=False) as client:
        yield client


def post(web: TestClient, identity: str = "M 7") -> Any:
    form = {"from": CUSTOMER, "to": SHOP_NUMBER, "text": "hi", "MsgId": identity}
    return web.post("/hooks/demo/plain", params={"s": SIGNING}, data=form, headers={"X-Node": 'n"1'})


def report(web: TestClient, **said: str) -> None:
    assert web.get("/hooks/demo/plain/receipts", params={"s": SIGNING, **said}).status_code == 200


def test_a_reply_names_places_of_its_delivery_and_a_repeat_is_answered_alike(make_deps: MakeDeps) -> None:
    line = Line(make_deps(named())).begin()
    key = line.write("Does it drain?")
    with posting(line.deps) as web:
        first = post(web)
        assert post(web).content == first.content
        assert post(web, "M 8").json() == {"for": "M 8"}, "there is no reply, and its place is filled all the same"
    told = first.json()
    assert told.pop("id").startswith("made-")
    assert told == {
        "for": "M 7", "by": 'n"1', "gone": "", "key": key, "to": "5055550142", "from": "0015055550100",
        "text": "Does it drain?",
    }  # fmt: skip


@pytest.mark.parametrize("called", ["reference", "key"])
@pytest.mark.parametrize(("state", "status"), [("ok", "delivered"), ("no", "failed")])
def test_a_receipt_is_about_all_replies_of_its_answer_and_no_others(
    make_deps: MakeDeps, called: str, state: str, status: str
) -> None:
    line = Line(make_deps(named())).begin()
    line.write("one")
    line.write("two")
    with posting(line.deps) as web:
        told = post(web).json()
        line.write("three")
        post(web, "M 8")
        report(web, state=state, **({"ref": "M 7"} if called == "reference" else {"key": told["key"]}))
    assert line.states() == {"one": status, "two": status, "three": "sent"}


def test_a_receipt_by_the_texts_own_id_needs_no_reference(make_deps: MakeDeps) -> None:
    line = Line(make_deps(named(reference=None))).begin()
    line.write("one")
    with posting(line.deps) as web:
        report(web, state="ok", ref=post(web).json()["id"])
    assert line.states() == {"one": "delivered"}


def test_an_answer_kept_by_an_earlier_edition_of_the_service_is_still_given(make_deps: MakeDeps) -> None:
    line = Line(make_deps(named())).begin()
    with posting(line.deps) as web:
        post(web)
        with writing(line.deps.engine) as connection:
            connection.execute(update(messages).values(answer=["as it was kept"]))
        assert post(web).json()["text"] == "as it was kept"


def answered(words: str, **answer: Any) -> Any:
    rule = Answer.model_validate({"kind": "reply", "template": '{"t": "{reply}"}', "written": "json"} | answer)
    return answer_with(rule, [words], Inbound("demo", "g", CUSTOMER, SHOP_NUMBER, "hi", (), "id1"))


def test_a_reply_is_spelled_in_hex_or_base64_in_its_charset() -> None:
    coded = {"reply_written": "hex", "charset": "latin-1", "beyond_7_bit_charset": "utf-16-be"}
    seven, beyond = answered("ñ", **coded), answered("\N{DROPLET}", **coded)
    assert json.loads(seven.body) == {"t": "F1"}
    assert json.loads(beyond.body) == {"t": "D83DDCA7"}
    assert beyond.headers["content-type"] == "application/json; charset=utf-8"
    assert json.loads(answered("a\nñ", reply_written="base64").body) == {
        "t": base64.b64encode("a\nñ".encode()).decode()
    }


def test_a_sign_that_the_charset_lacks_goes_the_way_beyond_in_an_answer_too() -> None:
    ways = {"template": None, "written": "text", "charset": "latin-1", "beyond_7_bit": {"x-coding": "2"}}
    made = answered(GSM_EURO, beyond_7_bit_charset="utf-16-be", **ways)
    assert (made.body.decode("utf-16-be"), made.headers["x-coding"]) == (GSM_EURO, "2")
    assert answered("ñ", beyond_7_bit_charset="utf-16-be", **ways).body == b"\xf1"
    assert answered(GSM_EURO, **ways).body == GSM_EURO.replace("€", "?").encode()


def test_a_fixed_answer_may_hold_a_place_of_what_it_answers(make_deps: MakeDeps) -> None:
    answer = {"kind": "fixed", "written": "xml", "reference": None, "nothing_template": None}
    deps = make_deps(named(**answer, template="<ack id='{body:MsgId}'>{header:X-Node}{query:nope}</ack>"))
    Line(deps).begin()
    with posting(deps) as web:
        assert post(web, "<7>").text == "<ack id='&lt;7&gt;'>n&quot;1</ack>"


def test_what_is_kept_of_an_answer_holds_its_key(make_deps: MakeDeps, engine: Engine) -> None:
    line = Line(make_deps(named())).begin()
    key = line.write("one")
    with posting(line.deps) as web:
        post(web)
    with reading(engine) as connection:
        kept = connection.execute(select(messages.c.answer).where(messages.c.direction == "in")).scalar_one()
        reference = connection.execute(select(outbox.c.carrier_ref)).scalar_one()
    assert kept == {"replies": ["one"], "key": key}
    assert reference == "M 7"
