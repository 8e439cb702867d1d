"""Wakes and rests through the real exchange: each rings once, a moved one rings later, a stuck one holds up no other."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import Engine, select

from service.edge import exchange, wakes
from service.edge.deps import Deps
from service.edge.gateways import load_gateways
from service.edge.inbound import Inbound
from service.edge.worker import Worker, tick
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import shops
from service.storage import wakes as wake_rows
from service.storage.engine import reading, writing
from service.storage.tables import outbox, turns
from service.storage.tables import wakes as wakes_table
from tests.conftest import ROOT, RULES, Clock
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER


@pytest.fixture(scope="module")
def book() -> Rulebook:
    """The demo shop's rules, with a rest of four seconds."""
    return load_rulebook(RULES, "demo")


@pytest.fixture
def deps(engine: Engine, clock: Clock, book: Rulebook) -> Deps:
    settings = Settings(database="sqlite://", secret="s" * 32)
    gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
    with writing(engine) as connection:
        shops.install(connection, book, clock())
    return Deps(engine, clock, {"demo": book}.__getitem__, random.Random(3), gateways, settings)


def text(deps: Deps, words: str, identity: str, **more: Any) -> str:
    inbound = Inbound("demo", "loopback", CUSTOMER, SHOP_NUMBER, words, (), identity, deps.clock())
    return exchange.receive(deps, replace(inbound, **more)).thread


def taken(deps: Deps) -> list[list[str]]:
    """The texts of each turn, in order."""
    with reading(deps.engine) as connection:
        rows = connection.execute(select(turns.c.events).order_by(turns.c.number)).scalars()
        return [[event.get("text", event.get("kind", "")) for event in row] for row in rows]


def test_three_quick_texts_rest_and_are_one_turn(deps: Deps, clock: Clock) -> None:
    for n, words in enumerate(("dishwasher", "leaves water in it", "since monday")):
        text(deps, words, f"m{n}")
        clock.forward(seconds=2)
        tick(deps)
    assert taken(deps) == []
    clock.forward(seconds=2)
    tick(deps)
    tick(deps)
    assert taken(deps) == [["dishwasher", "leaves water in it", "since monday"]]


def test_a_customer_who_keeps_typing_is_answered_after_three_rests(deps: Deps, clock: Clock) -> None:
    for n in range(6):
        text(deps, f"and another thing {n}", f"m{n}")
        tick(deps)
        clock.forward(seconds=3)
    tick(deps)
    assert len(taken(deps)) >= 1
    assert len(taken(deps)[0]) >= 4


def test_a_danger_does_not_rest_and_takes_what_was_resting_with_it(deps: Deps, clock: Clock) -> None:
    text(deps, "dishwasher wont start", "m1")
    clock.forward(seconds=1)
    text(deps, "i smell gas", "m2")
    assert taken(deps) == [["dishwasher wont start", "i smell gas"]]
    clock.forward(minutes=1)
    tick(deps)
    assert len(taken(deps)) == 1, "the rest that was set before finds nothing to take"
    with reading(deps.engine) as connection:
        sent = connection.execute(select(outbox.c.kind, outbox.c.status).order_by(outbox.c.seq)).all()
    assert tuple(sent[0]) == ("danger", "sent")


def test_texts_that_arrive_out_of_order_are_read_by_the_carriers_time(deps: Deps, clock: Clock) -> None:
    start = clock()
    text(deps, "the washer", "m2", carrier_at=start + timedelta(seconds=1))
    text(deps, "it leaks", "m1", carrier_at=start)
    clock.forward(seconds=9)
    tick(deps)
    assert taken(deps) == [["it leaks", "the washer"]]


def test_a_repeated_delivery_has_no_second_effect(deps: Deps, clock: Clock) -> None:
    first = text(deps, "dishwasher", "m1")
    assert text(deps, "dishwasher", "m1") == first
    clock.forward(seconds=9)
    tick(deps)
    text(deps, "dishwasher", "m1")
    clock.forward(seconds=9)
    tick(deps)
    assert taken(deps) == [["dishwasher"]]


def wake_ids(deps: Deps) -> dict[str, Any]:
    with reading(deps.engine) as connection:
        return {row.kind: row for row in connection.execute(wakes_table.select())}


def test_a_wake_rings_once_and_says_so(deps: Deps, clock: Clock) -> None:
    thread = text(deps, "dishwasher", "m1")
    with writing(deps.engine) as connection:
        wake_rows.set_wake(
            connection,
            shop="demo",
            thread=thread,
            kind="danger_check",
            key=f"{thread}:x",
            due=clock() + timedelta(hours=1),
        )
    assert wakes.ring_due(deps) == 0
    clock.forward(hours=1)
    before = len(taken(deps))
    wakes.ring_due(deps)
    wakes.ring_due(deps)
    rung = [row for row in taken(deps)[before:] if "danger_check" in row]
    assert len(rung) == 1
    assert wake_ids(deps)["danger_check"].result == "rang"


def test_a_wake_seen_by_two_processes_rings_once(deps: Deps, clock: Clock) -> None:
    thread = text(deps, "dishwasher", "m1")
    clock.forward(seconds=9)
    tick(deps)
    with writing(deps.engine) as connection:
        wake_rows.set_wake(connection, shop="demo", thread=thread, kind="silence", key=f"{thread}:y", due=clock())
    with reading(deps.engine) as connection:
        seen = wake_rows.due(connection, clock())
    assert [wakes._ring(deps, row) for row in (*seen, *seen)].count(True) == 1


def test_a_wake_that_was_moved_meanwhile_does_not_ring_now(deps: Deps, clock: Clock) -> None:
    thread = text(deps, "dishwasher", "m1")
    clock.forward(seconds=9)
    tick(deps)
    key = f"{thread}:z"
    with writing(deps.engine) as connection:
        wake_rows.set_wake(connection, shop="demo", thread=thread, kind="silence", key=key, due=clock())
        (seen,) = [row for row in wake_rows.due(connection, clock()) if row.key == key]
        later = clock() + timedelta(hours=2)
        wake_rows.set_wake(connection, shop="demo", thread=thread, kind="silence", key=key, due=later)
        assert not wake_rows.take(connection, seen.id, seen.due_at, clock())
    assert wake_ids(deps)["silence"].done_at is None


def test_clearing_takes_one_key_or_all_that_begin_alike(deps: Deps, clock: Clock) -> None:
    with writing(deps.engine) as connection:
        for key in ("t:remind:1", "t:remind:2", "t:remain", "t2:remind:1", "t:100%", "t:100x"):
            wake_rows.set_wake(connection, shop="demo", thread="t", kind="k", key=key, due=clock())
        wake_rows.clear(connection, "demo", ["t:remind*"], "moved", clock())
        wake_rows.clear(connection, "demo", ["t:100%"], "moved", clock())
        assert sorted(row.key for row in wake_rows.due(connection, clock())) == ["t2:remind:1", "t:100x", "t:remain"]


def test_several_are_cleared_at_once_and_no_others(deps: Deps, clock: Clock) -> None:
    with writing(deps.engine) as connection:
        for key in ("t:silence", "t:rest", "t:offer:1", "t:offer:2", "t:reminder"):
            wake_rows.set_wake(connection, shop="demo", thread="t", kind="k", key=key, due=clock())
        wake_rows.clear(connection, "demo", ["t:silence", "t:offer:*", "t:rest", "t:nothing"], "moved", clock())
        assert [row.key for row in wake_rows.due(connection, clock())] == ["t:reminder"]
        wake_rows.clear(connection, "demo", [], "moved", clock())
        assert [row.key for row in wake_rows.due(connection, clock())] == ["t:reminder"]


def test_a_wake_of_a_shop_that_is_gone_holds_up_no_other(deps: Deps, clock: Clock) -> None:
    thread = text(deps, "dishwasher", "m1")
    with writing(deps.engine) as connection:
        wake_rows.set_wake(connection, shop="closed", thread=thread, kind="rest", key="closed:rest", due=clock())
    clock.forward(seconds=9)
    tick(deps)
    assert taken(deps) == [["dishwasher"]]


def test_the_loop_runs_until_it_is_stopped_and_looks_at_once_when_nudged(deps: Deps, clock: Clock) -> None:
    with Worker(deps) as worker:
        text(deps, "i smell gas", "m1")
        worker.nudge()
        for _ in range(200):
            with reading(deps.engine) as connection:
                states = set(connection.execute(select(outbox.c.status)).scalars())
            if states == {"sent"}:
                break
            worker.nudge()
            worker._thread.join(0.02)
    assert states == {"sent"}
    assert not worker._thread.is_alive()
