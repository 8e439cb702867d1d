"""An office at work: the pages over the demo's rows, with the shop's real rules behind them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from fastapi.testclient import TestClient
from httpx2 import Response
from sqlalchemy import select

from service.conversation.state import State
from service.edge.deps import Deps
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.storage.engine import reading
from service.storage.ledgers import audit
from service.storage.tables import outbox, threads, tickets, visits
from tests.conftest import RULES, Clock
from tests.pages import makers


@lru_cache
def demo_rulebook() -> Rulebook:
    return load_rulebook(RULES, "demo")


@dataclass
class Office:
    """Olive at the desk."""

    client: TestClient
    deps: Deps
    clock: Clock

    @property
    def csrf(self) -> str:
        found = re.search(r'name="csrf" value="([^"]+)"', self.client.get("/desk/day").text)
        assert found
        return found.group(1)

    def post(self, path: str, **data: Any) -> Response:
        return self.client.post(path, data={"csrf": self.csrf, **data})

    def state(self, thread: str) -> State:
        with reading(self.deps.engine) as connection:
            return State.model_validate(
                connection.execute(select(threads.c.state).where(threads.c.id == thread)).scalar_one()
            )

    def held_by(self, thread: str) -> str | None:
        with reading(self.deps.engine) as connection:
            return connection.execute(select(threads.c.held_by).where(threads.c.id == thread)).scalar_one()

    def replies(self, thread: str, **matching: Any) -> list[Any]:
        with reading(self.deps.engine) as connection:
            rows = connection.execute(select(outbox).where(outbox.c.thread == thread).order_by(outbox.c.seq)).all()
        return [row for row in rows if all(getattr(row, name) == value for name, value in matching.items())]

    def visits(self) -> list[Any]:
        with reading(self.deps.engine) as connection:
            return list(connection.execute(select(visits).order_by(visits.c.created_at, visits.c.id)))

    def ticket(self, number: int) -> Any:
        with reading(self.deps.engine) as connection:
            return connection.execute(select(tickets).where(tickets.c.number == number)).one()

    def deeds(self, subject: str) -> list[str]:
        with reading(self.deps.engine) as connection:
            query = select(audit.c.did).where(audit.c.subject == subject).order_by(audit.c.at, audit.c.id)
            return list(connection.execute(query).scalars())


def sign_in(client: TestClient, login: str = "olive") -> None:
    answer = client.post("/sign-in", data={"login": login, "password": makers.PASSWORD})
    assert answer.status_code == 303
