"""A carrier to send to, a shop to send for, and the edge around them."""

from __future__ import annotations

import json
import random
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import pytest
from sqlalchemy import Engine, insert

from service.edge.deps import Deps
from service.edge.gateways import Gateway, load_gateways
from service.edge.network import Network
from service.edge.profile import Profile
from service.rulebook.model import Rulebook, Vocabulary
from service.rulebook.schema.shop import Shop
from service.settings import Settings
from service.storage import outbox
from service.storage.engine import writing
from service.storage.tables import outbox as outbox_table
from service.storage.tables import shops, threads
from tests.conftest import ROOT, Clock

SIGNING = "whsec_AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8="
SHOP_NUMBER = "+15055550100"
CUSTOMER = "+15055550142"
ON_CALL = ("+15055550171", "+15055550172")


def small_shop(**changes: Any) -> Shop:
    """A shop of one technician, open on weekdays from 8 to 17 in Albuquerque, with two on-call phones."""
    week = {day: {"start": "08:00", "end": "17:00"} for day in ("mon", "tue", "wed", "thu", "fri")}
    document: dict[str, Any] = {
        "shop": "demo",
        "name": "Tarnwick Two",
        "number": SHOP_NUMBER,
        "office_phone": "+15055550101",
        "timezone": "America/Denver",
        "serves": ["dishwasher"],
        "refer_otherwise": {"en": "Ask a neighbour.", "es": "Pregunte a un vecino."},
        "area": {"87106": {"lat": 35.08, "lon": -106.62}},
        "hours": week,
        "technicians": [
            {"id": "ana", "name": "Ana", "skills": ["dishwasher"], "days": week, "start_zip": "87106"},
        ],
        "windows": {"starts": ["08:00", "13:00"]},
        "fees": {"visit_cents": 8900, "say": {"en": "{fee}", "es": "{fee}"}},
        "on_call": [{"name": f"Phone {n}", "number": number} for n, number in enumerate(ON_CALL, 1)],
        "policies": {"rest_s": 0, "autonomy": "automatic"},
    }
    return Shop.model_validate(document | changes)


def rulebook_of(shop: Shop) -> Rulebook:
    """A rulebook that holds nothing but *shop*."""
    nothing: dict[str, Any] = {}
    vocabulary = Vocabulary(nothing, nothing, nothing, nothing, nothing, nothing)
    return Rulebook(
        vocabulary, nothing, nothing, nothing, nothing, nothing, nothing, {"en": {}, "es": {}}, shop, shop.name, "{}"
    )


@dataclass
class Request:
    """A request as the carrier got it."""

    method: str
    path: str
    headers: dict[str, str]
    body: bytes

    @property
    def json(self) -> Any:
        """The body, parsed."""
        return json.loads(self.body)


Answer = tuple[int, dict[str, str], bytes] | str
"""Status, headers and body; or ``hang up``: the connection ends without an answer after the request was read."""


@dataclass
class Carrier:
    """A real HTTP server that notes what it is sent and answers as it is told, with ``usual`` when told nothing."""

    url: str = ""
    requests: list[Request] = field(default_factory=list)
    answers: list[Answer] = field(default_factory=list)
    usual: Answer = (200, {"content-type": "application/json"}, b'{"id": "c-1"}')

    def texts(self) -> list[str]:
        """The texts it was sent, in order."""
        return [request.json["text"] for request in self.requests]


@pytest.fixture
def carrier() -> Iterator[Carrier]:
    """A carrier on loopback."""
    said = Carrier()

    class Handler(BaseHTTPRequestHandler):
        def _handle(self) -> None:
            body = self.rfile.read(int(self.headers.get("content-length", 0)))
            headers = {name.lower(): value for name, value in self.headers.items()}
            said.requests.append(Request(self.command, self.path, headers, body))
            answer = said.answers.pop(0) if said.answers else said.usual
            if isinstance(answer, str):
                self.connection.close()
                return
            status, sent, content = answer
            self.send_response(status)
            for name, value in sent.items():
                self.send_header(name, value)
            self.send_header("content-length", str(len(content)))
            self.end_headers()
            self.wfile.write(content)

        do_GET = do_POST = do_PUT = _handle  # noqa: N815 - the server's names

        def log_message(self, format: str, *args: object) -> None:
            return

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
    thread.start()
    said.url = f"http://127.0.0.1:{server.server_address[1]}"
    yield said
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture
def network() -> Iterator[Network]:
    """What sends over HTTP, by no proxy."""
    with Network(proxies={}) as opened:
        yield opened


def json_gateway(**changes: Any) -> Profile:
    """A gateway that speaks JSON and knows no idempotency key."""
    document: dict[str, Any] = {
        "gateway": "plain",
        "about": "for tests",
        "receive": {
            "auth": [{"kind": "standard_webhooks"}],
            "sender": "body:from",
            "text": "body:text",
            "id": "header:webhook-id",
        },
        "send": {
            "url": "{secret:url}/send",
            "fields": {"to": "{to}", "from": "{from}", "text": "{text}", "key": "{key}"},
            "reference": "body:id",
        },
        "limits": {"per_second": 1000, "burst": 1000, "attempts": 4},
    }
    return Profile.model_validate(document | changes)


@pytest.fixture
def make_deps(engine: Engine, clock: Clock, carrier: Carrier) -> Callable[..., Deps]:
    """Deps for a shop and gateways; the shop's row is there."""

    def make(*profiles: Profile, shop: Shop | None = None) -> Deps:
        settings = Settings(
            database="sqlite://",
            secret="s" * 32,
            gateway_secrets={
                **{f"{p.gateway}.url": carrier.url for p in profiles},
                **dict.fromkeys(("plain.signing", "standard.signing"), SIGNING),
                "standard.url": f"{carrier.url}/send",
                "standard.token": "token-of-ours",
            },
            base_url="http://line.example",
        )
        gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
        gateways |= {p.gateway: Gateway(p, settings.gateway_secret) for p in profiles}
        book = rulebook_of(shop or small_shop())
        with writing(engine) as connection:
            row = {"shop": "demo", "number": SHOP_NUMBER, "edition": "e", "autonomy": "automatic", "paused": False}
            connection.execute(insert(shops).values(next_ticket=1001, created_at=clock(), **row))
        return Deps(engine, clock, {"demo": book}.__getitem__, random.Random(7), gateways, settings)

    return make


@dataclass
class Line:
    """One customer's thread and what is written to it."""

    deps: Deps
    gateway: str = "plain"
    thread: str = "thread1"
    number: str = CUSTOMER
    written: int = 0

    def begin(self) -> Line:
        """The thread's row."""
        with writing(self.deps.engine) as connection:
            row = {"id": self.thread, "shop": "demo", "number": self.number, "gateway": self.gateway, "turns": 0}
            more = {"language": "en", "consent": "in", "state": {}, "created_at": self.deps.clock()}
            connection.execute(insert(threads).values(**row, **more))
        return self

    def set(self, **values: object) -> None:
        """Change the thread's row."""
        with writing(self.deps.engine) as connection:
            connection.execute(threads.update().where(threads.c.id == self.thread).values(**values))

    def write(self, text: str, kind: str = "answer", **more: Any) -> str:
        """A text to be sent; its key."""
        self.written += 1
        key = more.pop("key", f"{self.thread}.1:{self.written}")
        now = self.deps.clock()
        given: dict[str, Any] = {
            "shop": "demo", "thread": self.thread, "key": key, "number": self.number, "gateway": self.gateway,
            "kind": kind, "text": text, "segments": 1, "due_at": now,
        }  # fmt: skip
        with writing(self.deps.engine) as connection:
            assert outbox.put(connection, outbox.Outgoing(**(given | more)), now)
        return key

    def states(self) -> dict[str, str]:
        """Text to status."""
        with writing(self.deps.engine) as connection:
            rows = outbox.of_thread(connection, "demo", self.thread)
        return {row.text: row.status for row in rows}

    def row(self, text: str) -> Any:
        """The whole outbox row of a text."""
        with writing(self.deps.engine) as connection:
            return connection.execute(outbox_table.select().where(outbox_table.c.text == text)).one()
