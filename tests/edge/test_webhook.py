"""The hooks over HTTP: what each delivery is answered, and that no failure shows how we are built."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any
from urllib.parse import quote

import pytest
from fastapi import FastAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy.exc import OperationalError
from starlette.testclient import TestClient

from service.edge.deps import Deps
from service.edge.gateways import Gateway
from service.edge.inbound import Inbound
from service.edge.network import Network
from service.edge.outbox import send_due
from service.edge.profile import Profile
from service.edge.verify import sign_standard
from service.edge.webhook import hooks
from service.storage.engine import writing
from service.storage.messages import record_inbound
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, SIGNING, Line, json_gateway

MakeDeps = Callable[..., Deps]


@dataclass(frozen=True)
class Received:
    """As the exchange answers."""

    thread: str = "thread1"


@dataclass
class Exchange:
    """Stands where the exchange does: notes what it is given, or fails as told."""

    got: list[Inbound] = field(default_factory=list)
    fails: Exception | None = None

    def receive(self, deps: Deps, inbound: Inbound) -> Received:
        """Note it."""
        if self.fails:
            raise self.fails
        self.got.append(inbound)
        return Received()


@pytest.fixture
def deps(make_deps: MakeDeps) -> Deps:
    receipts = {"auth": [{"kind": "shared_secret", "secret": "signing", "at": "query:s"}], "reference": "body:id"}
    more = {"state": "body:state", "delivered": ["ok"], "failed": ["lost"]}
    return make_deps(json_gateway(receipts=receipts | more), json_gateway(gateway="unset"))


@pytest.fixture
def exchange() -> Exchange:
    return Exchange()


@pytest.fixture
def web(deps: Deps, exchange: Exchange) -> Iterator[TestClient]:
    app = FastAPI()
    app.router.routes.extend(hooks(deps, exchange.receive))
    with TestClient(app, raise_server_exceptions=False) as client:
        yield client


def signed(clock: Clock, body: bytes, *, identity: str = "m1", late_s: int = 0) -> dict[str, str]:
    at = int(clock().timestamp()) - late_s
    return {
        "webhook-id": identity,
        "webhook-timestamp": str(at),
        "webhook-signature": sign_standard(SIGNING, identity, at, body),
        "content-type": "application/json",
    }


def post(web: TestClient, clock: Clock, document: object, path: str = "/hooks/demo/plain", **how: Any) -> Any:
    body = document if isinstance(document, bytes) else json.dumps(document).encode()
    return web.post(path, content=body, headers=signed(clock, body, **how))


GOOD = {"from": CUSTOMER, "text": "it leaks"}


def test_a_signed_text_is_taken(web: TestClient, exchange: Exchange, clock: Clock) -> None:
    answer = post(web, clock, GOOD)
    assert (answer.status_code, answer.json()) == (200, {"status": "ok"})
    (inbound,) = exchange.got
    assert (inbound.sender, inbound.text, inbound.carrier_id) == (CUSTOMER, "it leaks", "m1")


def problem_of(answer: Any, status: int) -> Any:
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["status"] == status
    return answer.json()


@pytest.mark.parametrize("late_s", [301, -301])
def test_a_stale_signature_is_401(web: TestClient, exchange: Exchange, clock: Clock, late_s: int) -> None:
    answer = post(web, clock, GOOD, late_s=late_s)
    assert "300 seconds" in problem_of(answer, 401)["detail"]
    assert answer.headers["www-authenticate"]
    assert not exchange.got


def test_a_wrong_signature_is_401_before_anything_is_parsed(web: TestClient, clock: Clock) -> None:
    headers = signed(clock, b"{")
    problem_of(web.post("/hooks/demo/plain", content=b"[", headers=headers), 401)
    problem_of(web.post("/hooks/demo/plain", content=b"["), 401)


@pytest.mark.parametrize("body", [b"", b"{", b"[]", b'{"from": "+15055550142"}', b"\xff"])
def test_a_malformed_body_is_422(web: TestClient, exchange: Exchange, clock: Clock, body: bytes) -> None:
    problem_of(post(web, clock, body), 422)
    assert not exchange.got


def test_a_body_too_large_is_413_told_or_not(web: TestClient, exchange: Exchange, clock: Clock) -> None:
    body = b"x" * 70_000
    problem_of(post(web, clock, body), 413)

    def pieces() -> Iterator[bytes]:
        for _ in range(1000):
            yield b"x" * 10_000

    problem_of(web.post("/hooks/demo/plain", content=pieces(), headers=signed(clock, body)), 413)
    assert not exchange.got


@pytest.mark.parametrize("path", ["/hooks/nobody/plain", "/hooks/demo/nothing", "/hooks/demo/loopback"])
def test_an_unknown_shop_or_gateway_is_404(web: TestClient, clock: Clock, path: str) -> None:
    problem_of(post(web, clock, GOOD, path), 404)


def test_the_wrong_method_is_405(web: TestClient) -> None:
    answer = web.get("/hooks/demo/plain")
    problem_of(answer, 405)
    assert answer.headers["allow"] == "POST"


def test_a_gateway_without_its_secret_is_503_to_be_tried_again(
    web: TestClient, exchange: Exchange, clock: Clock
) -> None:
    answer = post(web, clock, GOOD, "/hooks/demo/unset")
    assert "secret" not in json.dumps(problem_of(answer, 503)).lower()
    assert answer.headers["retry-after"]


@pytest.mark.parametrize(
    ("wrong", "status"),
    [
        (OperationalError("INSERT it leaks", {"text": "it leaks"}, Exception("disk full: it leaks")), 503),
        (RuntimeError("it leaks"), 500),
        (KeyError("it leaks"), 500),
        (ValueError("it leaks"), 500),
    ],
)
def test_a_failure_asks_for_another_delivery_and_shows_nothing(
    web: TestClient, exchange: Exchange, clock: Clock, wrong: Exception, status: int, caplog: pytest.LogCaptureFixture
) -> None:
    exchange.fails = wrong
    answer = post(web, clock, GOOD)
    said = json.dumps(problem_of(answer, status))
    assert "it leaks" not in said + caplog.text
    assert "Traceback" not in said + caplog.text
    assert answer.headers["retry-after"]


def test_a_receipt_settles_a_text(
    web: TestClient, deps: Deps, clock: Clock, network: Network, carrier: Any, caplog: pytest.LogCaptureFixture
) -> None:
    line = Line(deps).begin()
    line.write("one")
    send_due(deps, network)
    path = f"/hooks/demo/plain/receipts?s={quote(SIGNING, safe='')}"
    assert web.post(path, json={"id": "c-1", "state": "handed over"}).status_code == 200
    assert line.states() == {"one": "sent"}
    assert web.post(path, json={"id": "c-1", "state": "ok"}).status_code == 200
    assert line.states() == {"one": "delivered"}
    assert web.post(path, json={"id": "c-1", "state": "lost"}).status_code == 200
    assert line.states() == {"one": "delivered"}, "what arrived cannot be lost afterwards"
    assert web.post(path, json={"id": "other", "state": "ok"}).status_code == 200
    assert "no text of ours" in caplog.text
    problem_of(web.post("/hooks/demo/plain/receipts", json={"id": "c-1", "state": "ok"}), 401)
    problem_of(web.post(path, json={"state": "ok"}), 422)
    problem_of(web.post("/hooks/demo/form_basic/receipts"), 503)


def query_path(clock: Clock, text: str, coding: str = "0", charset: str = "utf-8", **more: str) -> str:
    encoded = quote(text.encode(charset), safe="")
    given = {"token": "tok", "from": quote(CUSTOMER), "id": "q1", "coding": coding} | more
    return "/hooks/demo/query_reply?" + "&".join(f"{k}={v}" for k, v in given.items()) + f"&text={encoded}"


@pytest.fixture
def reply_web(make_deps: MakeDeps, exchange: Exchange) -> Iterator[tuple[TestClient, Line]]:
    shipped = make_deps()
    gateway = Gateway(
        shipped.gateways["query_reply"].profile, lambda shop, name: {"query_reply.token": "tok"}.get(name)
    )
    deps = replace(shipped, gateways={"query_reply": gateway})
    app = FastAPI()
    line = Line(deps, gateway="query_reply").begin()
    calls: list[str] = []

    def receive(deps: Deps, inbound: Inbound) -> Received:
        """As the exchange: one message, one reply, once."""
        with writing(deps.engine) as connection:
            fresh = record_inbound(
                connection, shop="demo", thread=line.thread, gateway=inbound.gateway, carrier_id=inbound.carrier_id,
                text=inbound.text, media=(), carrier_at=None, now=deps.clock(),
            )  # fmt: skip
        if fresh:
            calls.append(inbound.text)
            line.write(f"You said: {inbound.text}")
        return Received(line.thread)

    app.router.routes.extend(hooks(deps, receive))
    with TestClient(app, client=("127.0.0.1", 5000)) as client:
        yield client, line


def test_a_reply_travels_in_the_answer_once_and_again_for_a_repeat(
    reply_web: tuple[TestClient, Line], clock: Clock
) -> None:
    web, line = reply_web
    path = query_path(clock, "mañana, está \N{DROPLET}", "2", "utf-16-be")
    first, again = web.get(path), web.get(path)
    assert first.status_code == again.status_code == 200
    assert first.text == again.text == "You said: mañana, está \N{DROPLET}"
    assert first.headers["content-type"] == "text/plain; charset=utf-8"
    assert first.headers["x-coding"] == "2"
    assert list(line.states().values()) == ["sent"]
    plain = web.get(query_path(clock, "it leaks", id="q2"))
    assert "x-coding" not in plain.headers


def test_a_danger_goes_alone_in_the_answer(reply_web: tuple[TestClient, Line], clock: Clock) -> None:
    web, line = reply_web
    line.write("who we are", "danger")
    answer = web.get(query_path(clock, "hi"))
    assert answer.text == "who we are"
    assert line.states() == {"who we are": "sent", "You said: hi": "waiting"}


def test_a_gateway_that_would_text_its_own_error_is_answered_plainly_and_the_log_keeps_the_place(
    reply_web: tuple[TestClient, Line], caplog: pytest.LogCaptureFixture
) -> None:
    web, _ = reply_web
    answer = web.get("/hooks/demo/query_reply?token=tok&id=q9&text=lost")
    assert (answer.status_code, answer.content) == (200, b"")
    (record,) = [record for record in caplog.records if record.name == "plainfault.webhook"]
    assert (record.levelname, vars(record)["why"]) == ("ERROR", "the sender is missing at query:from")
    assert "lost" not in str(vars(record))
    problem_of(web.get("/hooks/demo/query_reply?token=wrong&id=q9"), 401)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)
@given(body=st.binary(max_size=400), query=st.text(max_size=60), header=st.text(max_size=30), sign=st.booleans())
def test_whatever_is_delivered_there_is_an_answer_and_never_a_traceback(
    web: TestClient, clock: Clock, body: bytes, query: str, header: str, sign: bool
) -> None:
    headers = signed(clock, body) if sign else {"webhook-id": quote(header), "authorization": quote(header)}
    for gateway in ("plain", "standard", "form_basic", "raw_text"):
        answer = web.post(f"/hooks/demo/{gateway}?{quote(query)}", content=body, headers=headers)
        assert answer.status_code in (200, 401, 404, 422, 503)
        assert "Traceback" not in answer.text


def test_the_bearer_scheme_is_named_to_who_must_use_it(make_deps: MakeDeps, clock: Clock) -> None:
    receive = {"auth": [{"kind": "bearer", "secret": "signing"}], "sender": "body:from", "text": "body:text"}
    profile: Profile = json_gateway(receive=receive | {"id": "body:id"})
    app = FastAPI()
    app.router.routes.extend(hooks(make_deps(profile), Exchange().receive))
    with TestClient(app) as web:
        answer = web.post("/hooks/demo/plain", json=GOOD)
        assert answer.headers["www-authenticate"] == "Bearer"
        good = {"authorization": f"Bearer {SIGNING}"}
        assert web.post("/hooks/demo/plain", json=GOOD | {"id": 5}, headers=good).status_code == 200
