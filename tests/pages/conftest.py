"""The pages in process: the real router over a database with the demo's rows."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import Engine

from service.edge.deps import Deps
from service.storage.engine import writing
from tests.conftest import Clock
from tests.pages import makers
from tests.pages.office import Office, demo_rulebook, sign_in

SignIn = Callable[..., TestClient]


@pytest.fixture
def deps(engine: Engine, clock: Clock) -> Deps:
    with writing(engine) as connection:
        makers.fill(connection, clock())
    return makers.deps_for(engine, clock)


@pytest.fixture
def client(deps: Deps) -> TestClient:
    """A browser at the door, over https."""
    app = makers.app_for(deps)
    return TestClient(app, base_url="https://desk.test", follow_redirects=False)


@pytest.fixture
def signed_in(client: TestClient) -> SignIn:
    """Signs somebody in and hands the browser over."""

    def enter(login: str = "olive") -> TestClient:
        answer = client.post("/sign-in", data={"login": login, "password": makers.PASSWORD})
        assert answer.status_code == 303, answer.text
        return client

    return enter


@pytest.fixture
def office(engine: Engine, clock: Clock) -> Office:
    """Olive at the desk of the demo shop, with its real rules."""
    with writing(engine) as connection:
        makers.fill(connection, clock())
    deps = makers.deps_for(engine, clock, demo_rulebook())
    client = TestClient(makers.app_for(deps), base_url="https://desk.test", follow_redirects=False)
    sign_in(client)
    return Office(client, deps, clock)
