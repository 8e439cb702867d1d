"""Who is not answered: floods, machines, short codes, spam. Nothing they write is lost; danger is heard."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from sqlalchemy import Engine, select

from service.edge.deps import Deps
from service.edge.exchange import receive
from service.edge.gateways import load_gateways
from service.edge.inbound import Inbound
from service.edge.shares import BURST_S, Shares
from service.edge.unanswered import NUMBER_BURST, NUMBER_PACE, paced
from service.edge.worker import tick
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import shops
from service.storage import threads as thread_rows
from service.storage.buckets import filled
from service.storage.engine import reading, writing
from service.storage.ledgers import alarms
from service.storage.tables import messages, outbox, threads
from service.storage.threads import ThreadRow
from tests.conftest import ROOT, RULES, Clock
from tests.edge.conftest import CUSTOMER, SHOP_NUMBER

NOW = datetime(2026, 6, 1, 15, tzinfo=UTC)


@pytest.fixture(scope="module")
def book() -> Rulebook:
    """The demo shop, answering at once through the gateway inside."""
    whole = load_rulebook(RULES, "demo")
    policies = whole.shop.policies.model_copy(update={"rest_s": 0})
    return replace(whole, shop=whole.shop.model_copy(update={"policies": policies, "gateway": "loopback"}))


@pytest.fixture
def deps(engine: Engine, clock: Clock, book: Rulebook) -> Deps:
    settings = Settings(database="sqlite://", secret="s" * 32, base_url="http://line.example")
    with writing(engine) as connection:
        shops.install(connection, book, clock())
    gateways = load_gateways(ROOT / "deploy" / "gateways", settings.gateway_secret)
    return Deps(engine, clock, {"demo": book}.__getitem__, random.Random(7), gateways, settings)


def text(deps: Deps, words: str, sender: str = CUSTOMER, *, nth: list[int] = [0]) -> None:  # noqa: B006 - a counter
    nth[0] += 1
    receive(deps, Inbound("demo", "loopback", sender, SHOP_NUMBER, words, (), f"u{nth[0]}", None))


def rows(deps: Deps, table: Any) -> list[Any]:
    with reading(deps.engine) as connection:
        return list(connection.execute(select(table)).all())


def said(deps: Deps, number: str = CUSTOMER) -> list[str]:
    return [row.text for row in sorted(rows(deps, outbox), key=lambda r: r.seq) if row.number == number]


def test_a_flood_is_kept_told_so_once_and_given_to_a_person(deps: Deps, clock: Clock) -> None:
    for n in range(NUMBER_BURST + 15):
        text(deps, f"what about number {n}?")
    assert len([row for row in rows(deps, messages) if row.direction == "in"]) == NUMBER_BURST + 15
    assert len([words for words in said(deps) if "a lot of texts" in words]) == 1
    assert Counter(row.turn for row in rows(deps, messages))["flood"] == 15
    assert [row for row in rows(deps, alarms) if "more texts than a person" in row.text]


def test_danger_and_stop_are_heard_in_a_flood(deps: Deps, clock: Clock) -> None:
    for n in range(NUMBER_BURST + 2):
        text(deps, f"hello {n}")
    text(deps, "i smell gas in the kitchen")
    assert [row for row in rows(deps, outbox) if row.kind == "danger"]
    text(deps, "STOP")
    assert rows(deps, threads)[0].consent == "out"


def test_after_a_pause_the_number_is_answered_again(deps: Deps, clock: Clock) -> None:
    for n in range(NUMBER_BURST + 2):
        text(deps, f"hello {n}")
    clock.forward(minutes=10)
    before = len(said(deps))
    text(deps, "my dishwasher does not drain")
    assert len(said(deps)) > before


def test_a_machine_that_answers_everything_with_other_words_is_not_talked_to_for_long(deps: Deps, clock: Clock) -> None:
    """The other side is a line as ours: it sends our own replies back, each time with a new number in it."""
    text(deps, "dishwasher leaks")
    answered = 0
    for n in range(300):
        words = said(deps)
        if len(words) == answered:
            break
        answered = len(words)
        clock.forward(seconds=2)
        text(deps, f"Ticket {n}: we got your text. {words[-1]}")
    assert answered <= NUMBER_BURST * 2
    count = len(said(deps))
    for n in range(20):
        clock.forward(seconds=2)
        text(deps, f"Ticket 9{n}: we got your text.")
    assert len(said(deps)) <= count + 4


@pytest.mark.parametrize("sender", ["72975", "BANKALERT"])
def test_a_sender_nobody_can_answer_is_kept_shown_and_not_answered(deps: Deps, sender: str) -> None:
    text(deps, "Your code is 123456", sender)
    text(deps, "dishwasher sale today", sender)
    assert said(deps, sender) == []
    assert len(rows(deps, messages)) == 2
    assert len(rows(deps, alarms)) == 1
    assert rows(deps, threads)[0].parked


def test_spam_is_parked_and_heard_again_when_it_is_of_a_machine(deps: Deps, clock: Clock) -> None:
    text(deps, "Congratulations you won a free gift card, click here http://win.example")
    assert rows(deps, threads)[0].parked == "spam"
    assert said(deps) == []
    text(deps, "STOP")
    assert rows(deps, threads)[0].consent == "out"
    text(deps, "START")
    text(deps, "sorry, my dishwasher leaks")
    assert said(deps)[-1] != said(deps)[0]


def test_a_busy_shop_answers_a_little_later(deps: Deps, clock: Clock) -> None:
    deps = replace(deps, shares=Shares(per_s=3 / BURST_S))
    for n in range(5):
        text(deps, "my dishwasher does not drain", f"+1505555017{n}")
    waiting = [row for row in rows(deps, messages) if row.direction == "in" and row.turn is None]
    assert len(waiting) == 2
    clock.forward(seconds=61)
    tick(deps)
    assert not [row for row in rows(deps, messages) if row.direction == "in" and row.turn is None]


def test_a_danger_in_a_busy_hour_takes_what_waits_of_its_number_along(deps: Deps, clock: Clock) -> None:
    deps = replace(deps, shares=Shares(per_s=1 / BURST_S))
    text(deps, "hi")
    text(deps, "my dishwasher does not drain")
    assert [row.turn for row in rows(deps, messages) if row.direction == "in"].count(None) == 1
    clock.forward(seconds=0.02)  # no token yet: the shop is busy still
    text(deps, "and I smell gas in the kitchen")
    turns = {row.text: row.turn for row in rows(deps, messages) if row.direction == "in"}
    assert turns["my dishwasher does not drain"] == turns["and I smell gas in the kitchen"] != turns["hi"]


@pytest.mark.parametrize(
    "words",
    [
        "i want a refund",
        "your tech damaged my counter",
        "my kid got hurt by the door you fixed",
        "quiero un reembolso",
        "me quemé con la puerta que arreglaron",
    ],
)
def test_damage_money_back_and_harm_go_to_a_person(deps: Deps, words: str) -> None:
    text(deps, words)
    assert [row for row in rows(deps, alarms) if row.kind in ("person", "danger")]


def test_a_card_number_is_never_stored(deps: Deps) -> None:
    text(deps, "my card is 4111 1111 1111 1111 thanks")
    kept = str(rows(deps, messages)) + str(rows(deps, threads)) + str(rows(deps, outbox))
    assert "4111 1111" not in kept
    assert "4111111111111111" not in kept


@pytest.mark.parametrize(
    ("first", "second", "third"),
    [
        ("go to hell", "fuck you all", "you idiots"),
        ("vete al diablo", "chinga tu madre", "son unos idiotas"),
    ],
)
def test_abuse_is_answered_once_goes_to_a_person_and_is_parked_at_last(
    deps: Deps, first: str, second: str, third: str
) -> None:
    text(deps, first)
    answered = len(said(deps))
    assert any(word in said(deps)[-1] for word in ("not like this", "sin insultos"))
    assert [row.kind for row in rows(deps, alarms)] == ["person"]
    text(deps, second)
    assert rows(deps, threads)[0].parked is None
    text(deps, third)
    text(deps, "my dishwasher leaks")
    assert rows(deps, threads)[0].parked == "abuse"
    assert len(said(deps)) == answered
    text(deps, "i smell gas")
    assert said(deps)[answered].startswith(("DANGER", "PELIGRO"))


def test_abuse_counts_anew_once_they_tell_something_and_after_the_office_answers_again(deps: Deps) -> None:
    text(deps, "go to hell")
    text(deps, "you idiots")
    text(deps, "my dishwasher does not drain")
    assert rows(deps, threads)[0].state["abused"] == 0
    for words in ("go to hell", "fuck you", "you idiots"):
        text(deps, words)
    thread = rows(deps, threads)[0]
    assert thread.parked == "abuse"
    with writing(deps.engine) as connection:
        thread_rows.park(connection, thread.id, None)
    text(deps, "go to hell")
    assert rows(deps, threads)[0].parked is None


def test_swearing_at_a_machine_is_no_abuse(deps: Deps) -> None:
    text(deps, "this damn piece of crap dishwasher wont drain, go to hell dishwasher lol")
    assert rows(deps, threads)[0].state["abused"] == 0
    assert rows(deps, threads)[0].parked is None


@given(st.lists(st.floats(0, 900), min_size=1, max_size=80))
def test_a_number_is_paced_as_by_a_bucket_of_thirty_that_gains_one_in_twenty_seconds(gaps: list[float]) -> None:
    row = ThreadRow("t", "demo", CUSTOMER, "standard", {}, 0, None, None, "in", None, None, None, None)
    now, at, tokens = NOW, NOW, float(NUMBER_BURST)
    for gap in gaps:
        now += timedelta(seconds=round(gap))
        held = filled(tokens, at, now, per_second=1 / NUMBER_PACE.total_seconds(), burst=NUMBER_BURST)
        assume(abs(held - 1) > 1e-6)  # at the very edge the two may round differently
        row, too_many = paced(row, now)
        assert too_many == (held < 1)
        tokens, at = (held if too_many else held - 1), now


def test_a_clock_that_was_set_back_silences_nobody() -> None:
    row = ThreadRow(
        "t", "demo", CUSTOMER, "standard", {}, 0, None, None, "in", None, NOW + timedelta(hours=1), None, None
    )
    assert paced(row, NOW)[1] is False
