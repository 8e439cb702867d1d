"""A turn that breaks, while it decides or while it is written: the text is kept, a person asked, the customer told."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from sqlalchemy import Connection, Engine, insert, select

from service.edge import turning
from service.edge.deps import Deps
from service.edge.exchange import receive
from service.edge.gateways import load_gateways
from service.edge.inbound import Inbound
from service.rulebook.loading import load_rulebook
from service.settings import Settings
from service.storage import shops
from service.storage.engine import reading, writing
from service.storage.ledgers import alarms
from service.storage.tables import messages, outbox, threads, tickets, turns
from service.storage.threads import ThreadRow
from tests.conftest import ROOT, RULES, Clock
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER


@pytest.fixture
def deps(engine: Engine, clock: Clock) -> Deps:
    settings = Settings(database="sqlite://", secret="s" * 32, base_url="http://line.example")
    book = load_rulebook(RULES, "demo")
    policies = book.shop.policies.model_copy(update={"rest_s": 0})
    book = replace(book, shop=book.shop.model_copy(update={"policies": policies, "gateway": "loopback"}))
    with writing(engine) as connection:
        shops.install(connection, book, clock())
    gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
    return Deps(engine, clock, {"demo": book}.__getitem__, random.Random(7), gateways, settings)


def text(deps: Deps, words: str, name: str) -> None:
    receive(deps, Inbound("demo", "loopback", CUSTOMER, SHOP_NUMBER, words, (), name, None))


def rows(deps: Deps, table: Any) -> list[Any]:
    with reading(deps.engine) as connection:
        return list(connection.execute(select(table)).all())


def stumble(*_: object, **__: object) -> None:
    raise ValueError("no")


def break_the_transaction(connection: Connection, row: ThreadRow, *_: object) -> None:
    """A row that is there already: after it PostgreSQL takes nothing more of this transaction."""
    again = {name: getattr(row, name) for name in ("id", "shop", "number", "gateway", "consent", "state", "turns")}
    connection.execute(insert(threads), {**again, "language": "en", "created_at": row.last_in_at})


@pytest.mark.parametrize(
    ("where", "instead", "named"),
    [
        ("take", stumble, "ValueError"),
        ("tickets.sync", stumble, "ValueError"),
        ("write_replies", stumble, "ValueError"),
        ("threads.save", break_the_transaction, "IntegrityError"),
    ],
)  # fmt: skip
def test_a_turn_that_breaks_leaves_the_text_and_a_failed_turn(
    deps: Deps, monkeypatch: pytest.MonkeyPatch, where: str, instead: Callable[..., Any], named: str
) -> None:
    with monkeypatch.context() as patch:
        real = turning.write_replies
        if where == "write_replies":  # what breaks is the turn's own replies, not the sentence said instead
            broken = iter([stumble])
            patch.setattr(turning, where, lambda *a, **k: next(broken, real)(*a, **k))
        else:
            holder, _, name = where.rpartition(".")
            patch.setattr(getattr(turning, holder) if holder else turning, name, instead)
        text(deps, "my dishwasher leaks", "b1")
    (kept,) = rows(deps, messages)
    (turn,) = rows(deps, turns)
    assert (kept.text, kept.turn, turn.step) == ("my dishwasher leaks", turn.id, {"failed": named})
    assert [row.text for row in rows(deps, alarms)] == ["A turn failed; the texts are kept and wait for a person."]
    assert len(rows(deps, outbox)) == 1
    assert not rows(deps, tickets), "a part of the broken turn stayed"
    (thread,) = rows(deps, threads)
    assert (thread.turns, thread.last_in_at) == (1, deps.clock())

    text(deps, "it is the dishwasher, water under the door", "b2")  # the next one goes on as if nothing had been
    assert [row.number for row in sorted(rows(deps, turns), key=lambda r: r.number)] == [1, 2]
    assert rows(deps, tickets)
