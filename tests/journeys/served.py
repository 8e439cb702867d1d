"""The whole line as a carrier meets it: a real server on loopback, signed webhooks in, real sends out to a real carrier."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import random
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import httpx
import uvicorn
from sqlalchemy import select

from service.app import build_deps, create_app
from service.edge.deps import Deps
from service.edge.worker import tick
from service.settings import Settings
from service.storage.engine import open_engine, reading
from service.storage.tables import alarms, tickets, turns, visits
from tests.conftest import ROOT, Clock

SECRET = "whsec_" + base64.b64encode(bytes(range(32))).decode()
CUSTOMER = "+15055550142"


def sign(identity: str, moment: int, body: bytes, secret: str = SECRET) -> str:
    """The signature header of the Standard Webhooks specification, made here independently of the service."""
    key = base64.b64decode(secret.removeprefix("whsec_"))
    return "v1," + base64.b64encode(hmac.digest(key, f"{identity}.{moment}.".encode() + body, hashlib.sha256)).decode()


@dataclass
class Carrier:
    """A carrier's API: keeps every text it is given."""

    url: str = ""
    sent: list[dict[str, Any]] = field(default_factory=list)


@contextmanager
def carrier() -> Iterator[Carrier]:
    """A carrier on loopback."""
    kept = Carrier()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            kept.sent.append(json.loads(self.rfile.read(int(self.headers["content-length"]))))
            answer = json.dumps({"id": f"c{len(kept.sent)}"}).encode()
            self.send_response(200)
            self.send_header("content-type", "application/json")
            self.send_header("content-length", str(len(answer)))
            self.end_headers()
            self.wfile.write(answer)

        def log_message(self, format: str, *args: object) -> None:
            return

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
    thread.start()
    kept.url = f"http://127.0.0.1:{server.server_address[1]}/messages"
    yield kept
    server.shutdown()
    server.server_close()
    thread.join()


@contextmanager
def served(deps: Deps) -> Iterator[str]:
    """The application on a port of its own, without the sender (tests send by ``tick``); gives its URL."""
    listener = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(create_app(deps, sender=False), log_config=None, lifespan="on", ws="none")
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    server.should_exit = True
    thread.join(timeout=10)
    listener.close()


class ServedLine:
    """One customer texting the demo shop through the signed webhook; ``text`` gives what the carrier was then handed."""

    def __init__(self, url: str, deps: Deps, clock: Clock, taken: Carrier, number: str = CUSTOMER) -> None:
        self.url, self.deps, self.clock, self.carrier, self.number = url, deps, clock, taken, number
        self._client = httpx.Client(trust_env=False)
        self._count = 0

    def close(self) -> None:
        """Hang up."""
        self._client.close()

    def post(
        self, text: str, *, identity: str, media: list[str] | None = None, sent_at: str | None = None
    ) -> httpx.Response:
        """One signed delivery, as a carrier makes it."""
        body: dict[str, Any] = {"from": self.number, "to": "+15055550100", "text": text, "media": media or []}
        if sent_at:
            body["sent_at"] = sent_at
        raw = json.dumps(body).encode()
        moment = int(self.clock().timestamp())
        headers = {
            "content-type": "application/json", "webhook-id": identity, "webhook-timestamp": str(moment),
            "webhook-signature": sign(identity, moment, raw),
        }  # fmt: skip
        return self._client.post(f"{self.url}/hooks/demo/standard", content=raw, headers=headers)

    def text(self, *texts: str, media: list[str] | None = None) -> list[str]:
        """Send texts that follow each other closely; the replies after they have rested."""
        for words in texts:
            self._count += 1
            answer = self.post(words, identity=f"msg_{self.number[-4:]}_{self._count}", media=media)
            assert answer.status_code == 200, answer.text
            self.clock.forward(seconds=1)
        return self.settle(seconds=20)

    def settle(self, **by: float) -> list[str]:
        """Let time pass and the sender work; the texts that this customer was sent meanwhile."""
        before = len(self.carrier.sent)
        self.clock.forward(**by)
        while tick(self.deps, self._client).anything:
            self.clock.forward(seconds=1)
        return [sent["text"] for sent in self.carrier.sent[before:] if sent["to"] == self.number]

    @property
    def ticket(self) -> Any:
        """The newest ticket's row."""
        with reading(self.deps.engine) as connection:
            return connection.execute(select(tickets).order_by(tickets.c.number.desc()).limit(1)).one()

    def rows(self, table: Any) -> list[Any]:
        """All rows of *table*."""
        with reading(self.deps.engine) as connection:
            return list(connection.execute(select(table)))

    @property
    def visits(self) -> list[Any]:
        """The visits that stand."""
        return [row for row in self.rows(visits) if row.status in ("standing", "tentative")]

    @property
    def alarms(self) -> list[Any]:
        """The alarms raised."""
        return self.rows(alarms)

    @property
    def failures(self) -> list[Any]:
        """Turns that raised: there must be none."""
        return [row.step for row in self.rows(turns) if "failed" in row.step]


@contextmanager
def demo_line(database_url: str, clock: Clock) -> Iterator[ServedLine]:
    """The demo shop, served on *database_url*."""
    with carrier() as taken:
        settings = Settings(
            database=database_url,
            secret="s" * 40,
            rules=ROOT / "rules",
            gateways=ROOT / "deploy" / "gateways",
            gateway_secrets={"standard.signing": SECRET, "standard.url": taken.url, "standard.token": "token"},
        )
        engine = open_engine(database_url)
        deps = build_deps(settings, engine=engine, clock=clock, randomness=random.Random(5))
        with served(deps) as url:
            line = ServedLine(url, deps, clock, taken)
            yield line
            line.close()
            assert line.failures == []
        engine.dispose()
