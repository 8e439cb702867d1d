"""
kill -9 of every process in the middle of 200 texts: nothing is lost, each text is in exactly one turn, and each reply
reaches a carrier that knows our keys exactly once.
"""

from __future__ import annotations

import random
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, func, select

from service.storage.engine import open_engine, reading
from service.storage.tables import messages, outbox, threads, turns
from service.storage.turns import read_events
from tests.durability.forked import Forked
from tests.durability.harness import Carrier, Delivering, Processes, rules_that_rest

pytestmark = pytest.mark.durability

SENDERS = [f"+150555501{n:02}" for n in range(40, 80)]
WORDS = [
    "dishwasher not working properly", "it drains but slow", "2", "yes", "87106", "no", "how much is it",
    "i smell gas in the kitchen", "lavaplatos no desagua", "just send someone", "thanks", "a person please",
]  # fmt: skip


def texts(count: int) -> list[tuple[str, str, str]]:
    """id, sender, text: every sender writes count/40 texts."""
    lot = random.Random(5)
    return [(f"m{n}", SENDERS[n % len(SENDERS)], lot.choice(WORDS)) for n in range(count)]


@pytest.fixture
def carrier() -> Iterator[Carrier]:
    """A carrier that fails one call in ten."""
    kept = Carrier()
    yield kept
    kept.close()


@pytest.mark.parametrize("rest_s", [0, 0.4])
def test_nothing_is_lost_and_nothing_is_done_twice(
    database_url: str, tmp_path: Path, carrier: Carrier, rest_s: float
) -> None:
    # Of the two, one starts as a service starts; the other is forked of a process that has the rules already.
    make = Forked if rest_s else Processes
    processes = make(database_url, rules_that_rest(tmp_path, rest_s), carrier, tmp_path)
    given = texts(200)
    lot = random.Random(11)
    try:
        processes.start()
        delivering = Delivering(processes.port, given)
        lanes = delivering.run()
        for at_least in (30, 80, 140):
            delivering.wait_for(at_least)
            time.sleep(lot.uniform(0, 0.1))
            processes.kill()
            processes.start()
        delivering.wait_for(len(given))
        for lane in lanes:
            lane.join(20)
        assert sorted(delivering.kept) == sorted(identity for identity, _, _ in given)
        engine = open_engine(database_url)
        settle(engine)
        processes.kill()
        check_texts(engine, given)
        check_replies(engine, carrier)
        engine.dispose()
    finally:
        processes.close()
    print(
        f"\n{len(given)} texts, 3 kills, {carrier.asked} calls for {len(carrier.accepted)} replies: none lost or doubled"
    )


def settle(engine: Engine) -> None:
    """Wait until every text has its turn and every reply has left."""
    deadline = time.monotonic() + 400
    while time.monotonic() < deadline:
        with reading(engine) as connection:
            untaken = connection.execute(
                select(func.count())
                .select_from(messages)
                .where(messages.c.turn.is_(None), messages.c.direction == "in")
            ).scalar_one()
            under_way = connection.execute(
                select(func.count()).select_from(outbox).where(outbox.c.status.in_(("waiting", "leased")))
                .where(outbox.c.kind != "started")
            ).scalar_one()  # fmt: skip
        if not untaken and not under_way:
            return
        time.sleep(0.2)
    raise AssertionError(f"{untaken} texts without a turn, {under_way} replies under way after 150 seconds")


def check_texts(engine: Engine, given: list[tuple[str, str, str]]) -> None:
    with reading(engine) as connection:
        stored = connection.execute(select(messages).where(messages.c.direction == "in")).all()
        taken = connection.execute(select(turns).order_by(turns.c.thread, turns.c.number)).all()
        counts = dict(connection.execute(select(threads.c.id, threads.c.turns)).all())
    assert sorted(row.carrier_id for row in stored) == sorted(identity for identity, _, _ in given)
    in_turns: Counter[str] = Counter()
    numbers: dict[str, list[int]] = defaultdict(list)
    turn_of: dict[str, Any] = {}
    for row in taken:
        numbers[row.thread].append(row.number)
        for event in read_events(row.events):
            if event.type == "texted":
                in_turns[event.id] += 1
                turn_of[event.id] = row.id
    assert in_turns == Counter(row.id for row in stored), "each text is in exactly one turn"
    assert all(row.turn == turn_of[row.id] for row in stored)
    assert all(count == list(range(1, len(count) + 1)) for count in numbers.values()), (
        "turns are numbered without a gap"
    )
    assert {thread: len(count) for thread, count in numbers.items()} == counts
    assert not [row for row in taken if "failed" in row.step], "a turn raised"


def check_replies(engine: Engine, carrier: Carrier) -> None:
    with reading(engine) as connection:
        rows = connection.execute(select(outbox).order_by(outbox.c.number, outbox.c.seq)).all()
        out = connection.execute(select(messages.c.carrier_id).where(messages.c.direction == "out")).scalars().all()
    states = Counter(row.status for row in rows)
    assert set(states) <= {"sent", "dropped", "waiting"}, states
    sent = [row.key for row in rows if row.status == "sent"]
    accepted = [key for key, _, _ in carrier.accepted]
    assert sorted(accepted) == sorted(set(accepted)), "a key was accepted twice"
    assert set(sent) <= set(accepted), "what we call sent the carrier has"
    # A sender killed between the carrier's yes and its mark leaves a row that the second look may then drop, as when a
    # danger has overtaken it: the row says so, since it was tried.
    perhaps = {row.key for row in rows if row.status == "dropped" and row.attempts > 0}
    assert set(accepted) - set(sent) <= perhaps, "what the carrier has was sent, or was tried before it was dropped"
    customers = [row.key for row in rows if row.status == "sent" and row.kind != "on_call"]
    assert sorted(out) == sorted(f"out:{key}" for key in customers)
    in_order = defaultdict(list)
    for key, number, _ in carrier.accepted:
        in_order[number].append(key)
    for number in in_order:
        in_order[number] = [key for key in in_order[number] if key in set(sent)]
        ordinary = [row.key for row in rows if row.number == number and row.status == "sent" and row.kind == "answer"]
        assert [key for key in in_order[number] if key in ordinary] == ordinary, "texts of one number arrive in order"
