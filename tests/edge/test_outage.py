"""The database is gone: every text is asked for again, and whoever looks after the line is told so."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient

from service.app import create_app
from service.edge.deps import Deps
from service.edge.editions import Editions
from service.edge.gateways import load_gateways
from service.edge.verify import sign_standard
from service.rulebook.loading import load_rulebook
from service.settings import Settings
from service.storage.engine import open_engine
from tests.conftest import ROOT, RULES, Clock
from tests.durability.harness import SIGNING
from tests.edge.running import free_port


@pytest.fixture
def cut_off(clock: Clock) -> Iterator[TestClient]:
    """A whole line whose database nobody answers for."""
    url = f"postgresql+psycopg://nobody@127.0.0.1:{free_port()}/none"
    settings = Settings(
        database=url, secret="s" * 40, base_url="http://line.example", gateway_secrets={"standard.signing": SIGNING}
    )
    engine = open_engine(url)
    editions = Editions(engine, clock, {"demo": load_rulebook(RULES, "demo")})
    gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
    deps = Deps(engine, clock, editions, random.Random(3), gateways, settings, editions)
    with TestClient(create_app(deps, sender=False), raise_server_exceptions=False) as client:
        yield client
    engine.dispose()


def test_a_text_is_asked_for_again(cut_off: TestClient, clock: Clock) -> None:
    body = json.dumps({"from": "+15055550142", "to": "+15055550100", "text": "my washer leaks"}).encode()
    at = int(clock().timestamp())
    signed = {
        "content-type": "application/json", "webhook-id": "o1", "webhook-timestamp": str(at),
        "webhook-signature": sign_standard(SIGNING, "o1", at, body),
    }  # fmt: skip
    told = cut_off.post("/hooks/demo/standard", content=body, headers=signed)
    assert told.status_code == 503
    assert told.headers["retry-after"] == "30"
    assert told.headers["content-type"] == "application/problem+json"


def test_the_health_page_says_so(cut_off: TestClient) -> None:
    told = cut_off.get("/health")
    assert (told.status_code, told.json()["title"]) == (503, "Service Unavailable")
    assert told.headers["retry-after"] == "30"
