"""The sender: order, second looks, retries, dead letters, and what it does when nobody can know."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from sqlalchemy import insert, select

from service.edge.deps import Deps
from service.edge.network import Network
from service.edge.outbox import Sent, forget_leases, send_due
from service.edge.profile import Profile
from service.edge.second_look import allowed_from
from service.storage import alarms, leases, outbox, shops
from service.storage.engine import reading, writing
from service.storage.tables import messages, visits
from tests.conftest import Clock
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER, Carrier, Line, json_gateway, small_shop

MakeDeps = Callable[..., Deps]
IDEMPOTENT = {"idempotency_header": "Idempotency-Key"}


def keyed() -> Profile:
    """A gateway that sends a text with a key it knows only once."""
    send = json_gateway().send
    assert send is not None
    return json_gateway(send=send.model_dump(exclude_none=True) | IDEMPOTENT)


@pytest.fixture
def line(make_deps: MakeDeps) -> Line:
    """A customer's line through a gateway without idempotency keys."""
    return Line(make_deps(json_gateway())).begin()


@pytest.fixture
def pass_(line: Line, network: Network) -> Callable[[], Sent]:
    """One pass of the sender, in this thread."""
    return lambda: send_due(line.deps, network)


def outbound(line: Line) -> list[str]:
    with reading(line.deps.engine) as connection:
        query = select(messages.c.text).where(messages.c.direction == "out").order_by(messages.c.at, messages.c.text)
        return list(connection.execute(query).scalars())


def drain(line: Line, network: Network, clock: Clock, passes: int = 60) -> None:
    """Passes until nothing is waiting, the clock running on."""
    for _ in range(passes):
        send_due(line.deps, network)
        if "waiting" not in line.states().values():
            return
        clock.forward(minutes=6)


def test_a_text_is_sent_as_the_profile_says_and_kept(line: Line, pass_: Any, carrier: Carrier, clock: Clock) -> None:
    key = line.write("Does it drain?")
    assert pass_() == Sent(sent=1)
    (request,) = carrier.requests
    assert (request.method, request.path) == ("POST", "/send")
    assert request.json == {"to": CUSTOMER, "from": SHOP_NUMBER, "text": "Does it drain?", "key": key}
    row = line.row("Does it drain?")
    assert (row.status, row.carrier_ref, row.sent_at, row.attempts) == ("sent", "c-1", clock(), 1)
    assert outbound(line) == ["Does it drain?"]
    assert pass_() == Sent()


def test_a_local_text_arrives_without_a_call(make_deps: MakeDeps, network: Network, carrier: Carrier) -> None:
    line = Line(make_deps(json_gateway()), gateway="loopback").begin()
    line.write("one")
    line.write("two")
    for _ in range(2):
        send_due(line.deps, network)
    assert line.states() == {"one": "sent", "two": "sent"}
    assert outbound(line) == ["one", "two"]
    assert not carrier.requests


def test_texts_of_one_number_go_in_order_even_when_the_first_must_be_tried_again(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    for word in ("one", "two", "three"):
        line.write(word)
    carrier.answers = [(500, {}, b""), (503, {}, b"")]
    drain(line, network, clock)
    assert carrier.texts() == ["one", "one", "one", "two", "three"]
    assert set(line.states().values()) == {"sent"}


def test_two_numbers_do_not_wait_for_each_other(line: Line, network: Network, carrier: Carrier) -> None:
    other = Line(line.deps, thread="thread2", number="+15055550143").begin()
    line.write("one")
    other.write("other")
    carrier.answers = [(500, {}, b"")]
    send_due(line.deps, network)
    send_due(line.deps, network)
    assert sorted(carrier.texts()) == ["one", "other"]
    assert sorted([*line.states().values(), *other.states().values()]) == ["sent", "waiting"]


def test_retries_wait_at_random_up_to_a_doubling_ceiling(
    line: Line, pass_: Any, carrier: Carrier, clock: Clock
) -> None:
    """Full jitter: ceilings of 2, 4 and 8 seconds after the first three attempts (computation notes, section 8)."""
    line.write("one")
    carrier.usual = (500, {}, b"")
    for ceiling_s in (2, 4, 8):
        pass_()
        wait_s = (line.row("one").due_at - clock()).total_seconds()
        assert 0 <= wait_s <= ceiling_s
        assert pass_() == Sent() or wait_s == 0
        clock.forward(seconds=ceiling_s)
    assert len(carrier.requests) == 3


def test_retry_after_is_a_floor(line: Line, pass_: Any, carrier: Carrier, clock: Clock) -> None:
    line.write("one")
    carrier.answers = [(429, {"retry-after": "90"}, b"")]
    pass_()
    assert line.row("one").due_at == clock() + timedelta(seconds=90)
    clock.forward(seconds=89)
    pass_()
    assert len(carrier.requests) == 1
    clock.forward(seconds=1)
    pass_()
    assert line.states() == {"one": "sent"}


def test_after_the_last_attempt_a_person_sees_a_dead_letter_and_can_send_it_again(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line.write("one")
    carrier.usual = (500, {}, b"")
    drain(line, network, clock)
    assert len(carrier.requests) == 4
    with writing(line.deps.engine) as connection:
        (dead,) = outbox.in_status(connection, "demo", outbox.DEAD)
        assert (dead.text, dead.status, dead.reason) == ("one", "failed", "answered 500")
        assert outbox.send_again(connection, "demo", dead.id, clock())
        assert not outbox.send_again(connection, "demo", dead.id, clock())
    carrier.usual = (200, {}, b"{}")
    send_due(line.deps, network)
    assert line.states() == {"one": "sent"}


@pytest.mark.parametrize("status", [301, 400, 401, 403, 404, 410, 422])
def test_a_refusal_is_not_tried_again(line: Line, pass_: Any, carrier: Carrier, status: int) -> None:
    line.write("one")
    carrier.usual = (status, {"location": "/elsewhere"}, b"")
    assert pass_() == Sent(dead=1)
    assert pass_() == Sent()
    assert len(carrier.requests) == 1
    assert line.row("one").reason == f"answered {status}"


def test_when_nobody_can_know_an_ordinary_text_waits_for_a_person(line: Line, pass_: Any, carrier: Carrier) -> None:
    line.write("one")
    line.write("two")
    carrier.answers = ["hang up"]
    assert pass_() == Sent(dead=1)
    assert line.row("one").status == "unsure"
    pass_()
    assert carrier.texts() == ["one", "two"]


def test_when_nobody_can_know_a_danger_instruction_is_sent_again(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line.write("Leave the house now.", "danger")
    carrier.answers = ["hang up", (504, {}, b"")]
    drain(line, network, clock)
    assert carrier.texts() == ["Leave the house now."] * 3
    assert line.states() == {"Leave the house now.": "sent"}


def test_a_gateway_that_knows_our_key_may_be_asked_twice(
    make_deps: MakeDeps, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line = Line(make_deps(keyed())).begin()
    key = line.write("one")
    carrier.answers = ["hang up"]
    drain(line, network, clock)
    assert [request.headers["idempotency-key"] for request in carrier.requests] == [f'"{key}"'] * 2
    assert line.states() == {"one": "sent"}


def test_a_carrier_that_cannot_be_reached_is_tried_again(
    make_deps: MakeDeps, network: Network, carrier: Carrier, clock: Clock
) -> None:
    send = json_gateway().send
    assert send is not None
    nowhere = send.model_dump(exclude_none=True) | {"url": "http://127.0.0.1:9/"}
    line = Line(make_deps(json_gateway(send=nowhere))).begin()
    line.write("one")
    assert send_due(line.deps, network) == Sent(later=1)
    assert line.row("one").reason == "not reached: ConnectionRefusedError"


def test_danger_waits_behind_nothing_and_drops_what_was_written_before_it(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line.write("small talk")
    line.write("Stop. Leave the house.", "danger")
    line.write("Who we are.")
    drain(line, network, clock)
    assert carrier.texts() == ["Stop. Leave the house.", "Who we are."]
    assert line.states() == {"small talk": "dropped", "Stop. Leave the house.": "sent", "Who we are.": "sent"}


def test_danger_goes_while_an_ordinary_text_is_stuck_in_retries(
    line: Line, pass_: Any, carrier: Carrier, clock: Clock
) -> None:
    line.write("small talk")
    carrier.answers = [(503, {"retry-after": "600"}, b"")]
    pass_()
    line.write("Stop.", "danger")
    pass_()
    assert carrier.texts() == ["small talk", "Stop."]
    assert line.states()["small talk"] == "dropped"


def test_a_text_in_flight_blocks_the_next_one_but_not_a_danger(line: Line, clock: Clock) -> None:
    line.write("one")
    line.write("two")

    def take() -> list[str]:
        with writing(line.deps.engine) as connection:
            until = clock() + timedelta(minutes=1)
            rows = leases.lease(connection, clock(), until, 10, local=((), False), younger_left=((), timedelta()))
        return [row.text for row in rows]

    assert take() == ["one"]
    assert take() == []
    line.write("Stop.", "danger")
    assert take() == ["Stop."]


@pytest.mark.parametrize(
    ("kind", "author", "state"),
    [
        ("answer", "line", "dropped"),
        ("started", "line", "dropped"),
        ("answer", "office", "dropped"),
        ("consent", "line", "sent"),
        ("danger", "line", "sent"),
    ],
)
def test_after_an_opt_out_only_danger_and_consent_go(
    line: Line, pass_: Any, kind: str, author: str, state: str
) -> None:
    line.write("words", kind, author=author)
    line.set(consent="out")
    pass_()
    assert line.states() == {"words": state}


@pytest.mark.parametrize(
    ("kind", "author", "state"),
    [
        ("answer", "line", "dropped"),
        ("answer", "olga", "sent"),
        ("danger", "line", "sent"),
        ("consent", "line", "sent"),
    ],
)
def test_while_a_person_holds_the_thread_the_line_is_silent(
    line: Line, pass_: Any, kind: str, author: str, state: str
) -> None:
    line.write("words", kind, author=author)
    line.set(held_by="olga")
    pass_()
    assert line.states() == {"words": state}


def test_a_paused_shop_sends_nothing_but_danger_and_consent_and_the_rest_when_it_goes_on(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    for text, kind in (("ordinary", "answer"), ("bye", "consent"), ("Stop.", "danger")):
        line.write(text, kind)
    line.write("after")
    with writing(line.deps.engine) as connection:
        shops.set_paused(connection, "demo", True)
    for _ in range(4):
        send_due(line.deps, network)
        clock.forward(minutes=2)
    assert sorted(carrier.texts()) == ["Stop.", "bye"]
    assert line.states()["after"] == "waiting"
    with writing(line.deps.engine) as connection:
        shops.set_paused(connection, "demo", False)
    send_due(line.deps, network)
    assert line.states()["after"] == "sent"


def test_a_text_past_its_time_is_dropped_with_the_reason(line: Line, pass_: Any, clock: Clock) -> None:
    line.write("We are on our way.", not_after=clock() + timedelta(minutes=5))
    clock.forward(minutes=5, seconds=1)
    pass_()
    assert line.row("We are on our way.").reason == "too late to be said"


@pytest.mark.parametrize(
    ("status", "version", "state"),
    [("standing", 1, "sent"), ("standing", 2, "dropped"), ("cancelled", 1, "dropped"), (None, 1, "dropped")],
)
def test_a_text_about_a_visit_that_has_moved_on_is_dropped(
    line: Line, pass_: Any, clock: Clock, status: str | None, version: int, state: str
) -> None:
    if status:
        with writing(line.deps.engine) as connection:
            connection.execute(
                insert(visits).values(
                    id="v1", shop="demo", technician="ana", day=clock().date(), start_at=clock(), end_at=clock(),
                    minutes=60, lat=0, lon=0, address="1 Invented Rd", postal_code="87106", status=status,
                    version=version, uid="u", created_at=clock(), changed_at=clock(),
                )
            )  # fmt: skip
    line.write("See you tomorrow.", visit="v1", visit_version=1)
    pass_()
    assert line.states() == {"See you tomorrow.": state}


def test_what_we_begin_waits_for_the_morning_and_answers_do_not_wait_for_it(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    clock.moment = datetime(2026, 12, 2, 4, 30, tzinfo=UTC)  # 21:30 in Albuquerque
    line.write("Still on for Friday?", "started")
    line.write("Here is the answer.")
    for _ in range(2):
        send_due(line.deps, network)
    assert carrier.texts() == ["Here is the answer."]
    assert line.row("Still on for Friday?").due_at == datetime(2026, 12, 2, 15, 0, tzinfo=UTC)
    clock.moment = datetime(2026, 12, 2, 15, 0, tzinfo=UTC)  # 08:00
    send_due(line.deps, network)
    assert carrier.texts()[-1] == "Still on for Friday?"


def test_quiet_hours_are_those_of_shop_and_area_code_together(
    make_deps: MakeDeps, network: Network, clock: Clock
) -> None:
    line = Line(make_deps(json_gateway()), number="+12135550142").begin()  # Los Angeles, an hour behind
    clock.moment = datetime(2026, 12, 1, 15, 0, tzinfo=UTC)  # 08:00 in Albuquerque, 07:00 there
    line.write("Still on for Friday?", "started")
    send_due(line.deps, network)
    assert line.row("Still on for Friday?").due_at == datetime(2026, 12, 1, 16, 0, tzinfo=UTC)


def test_a_sender_that_died_leaves_nothing_behind(line: Line, network: Network, carrier: Carrier, clock: Clock) -> None:
    line.write("one")
    line.write("Stop.", "danger", key="d1")
    with writing(line.deps.engine) as connection:
        until = clock() + timedelta(seconds=50)
        rows = leases.lease(connection, clock(), until, 10, local=((), False), younger_left=((), timedelta()))
    assert [row.text for row in rows] == ["Stop.", "one"]
    send_due(line.deps, network)
    assert not carrier.requests
    clock.forward(seconds=51)
    drain(line, network, clock)
    assert line.states() == {"one": "unsure", "Stop.": "sent"}
    assert carrier.texts() == ["Stop."]
    with writing(line.deps.engine) as connection:
        assert not leases.mark_sent(connection, rows[1], clock()), "a mark with a lost lease must not count"
    assert line.states()["one"] == "unsure"


def test_of_several_marked_together_those_with_a_lost_lease_do_not_count(line: Line, clock: Clock) -> None:
    for n in (43, 44, 45):
        Line(line.deps, thread=f"thread{n}", number=f"+150555501{n}").begin().write(f"to {n}")
    with writing(line.deps.engine) as connection:
        rows = leases.lease(
            connection, clock(), clock() + timedelta(seconds=50), 10, local=((), False), younger_left=((), timedelta())
        )
        lost = dataclasses.replace(rows[1], lease="another's")
        marked = leases.mark_all_sent(connection, [(rows[0], "a"), (lost, "b"), (rows[2], "c")], clock())
    assert set(marked) == {rows[0].id, rows[2].id}
    assert [line.row(row.text).status for row in rows] == ["sent", "leased", "sent"]
    assert [line.row(row.text).carrier_ref for row in rows] == ["a", None, "c"]
    assert sorted(outbound(line)) == sorted([rows[0].text, rows[2].text])


def test_an_undelivered_danger_alarms_the_office_and_the_on_call_phones(
    line: Line, pass_: Any, carrier: Carrier
) -> None:
    line.write("Stop.", "danger")
    carrier.usual = (400, {}, b"")
    pass_()
    with reading(line.deps.engine) as connection:
        (alarm,) = [row for row in alarms.open_alarms(connection, "demo") if row.kind == "danger"]
    assert (alarm.rung, alarm.thread) == (0, line.thread)


@pytest.mark.parametrize("side_by_side", [1, 8])
def test_a_gateways_pace_is_kept_and_danger_has_its_own(
    make_deps: MakeDeps, network: Network, carrier: Carrier, clock: Clock, side_by_side: int
) -> None:
    """Rate 1/s, burst 5, eight texts at once: five go at 0 s, then one each at 1, 2, 3 s (computation notes, 8)."""
    deps = make_deps(json_gateway(limits={"per_second": 1, "burst": 5}))
    lines = [Line(deps, thread=f"thread{n}", number=f"+150555501{n:02}").begin() for n in range(40, 48)]
    for line in lines:
        line.write(f"to {line.number}")
    gone = []
    pool = ThreadPoolExecutor(side_by_side) if side_by_side > 1 else None
    for _ in range(4):
        for _ in range(10):
            send_due(deps, network, side_by_side=side_by_side, pool=pool)
        gone.append(len(carrier.requests))
        clock.forward(seconds=1)
    assert gone == [5, 6, 7, 8]
    lines[0].write("Stop.", "danger")
    send_due(deps, network)
    assert carrier.texts()[-1] == "Stop."


def test_a_text_for_a_gateway_that_is_gone_is_a_dead_letter(line: Line, pass_: Any) -> None:
    line.write("one", gateway="sold_last_year")
    pass_()
    assert line.row("one").reason == "there is no gateway sold_last_year"


def test_a_reply_is_written_once(line: Line, clock: Clock) -> None:
    line.write("one", key="k")
    again = outbox.Outgoing("demo", line.thread, "k", CUSTOMER, "plain", "answer", "one", 1, clock())
    with writing(line.deps.engine) as connection:
        assert not outbox.put(connection, again, clock())
    assert list(line.states()) == ["one"]


def test_a_draft_waits_for_the_office_which_may_change_its_words(line: Line, pass_: Any, carrier: Carrier) -> None:
    line.write("draft", status="draft")
    assert pass_() == Sent()
    with writing(line.deps.engine) as connection:
        (draft,) = outbox.in_status(connection, "demo", ("draft",))
        assert outbox.release(connection, "demo", draft.id, line.deps.clock(), text="better", segments=1)
        assert not outbox.release(connection, "demo", draft.id, line.deps.clock())
    pass_()
    assert carrier.texts() == ["better"]


def test_an_undelivered_ordinary_text_rings_no_phone(line: Line, pass_: Any, carrier: Carrier) -> None:
    line.write("one")
    carrier.usual = (400, {}, b"")
    pass_()
    with reading(line.deps.engine) as connection:
        assert {row.rung for row in alarms.open_alarms(connection, "demo")} <= {alarms.DESK_ONLY}


def test_a_shop_without_a_zone_of_the_number_still_has_quiet_hours(make_deps: MakeDeps, clock: Clock) -> None:
    clock.moment = datetime(2026, 12, 2, 4, 30, tzinfo=UTC)
    for number in ("72975", "nonsense", "+18005550142"):
        assert allowed_from(small_shop(), number, clock()) == datetime(2026, 12, 2, 15, 0, tzinfo=UTC)


def test_the_only_process_settles_what_the_one_before_it_left_at_once(
    line: Line, network: Network, carrier: Carrier, clock: Clock
) -> None:
    line.write("Stop.", "danger")
    with writing(line.deps.engine) as connection:
        until = clock() + timedelta(seconds=50)
        leases.lease(connection, clock(), until, 10, local=((), False), younger_left=((), timedelta()))
    forget_leases(line.deps)
    drain(line, network, clock)
    assert carrier.texts() == ["Stop."]
