"""What arrives broken, huge or slowly: an answer every time, never a traceback, and the line goes on."""

from __future__ import annotations

import http.client
import json
import socket
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, select

from service.edge import webhook
from service.edge.deps import Deps
from service.edge.verify import sign_standard
from service.storage.engine import reading
from service.storage.tables import messages
from tests.conftest import ROOT
from tests.edge.conftest import CUSTOMER, SIGNING
from tests.edge.running import free_port, running_line

pytestmark = pytest.mark.parametrize("database_url", ["sqlite"], indirect=True)


@pytest.fixture
def line(engine: Engine) -> Iterator[tuple[int, Deps]]:
    """The line on a port of its own."""
    port = free_port()
    secrets = {"standard.signing": SIGNING, "standard.url": "http://127.0.0.1:9/", "standard.token": "t"}
    with running_line(engine, Path(ROOT / "deploy" / "gateways"), secrets, port) as deps:
        yield port, deps


def post(port: int, body: bytes, identity: str = "m1", headers: dict[str, str] | None = None) -> tuple[int, bytes]:
    """One signed delivery: status and body of the answer."""
    at = int(time.time())
    proof = {"webhook-id": identity, "webhook-timestamp": str(at), "content-type": "application/json"}
    proof["webhook-signature"] = sign_standard(SIGNING, identity, at, body)
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    try:
        connection.request("POST", "/hooks/demo/standard", body, proof | (headers or {}))
        answer = connection.getresponse()
        return answer.status, answer.read()
    except (BrokenPipeError, ConnectionResetError):  # refused while we were still sending
        return 413, b""
    finally:
        connection.close()


def good(words: str) -> bytes:
    return json.dumps({"from": CUSTOMER, "to": "+15055550100", "text": words}).encode()


def kept(deps: Deps) -> list[str]:
    with reading(deps.engine) as connection:
        return list(connection.execute(select(messages.c.text).where(messages.c.direction == "in")).scalars())


def test_ten_megabytes_are_refused_and_the_line_goes_on(line: tuple[int, Deps]) -> None:
    port, deps = line
    assert post(port, b"x" * 10_000_000)[0] == 413
    assert post(port, good("my dishwasher leaks"), "m2")[0] == 200
    assert kept(deps) == ["my dishwasher leaks"]


def test_slow_clients_are_given_up_and_hold_up_nobody(line: tuple[int, Deps], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(webhook, "BODY_S", 1.0)
    port, deps = line
    slow = []
    for _ in range(50):
        one = socket.create_connection(("127.0.0.1", port))
        one.sendall(b"POST /hooks/demo/standard HTTP/1.1\r\nhost: x\r\ncontent-length: 100\r\n\r\n{")
        slow.append(one)
    assert post(port, good("the washer is flooding"), "m3")[0] == 200
    assert len(kept(deps)) == 1
    for one in slow:
        one.settimeout(30)
        assert b" 408 " in one.recv(200).split(b"\r\n")[0] + b" "
        one.close()


def test_a_client_that_hangs_up_in_the_middle_leaves_nothing(line: tuple[int, Deps]) -> None:
    port, deps = line
    with socket.create_connection(("127.0.0.1", port)) as one:
        one.sendall(b'POST /hooks/demo/standard HTTP/1.1\r\nhost: x\r\ncontent-length: 100\r\n\r\n{"from"')
    assert post(port, good("hello"), "m4")[0] == 200
    assert kept(deps) == ["hello"]


NAMES = st.sampled_from(
    ["content-type", "transfer-encoding-x", "x-forwarded-for", "accept", "content-encoding", "expect-x"]
)
VALUES = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=60)


def test_whatever_is_posted_gets_an_answer_without_a_traceback(line: tuple[int, Deps]) -> None:
    port, deps = line
    count = [0]

    @settings(max_examples=30, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck))
    @given(
        body=st.one_of(
            st.binary(max_size=400),
            st.text(max_size=200).map(lambda t: json.dumps({"from": CUSTOMER, "text": t}).encode("utf-8", "replace")),
            st.recursive(st.none() | st.booleans() | st.floats() | st.text(), st.lists).map(
                lambda v: json.dumps({"from": CUSTOMER, "text": v}).encode("utf-8", "replace")
            ),
            st.sampled_from([good("caf\u00e9").replace(b"\\u00e9", b"\xe9"), good("x").decode().encode("utf-16")]),
        ),
        headers=st.dictionaries(NAMES, VALUES, max_size=3),
    )
    def deliver(body: bytes, headers: dict[str, str]) -> None:
        count[0] += 1
        status, answer = post(port, body, f"f{count[0]}", headers)
        assert status in (200, 400, 413, 422), status
        assert b"Traceback" not in answer
        if status == 200:
            with reading(deps.engine) as connection:
                query = select(messages.c.id).where(messages.c.carrier_id == f"f{count[0]}")
                assert connection.execute(query).one_or_none(), "answered 200 and not kept"

    deliver()
    assert post(port, good("still there"), "last")[0] == 200
