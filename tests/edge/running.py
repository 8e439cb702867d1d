"""The edge as it runs: hooks over HTTP on a port of its own, the real exchange behind them, the worker beside."""

from __future__ import annotations

import random
import socket
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import uvicorn
from fastapi import FastAPI
from sqlalchemy import Engine, select

from service.edge import exchange
from service.edge.deps import Deps
from service.edge.gateways import load_gateways
from service.edge.webhook import hooks
from service.edge.worker import Worker
from service.rulebook.loading import load_rulebook
from service.settings import Settings
from service.storage import shops
from service.storage.engine import reading, writing
from service.storage.tables import outbox
from tests.conftest import RULES


def free_port() -> int:
    """A port nobody listens on now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running_line(engine: Engine, gateways: Path, secrets: Mapping[str, str], port: int) -> Iterator[Deps]:
    """The demo shop's line, answering at once, on *port*, by the machine's clock."""
    settings = Settings(
        database="sqlite://", secret="s" * 32, gateway_secrets=dict(secrets), base_url=f"http://127.0.0.1:{port}"
    )
    book = load_rulebook(RULES, "demo")
    policies = book.shop.policies.model_copy(update={"rest_s": 0})
    book = replace(book, shop=book.shop.model_copy(update={"policies": policies}))
    with writing(engine) as connection:
        shops.install(connection, book, datetime.now(UTC))
    deps = Deps(
        engine, lambda: datetime.now(UTC), {"demo": book}.__getitem__, random.Random(1),
        load_gateways(gateways, settings.gateway_secret), settings,
    )  # fmt: skip
    app = FastAPI()
    app.router.routes.extend(hooks(deps, exchange.receive))
    server = uvicorn.Server(uvicorn.Config(app, port=port, log_config=None, access_log=False))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        until(lambda: server.started)
        with Worker(deps):
            yield deps
    finally:
        server.should_exit = True
        thread.join(10)


def until(so: Callable[[], bool], timeout_s: float = 90) -> None:
    """Wait until *so*; AssertionError when it takes too long."""
    deadline = time.monotonic() + timeout_s
    while not so():
        assert time.monotonic() < deadline, "it took too long"
        time.sleep(0.05)


def written(deps: Deps, number: str) -> list[tuple[str, str]]:
    """(text, status) of everything written for *number*, in order."""
    with reading(deps.engine) as connection:
        query = select(outbox.c.text, outbox.c.status).where(outbox.c.number == number).order_by(outbox.c.seq)
        return [(row.text, row.status) for row in connection.execute(query)]
