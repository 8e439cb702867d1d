"""The whole line as a carrier meets it: a real server on loopback, signed webhooks in, real sends out to a real carrier."""

from __future__ import annotations

import base64
import gc
import hashlib
import hmac
import json
import random
import socket
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import cache
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import httpx2
import uvicorn
from sqlalchemy import Table, func, select

from service.app import build_deps, create_app
from service.conversation.state import State, TicketState
from service.conversation.upgrade import read_state
from service.edge.deps import Deps
from service.edge.network import Network
from service.edge.worker import tick
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook
from service.settings import Settings
from service.storage.engine import open_engine, reading
from service.storage.ledgers import alarms
from service.storage.tables import messages, outbox, threads, tickets, turns, visit_tickets, visits
from service.storage.wakes import next_due
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
    """
    One customer texting the demo shop through the signed webhook; ``text`` gives what the carrier was then handed.

    What stands (tickets, visits, alarms) is of this customer's thread only: several may text the same shop.
    """

    def __init__(
        self, url: str, deps: Deps, clock: Clock, taken: Carrier, client: httpx2.Client, network: Network,
        number: str = CUSTOMER,
    ) -> None:  # fmt: skip
        self.url, self.deps, self.clock, self.carrier, self.number = url, deps, clock, taken, number
        self._client, self._network = client, network
        self._count = 0

    def of(self, number: str) -> ServedLine:
        """Another customer of the same shop, at the same moment."""
        return ServedLine(self.url, self.deps, self.clock, self.carrier, self._client, self._network, number)

    # What happens

    def post(
        self, text: str, *, identity: str, media: list[str] | None = None, sent_at: str | None = None
    ) -> httpx2.Response:
        """One signed delivery, as a carrier makes it."""
        body: dict[str, Any] = {"from": self.number, "to": "+15055550100", "text": text, "media": media or []}
        if sent_at:
            body["sent_at"] = sent_at
        return self.deliver(json.dumps(body).encode(), identity=identity)

    def deliver(self, raw: bytes, *, identity: str, age_s: int = 0, secret: str = SECRET) -> httpx2.Response:
        """Any body, signed with *secret* so many seconds ago."""
        moment = int(self.clock().timestamp()) - age_s
        headers = {
            "content-type": "application/json", "webhook-id": identity, "webhook-timestamp": str(moment),
            "webhook-signature": sign(identity, moment, raw, secret),
        }  # fmt: skip
        return self._client.post(f"{self.url}/hooks/demo/standard", content=raw, headers=headers)

    def get(self, path: str) -> httpx2.Response:
        """A page, by its path."""
        return self._client.get(self.url + path)

    def submit(self, path: str, fields: Mapping[str, str]) -> httpx2.Response:
        """A form sent from one of our own pages."""
        return self._client.post(self.url + path, data=dict(fields), headers={"origin": self.url})

    def text(self, *texts: str, media: list[str] | None = None) -> list[str]:
        """Send texts that follow each other closely; the replies after they have rested."""
        for words in texts:
            self._count += 1
            answer = self.post(words, identity=f"msg_{self.number[-4:]}_{self._count}", media=media)
            assert answer.status_code == 200, answer.text
            self.clock.forward(seconds=1)
        return self.settle(seconds=20)

    def settle(self, **by: float) -> list[str]:
        """Let time pass in one stride and the sender work; the texts that this customer was sent meanwhile."""
        before = len(self.carrier.sent)
        self.clock.forward(**by)
        self._work()
        return self._sent_since(before)

    def wait(self, **by: float) -> list[str]:
        """Let time pass, stopping whenever a wake rings or a text is due; what this customer was sent meanwhile."""
        before, end = len(self.carrier.sent), self.clock() + timedelta(**by)
        self._work()
        while (due := self._next_due()) is not None and due <= end:
            self.clock.moment = max(self.clock(), due)
            self._work()
        self.clock.moment = max(self.clock(), end)
        self._work()
        return self._sent_since(before)

    def talk(self, answers: Mapping[str, str], *, until: str, most: int = 10) -> list[str]:
        """
        Answer what is asked until a question of kind *until* stands open, or none; gives what was asked, in order.

        answers: by the question's code, else by its kind; any other question gets "I don't know".
        """
        asked: list[str] = []
        while (question := self.state.asked) is not None and question.kind != until:
            assert len(asked) < most, f"still asking after {asked}"
            code = question.code or question.kind
            asked.append(question.kind if question.kind == "check_result" else code)
            self.text(answers.get(code, answers.get(question.kind, "I don't know")))
        return asked

    def _work(self) -> None:
        while tick(self.deps, self._network).anything:
            self.clock.forward(seconds=1)

    def _next_due(self) -> datetime | None:
        with reading(self.deps.engine) as connection:
            waiting = select(func.min(outbox.c.due_at)).where(outbox.c.status == "waiting")
            moments = [next_due(connection), connection.execute(waiting).scalar_one_or_none()]
        return min((moment for moment in moments if moment is not None), default=None)

    def _sent_since(self, before: int) -> list[str]:
        return [sent["text"] for sent in self.carrier.sent[before:] if sent["to"] == self.number]

    # What stands

    @property
    def thread(self) -> Any:
        """This customer's thread as stored."""
        return next(row for row in self.rows(threads) if row.number == self.number)

    @property
    def state(self) -> State:
        """The conversation as it would be read for the next turn."""
        return read_state(self.thread.state)

    @property
    def focus(self) -> TicketState:
        """The ticket in focus, open or closed."""
        ticket = self.state.in_focus
        assert ticket is not None, "no ticket is in focus"
        return ticket

    @property
    def ticket(self) -> Any:
        """The newest ticket's row."""
        return max((row for row in self.rows(tickets) if row.thread == self.thread.id), key=lambda row: row.number)

    @property
    def said(self) -> str:
        """All that this customer was ever sent, as one."""
        return "\n".join(self._sent_since(0))

    @property
    def visits(self) -> list[Any]:
        """The visits that stand."""
        return [row for row in self.rows(visits) if row.status in ("standing", "tentative") and self._mine(row)]

    @property
    def every_visit(self) -> list[Any]:
        """The visits, whatever became of them."""
        return [row for row in self.rows(visits) if self._mine(row)]

    @property
    def alarms(self) -> list[Any]:
        """The alarms raised."""
        return [row for row in self.rows(alarms) if row.thread == self.thread.id]

    @property
    def turns(self) -> list[Any]:
        """The turns taken, in order."""
        mine = [row for row in self.rows(turns) if row.thread == self.thread.id]
        return sorted(mine, key=lambda row: int(row.number))

    @property
    def heard(self) -> list[Any]:
        """The texts that came from this customer, as kept."""
        return [row for row in self.rows(messages) if row.thread == self.thread.id and row.direction == "in"]

    @property
    def failures(self) -> list[Any]:
        """Turns that raised, of whatever customer: there must be none."""
        return [row.step for row in self.rows(turns) if "failed" in row.step]

    def rows(self, table: Table) -> list[Any]:
        """All rows of *table*."""
        with reading(self.deps.engine) as connection:
            return list(connection.execute(select(table)))

    def _mine(self, visit: Any) -> bool:
        return any(
            row.visit == visit.id and row.ticket.startswith(f"{self.thread.id}-") for row in self.rows(visit_tickets)
        )


@cache
def _rules_at_rest() -> None:
    """
    The demo's rules and their reader, out of the garbage collector's sight for the rest of the run: an application that starts
    would look through all of them, and one starts with every test.
    """
    reader_for(load_rulebook(ROOT / "rules", "demo"))
    gc.collect()
    gc.freeze()


@contextmanager
def demo_line(database_url: str, clock: Clock) -> Iterator[ServedLine]:
    """The demo shop, served on *database_url*."""
    _rules_at_rest()
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
        with served(deps) as url, httpx2.Client(trust_env=False) as client, Network(proxies={}) as network:
            line = ServedLine(url, deps, clock, taken, client, network)
            yield line
            assert line.failures == []
            assert {row.status for row in line.rows(outbox)} <= {"sent", "dropped"}, "nothing is left or lost"
        engine.dispose()
