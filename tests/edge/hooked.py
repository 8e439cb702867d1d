"""The hooks with the real exchange behind them, for gateways made up on the spot; time moves only when told."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from fastapi import FastAPI
from sqlalchemy import Engine, select
from starlette.testclient import TestClient

from service.edge import exchange
from service.edge.deps import Deps
from service.edge.gateways import Gateway
from service.edge.profile import Profile
from service.edge.webhook import hooks
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import shops
from service.storage.engine import reading, writing
from service.storage.tables import messages, outbox, turns
from tests.conftest import RULES, Clock
from tests.edge.conftest import json_gateway

ANYBODY = {"auth": [{"kind": "addresses", "allow": ["0.0.0.0/0"]}]}
FIELDS = {"sender": "body:from", "text": "body:text", "id": "body:id"}


def gateway(receive: Mapping[str, Any], **more: Any) -> Profile:
    """A gateway called ``plain`` that anybody may deliver by."""
    return json_gateway(receive={**FIELDS, **ANYBODY, **receive}, **more)


@cache
def rules(rest_s: float) -> Rulebook:
    """The demo shop's rules, with that rest."""
    book = load_rulebook(RULES, "demo")
    policies = book.shop.policies.model_copy(update={"rest_s": rest_s})
    return replace(book, shop=book.shop.model_copy(update={"policies": policies}))


@dataclass
class Hooked:
    """A line that can be delivered to, and what it keeps."""

    deps: Deps
    web: TestClient

    def post(self, document: object, path: str = "", **how: Any) -> Any:
        """Deliver JSON to the hook, or to *path* behind it."""
        return self.web.post(f"/hooks/demo/plain{path}", json=document, **how)

    def kept(self) -> list[str]:
        """Every text that came, in order."""
        with reading(self.deps.engine) as connection:
            query = select(messages.c.text).where(messages.c.direction == "in").order_by(messages.c.at, messages.c.id)
            return list(connection.execute(query).scalars())

    def read(self) -> list[list[str]]:
        """The texts of every turn that had some, in order."""
        with reading(self.deps.engine) as connection:
            rows = connection.execute(select(turns.c.events).order_by(turns.c.at, turns.c.number)).scalars()
            found = [[event["text"] for event in row if event["type"] == "texted"] for row in rows]
        return [texts for texts in found if texts]

    def replies(self) -> list[tuple[str, str]]:
        """(kind, status) of every reply, in order."""
        with reading(self.deps.engine) as connection:
            rows = connection.execute(select(outbox.c.kind, outbox.c.status).order_by(outbox.c.seq))
            return [(row.kind, row.status) for row in rows]


@contextmanager
def hooked(engine: Engine, clock: Clock, profile: Profile, url: str = "", rest_s: float = 0) -> Iterator[Hooked]:
    """The demo shop's line with *profile* alone; entered again on the same *engine* it is a process that comes after."""
    settings = Settings(
        database="sqlite://", secret="s" * 32, gateway_secrets={"plain.url": url or "http://127.0.0.1:9"}
    )
    book = rules(rest_s)
    with writing(engine) as connection:
        shops.install(connection, book, clock())
    gateways = {profile.gateway: Gateway(profile, settings.gateway_secret)}
    deps = Deps(engine, clock, {"demo": book}.__getitem__, random.Random(1), gateways, settings)
    app = FastAPI()
    app.router.routes.extend(hooks(deps, exchange.receive))
    with TestClient(app, client=("127.0.0.1", 1)) as web:
        yield Hooked(deps, web)
