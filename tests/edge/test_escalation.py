"""Dangers after hours: one on-call phone after the other is texted until somebody says that it is in hand."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from service.edge.deps import Deps
from service.edge.escalation import ROUNDS, escalate, taken_as_answer
from service.edge.inbound import Inbound
from service.edge.network import Network
from service.edge.outbox import send_due
from service.edge.worker import tick
from service.storage import alarms, shops
from service.storage.engine import reading, writing
from service.storage.ledgers import alarms as alarms_table
from service.storage.outbox import Outgoing, put
from service.storage.tables import messages, outbox
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, ON_CALL, SHOP_NUMBER, Carrier, Line, json_gateway, small_shop

MakeDeps = Callable[..., Deps]
NIGHT = datetime(2026, 12, 2, 4, 30, tzinfo=UTC)  # Tuesday 21:30 in Albuquerque
MORNING = datetime(2026, 12, 2, 15, 0, tzinfo=UTC)  # 08:00, the shop opens


@pytest.fixture
def line(make_deps: MakeDeps, clock: Clock) -> Line:
    """A line in the night, its shop sending by a gateway of its own."""
    clock.moment = NIGHT
    return Line(make_deps(json_gateway(), shop=small_shop(gateway="plain"))).begin()


def ring(line: Line, *, kind: str = "danger", on_call: bool = True) -> str:
    with writing(line.deps.engine) as connection:
        return alarms.raise_alarm(
            connection, shop="demo", kind=kind, text="Burning smell, ticket 1001.", now=line.deps.clock(),
            thread=line.thread, on_call=on_call,
        )  # fmt: skip


def told(line: Line) -> list[str]:
    """The phones texted so far, in order."""
    with reading(line.deps.engine) as connection:
        query = outbox.select().where(outbox.c.kind == "on_call", outbox.c.key.startswith("alarm:"))
        return [row.number for row in connection.execute(query.order_by(outbox.c.created_at, outbox.c.key))]


def answer(line: Line, text: str, sender: str = ON_CALL[0], identity: str = "a1") -> bool:
    inbound = Inbound("demo", "plain", sender, SHOP_NUMBER, text, (), identity, line.deps.clock())
    return taken_as_answer(line.deps, inbound)


def acknowledged(line: Line) -> list[str | None]:
    with reading(line.deps.engine) as connection:
        return [row.acknowledged_by for row in connection.execute(alarms_table.select())]


def test_after_hours_the_first_phone_is_texted_at_once_and_the_next_after_ten_minutes(line: Line, clock: Clock) -> None:
    ring(line)
    assert escalate(line.deps) == 1
    assert told(line) == [ON_CALL[0]]
    clock.forward(seconds=599)
    assert escalate(line.deps) == 0
    clock.forward(seconds=1)
    assert escalate(line.deps) == 1
    assert told(line) == list(ON_CALL)


def test_the_list_is_gone_through_again_but_not_all_night(line: Line, clock: Clock) -> None:
    ring(line)
    for _ in range(40):
        escalate(line.deps)
        clock.forward(minutes=10)
    assert told(line) == list(ON_CALL) * ROUNDS


def test_while_the_shop_is_open_the_desk_is_told_and_no_phone(line: Line, clock: Clock) -> None:
    clock.moment = MORNING
    ring(line)
    assert escalate(line.deps) == 0
    assert told(line) == []


def test_an_alarm_of_the_day_that_nobody_took_rings_the_first_phone_alone_at_closing(line: Line, clock: Clock) -> None:
    clock.moment = MORNING
    ring(line)
    clock.moment = datetime(2026, 12, 3, 0, 1, tzinfo=UTC)  # 17:01
    escalate(line.deps)
    escalate(line.deps)
    assert told(line) == [ON_CALL[0]]


def test_an_alarm_for_the_desk_alone_rings_no_phone(line: Line) -> None:
    ring(line, kind="person", on_call=False)
    assert escalate(line.deps) == 0


def test_a_shop_without_on_call_phones_texts_nobody(make_deps: MakeDeps, clock: Clock) -> None:
    clock.moment = NIGHT
    line = Line(make_deps(json_gateway(), shop=small_shop(on_call=[]))).begin()
    ring(line)
    assert escalate(line.deps) == 0


@pytest.mark.parametrize("text", ["OK", "ok, driving there", "Got it", "yes", "Sí", "on it"])
def test_an_answer_from_the_phone_ends_it_and_is_thanked_once(
    line: Line, clock: Clock, network: Network, carrier: Carrier, text: str
) -> None:
    ring(line)
    escalate(line.deps)
    assert answer(line, text)
    assert answer(line, text), "a repeat of the delivery is the same answer"
    assert acknowledged(line) == ["Phone 1"]
    clock.forward(hours=1)
    assert escalate(line.deps) == 0
    for _ in range(3):
        send_due(line.deps, network)
    assert [request.json["to"] for request in carrier.requests] == [ON_CALL[0], ON_CALL[0]]
    assert "in hand" in carrier.texts()[1]


def test_the_words_of_a_customer_or_about_something_else_acknowledge_nothing(line: Line) -> None:
    ring(line)
    escalate(line.deps)
    assert not answer(line, "ok", sender=CUSTOMER)
    assert not answer(line, "my own dishwasher leaks")
    assert acknowledged(line) == [None]


def test_an_on_call_phone_that_was_told_of_nothing_is_a_customer_like_any(line: Line) -> None:
    assert not answer(line, "ok")
    ring(line)
    assert not answer(line, "ok"), "the alarm stands, but no phone was told of it yet"


def test_texts_to_our_own_people_pass_a_pause_and_are_no_part_of_the_conversation(
    line: Line, network: Network, carrier: Carrier
) -> None:
    line.set(consent="out", held_by="olga")
    with writing(line.deps.engine) as connection:
        shops.set_paused(connection, "demo", True)
    ring(line)
    escalate(line.deps)
    send_due(line.deps, network)
    assert [request.json["to"] for request in carrier.requests] == [ON_CALL[0]]
    assert "Burning smell" in carrier.texts()[0]
    with reading(line.deps.engine) as connection:
        assert connection.execute(messages.select()).all() == []


def test_an_on_call_phone_that_cannot_be_texted_is_told_to_the_desk(
    line: Line, network: Network, carrier: Carrier
) -> None:
    ring(line)
    escalate(line.deps)
    carrier.usual = (400, {}, b"")
    send_due(line.deps, network)
    with reading(line.deps.engine) as connection:
        assert {row.kind for row in alarms.open_alarms(connection, "demo")} == {"danger", "trouble"}


def test_one_danger_heard_twice_rings_once(line: Line) -> None:
    first = ring(line)
    assert ring(line) == first
    with writing(line.deps.engine) as connection:
        assert alarms.acknowledge(connection, shop="demo", identity=first, by="olga", now=NIGHT)
        assert not alarms.acknowledge(connection, shop="demo", identity=first, by="olga", now=NIGHT)
    assert ring(line) != first


def test_two_processes_do_not_tell_the_same_phone_twice(line: Line) -> None:
    identity = ring(line)
    with writing(line.deps.engine) as connection:
        assert alarms.climb(connection, identity, 0)
        assert not alarms.climb(connection, identity, 0)


def test_a_phone_takes_in_hand_only_what_it_was_told_of(line: Line, clock: Clock) -> None:
    ring(line)
    escalate(line.deps)
    assert not answer(line, "OK", sender=ON_CALL[1])
    assert acknowledged(line) == [None]
    clock.forward(seconds=600)
    escalate(line.deps)
    assert answer(line, "OK", sender=ON_CALL[1])
    assert acknowledged(line) != [None]


def test_an_alarm_and_a_text_of_a_shop_no_longer_served_keep_nobody_from_being_texted(
    line: Line, network: Network
) -> None:
    ring(line)
    with writing(line.deps.engine) as connection:
        alarms.raise_alarm(
            connection, shop="gone", kind="danger", text="Left behind.", now=line.deps.clock(), on_call=True
        )
        left = Outgoing(
            shop="gone", thread="t", key="left:1", number=CUSTOMER, gateway="plain", kind="answer", text="Hello",
            segments=1, due_at=line.deps.clock(),
        )  # fmt: skip
        assert put(connection, left, line.deps.clock())
    for _ in range(2):
        tick(line.deps, network)
    assert told(line) == [ON_CALL[0]]
    with reading(line.deps.engine) as connection:
        rows = {row.shop: row for row in connection.execute(outbox.select())}
    assert rows["demo"].status == "sent"
    assert (rows["gone"].status, rows["gone"].reason) == ("waiting", "this shop is not served now")
