"""
The whole line against a simple model: whatever is sent, repeated, reordered, crashed, booked, held or opted out of, no
text is lost or taken twice, nothing is said that must not be, nothing is sent twice, nobody is booked over another.

A longer search: ``PLAINFAULT_PROFILE=long pytest tests/edge/test_whole_line_stateful.py``.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import tempfile
from collections import Counter
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any
from unittest.mock import patch

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from sqlalchemy import event, select

from service.conversation.events import OfficeDid
from service.edge import exchange
from service.edge.deps import Deps
from service.edge.gateways import load_gateways
from service.edge.inbound import Inbound
from service.edge.outbox import forget_leases
from service.edge.unanswered import NUMBER_BURST
from service.edge.wire import Answer, Request
from service.edge.worker import tick
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage import ready, shops
from service.storage.engine import open_engine, reading, writing
from service.storage.migrate import upgrade
from service.storage.tables import messages, outbox, threads, turns, visit_tickets, visits
from service.storage.turns import read_events
from tests.conftest import ROOT, RULES, Clock
from tests.edge.conftest import SHOP_NUMBER, SIGNING

NUMBERS = ("+15055550142", "+15055550143")
BOOKING = ("dishwasher won't drain", "just send someone", "87106", "1200 Invented Rd NE", "1", "yes please")
WORDS = (
    "hello", "my washer leaks", "yes please", "no", "2", "how much is it", "cancel my visit", "a person please", "refund",
    "thanks", "can we move it to friday", "no lava", "never mind, it works now", "\U0001f4a7", "",
)  # fmt: skip
DANGERS = ("i smell gas in the kitchen", "the plug is burning", "there is smoke from the dryer")


class Died(BaseException):
    """The process is gone at this point; no handler of the code under test may notice."""


@cache
def book() -> Rulebook:
    """The demo shop with a short rest."""
    whole = load_rulebook(RULES, "demo")
    policies = whole.shop.policies.model_copy(update={"rest_s": 4.0, "autonomy": "automatic"})
    return replace(whole, shop=whole.shop.model_copy(update={"policies": policies, "gateway": "standard"}))


@cache
def empty_database() -> Path:
    """A migrated file to copy."""
    file = Path(tempfile.mkdtemp(prefix="pf-state-")) / "empty.sqlite3"
    engine = open_engine(f"sqlite:///{file}")
    upgrade(engine)
    engine.dispose()
    return file


class WholeLine(RuleBasedStateMachine):
    """The model: what was delivered, who opted out when, what the carrier took."""

    @initialize()
    def open(self) -> None:
        """A fresh database and a carrier that knows keys."""
        self.folder = Path(tempfile.mkdtemp(prefix="pf-state-"))
        shutil.copy(empty_database(), self.folder / "line.sqlite3")
        self.clock = Clock()
        self.delivered: dict[str, Inbound] = {}
        self.place = dict.fromkeys(NUMBERS, 0)
        self.out: set[str] = set()
        self.held: set[str] = set()
        self.carrier: list[tuple[str, str]] = []  # key, number
        self.said: list[tuple[str, str, bool, bool]] = []  # key, kind, opted out then, held then
        self.faults: list[str] = []
        self._begin()
        with writing(self.deps.engine) as connection:
            shops.install(connection, book(), self.clock())

    def _begin(self) -> None:
        said = Settings(
            database="sqlite://", secret="s" * 32, base_url="http://line.example",
            gateway_secrets={
                "standard.signing": SIGNING, "standard.url": "http://carrier.example/send", "standard.token": "t",
            },
        )  # fmt: skip
        gateways = load_gateways(ROOT / "deploy" / "gateways", said.gateway_secret)
        engine = open_engine(f"sqlite:///{self.folder / 'line.sqlite3'}")
        self.deps = Deps(engine, self.clock, {"demo": book()}.__getitem__, random.Random(3), gateways, said)

    def _carrier(self, request: Request) -> Answer:
        key = dict(request.headers)[b"idempotency-key"].decode().strip('"')
        fault = self.faults.pop() if self.faults else ""
        if fault == "500":
            return Answer(500, {}, b"")
        row = next(r for r in self._rows(outbox) if r.key == key)
        if key not in {known for known, _ in self.carrier}:
            self.carrier.append((key, row.number))
            self.said.append((key, row.kind, row.number in self.out, row.number in self.held))
        if fault == "died":
            raise Died
        return Answer(504, {}, b"") if fault == "unknown" else Answer(200, {}, json.dumps({"id": key}).encode())

    def _rows(self, table: Any) -> list[Any]:
        with reading(self.deps.engine) as connection:
            return list(connection.execute(select(table)).all())

    def _deliver(self, number: str, words: str, *, back_s: float = 0) -> None:
        identity = f"m{len(self.delivered)}"
        at = self.clock() - timedelta(seconds=back_s)
        inbound = Inbound("demo", "standard", number, SHOP_NUMBER, words, (), identity, at)
        self.delivered[identity] = inbound
        exchange.receive(self.deps, inbound)

    def _restart(self) -> None:
        self.deps.engine.dispose()
        self._begin()
        forget_leases(self.deps)

    @rule(number=st.sampled_from(NUMBERS), words=st.sampled_from(WORDS), back_s=st.sampled_from([0, 0, 3, 90]))
    def send(self, number: str, words: str, back_s: float) -> None:
        """A text, perhaps older than the last one."""
        self._deliver(number, words, back_s=back_s)

    @rule(number=st.sampled_from(NUMBERS), words=st.lists(st.sampled_from(WORDS + DANGERS), min_size=2, max_size=3))
    def burst(self, number: str, words: list[str]) -> None:
        """Several texts for one thought, reordered by the carrier."""
        for place, one in enumerate(words):
            self._deliver(number, one, back_s=place)

    @rule(number=st.sampled_from(NUMBERS), steps=st.integers(1, 4))
    def book_a_visit(self, number: str, steps: int) -> None:
        """The next steps of a booking, each rested and answered."""
        for _ in range(steps):
            self._deliver(number, BOOKING[self.place[number] % len(BOOKING)])
            self.place[number] += 1
            self.clock.forward(seconds=20)
            tick(self.deps, self._carrier)

    @rule(number=st.sampled_from(NUMBERS), words=st.sampled_from(DANGERS))
    def danger(self, number: str, words: str) -> None:
        """A danger not named before: answered at once whatever else stands."""
        known = any(one.sender == number and one.text == words for one in self.delivered.values())
        self._deliver(number, words)
        identity = self._message(f"m{len(self.delivered) - 1}").turn
        told = [r for r in self._rows(outbox) if r.turn == identity and r.kind == "danger"]
        assert told or known, "a danger was not answered"

    @rule(number=st.sampled_from(NUMBERS), words=st.sampled_from(["STOP", "opt out", "unsubscribe"]))
    def opt_out(self, number: str, words: str) -> None:
        """Out, at once."""
        self._deliver(number, words)
        self.out.add(number)

    @rule(number=st.sampled_from(NUMBERS))
    def opt_in(self, number: str) -> None:
        """In again."""
        self._deliver(number, "START")
        self.out.discard(number)

    @rule(data=st.data())
    def repeat(self, data: st.DataObject) -> None:
        """The carrier delivers something again."""
        if self.delivered:
            again = self.delivered[data.draw(st.sampled_from(sorted(self.delivered)))]
            before = len(self._rows(turns)), len(self._rows(outbox))
            assert not exchange.receive(self.deps, again).fresh
            assert (len(self._rows(turns)), len(self._rows(outbox))) == before, "a repeat had an effect"

    @rule(number=st.sampled_from(NUMBERS), takes=st.booleans())
    def take_over(self, number: str, takes: bool) -> None:
        """The office takes the conversation, or hands it back."""
        thread = next((r.id for r in self._rows(threads) if r.number == number), None)
        if thread:
            act = OfficeDid(by="olga", action="hold" if takes else "release", at=self.clock())
            exchange.act(self.deps, "demo", thread, act)
            (self.held.add if takes else self.held.discard)(number)

    @rule(wait_s=st.sampled_from([5.0, 60.0, 7200.0, 86400.0]))
    def time_passes(self, wait_s: float) -> None:
        """Wakes ring, replies leave."""
        self.clock.forward(seconds=wait_s)
        tick(self.deps, self._carrier)

    @rule(fault=st.sampled_from(["500", "unknown"]))
    def carrier_fails(self, fault: str) -> None:
        """The next call to the carrier goes wrong."""
        self.faults.append(fault)

    @rule()
    def crash_while_sending(self) -> None:
        """The process dies between the carrier's yes and our mark, and another begins."""
        self.faults.append("died")
        with suppress(Died):
            tick(self.deps, self._carrier)
        self.faults.clear()
        self._restart()

    @rule(number=st.sampled_from(NUMBERS), words=st.sampled_from(WORDS + DANGERS), at=st.integers(1, 12))
    def crash_in_a_turn(self, number: str, words: str, at: int) -> None:
        """The process dies at some statement of the turn; the carrier, not answered, delivers again."""
        identity = f"m{len(self.delivered)}"
        inbound = Inbound("demo", "standard", number, SHOP_NUMBER, words, (), identity, self.clock())
        self.delivered[identity] = inbound
        left = [at]

        def dying(*_: Any) -> None:
            left[0] -= 1
            if left[0] == 0:
                raise Died

        run = ready._run

        def dying_at_the_driver(*which: Any, **how: Any) -> Any:
            dying()
            return run(*which, **how)

        event.listen(self.deps.engine, "before_cursor_execute", dying)
        with patch.object(ready, "_run", dying_at_the_driver), suppress(Died):
            exchange.receive(self.deps, inbound)
        self._restart()
        exchange.receive(self.deps, inbound)

    def _message(self, carrier_id: str) -> Any:
        return next(r for r in self._rows(messages) if r.carrier_id == carrier_id)

    @invariant()
    def nothing_is_lost_or_taken_twice(self) -> None:
        """Each text is stored once and in at most one turn; turns are numbered without a gap."""
        if not hasattr(self, "deps"):
            return
        stored = [r for r in self._rows(messages) if r.direction == "in"]
        assert Counter(r.carrier_id for r in stored) == Counter(list(self.delivered))
        rows = self._rows(turns)
        taken = Counter(e.id for row in rows for e in read_events(row.events) if e.type == "texted")
        assert not [one for one, times in taken.items() if times > 1], "a text is in two turns"
        assert {r.id for r in stored if r.turn not in (None, "flood")} == set(taken)
        assert not [row for row in rows if "failed" in row.step], "a turn failed"

    @invariant()
    def consent_is_as_the_model_says(self) -> None:
        """Opting out is kept with the text, at once."""
        if hasattr(self, "deps"):
            assert {r.number for r in self._rows(threads) if r.consent == "out"} == self.out

    @invariant()
    def nothing_is_said_that_must_not_be(self) -> None:
        """After an opt-out danger and consent alone; the line's own words not while a person holds the thread."""
        if hasattr(self, "deps"):
            assert not [s for s in self.said if (s[2] or s[3]) and s[1] not in ("danger", "consent", "on_call")]
            assert len({key for key, _ in self.carrier}) == len(self.carrier)

    @invariant()
    def nobody_is_booked_twice(self) -> None:
        """A complaint has one standing visit, and no technician has more work in a day than the day has hours."""
        if hasattr(self, "deps"):
            standing = [r for r in self._rows(visits) if r.status in ("tentative", "standing")]
            stand = {r.id for r in standing}
            booked = Counter(r.ticket for r in self._rows(visit_tickets) if r.visit in stand)
            assert stand <= {r.visit for r in self._rows(visit_tickets)}, "a visit is for nothing"
            assert not [ticket for ticket, times in booked.items() if times > 1], "a complaint has two visits"
            work: Counter[tuple[str, object]] = Counter()
            for row in standing:
                work[row.technician, row.day] += row.minutes
            assert all(minutes <= 10 * 60 for minutes in work.values())

    def teardown(self) -> None:
        """Everything rests in the end: all texts have their turn, all replies their fate."""
        if not hasattr(self, "deps"):
            return
        self.faults.clear()
        self.clock.moment = max(self.clock.moment, datetime(2026, 12, 1, 18, tzinfo=UTC)) + timedelta(seconds=5)
        for _ in range(12 + len(self._rows(outbox))):  # a pass sends one text of a number at most
            tick(self.deps, self._carrier)
            self.clock.forward(minutes=6)
        assert not [r for r in self._rows(messages) if r.direction == "in" and r.turn is None], "a text has no turn"
        late = self.clock() - timedelta(minutes=60)  # alarms nobody answers call on for people meanwhile
        waiting = [r for r in self._rows(outbox) if r.status in ("leased", "waiting") and r.kind != "started"]
        stuck = [r for r in waiting if r.created_at < late]
        assert not stuck, "a reply is stuck"
        sent = {r.key for r in self._rows(outbox) if r.status == "sent"}
        assert sent <= {key for key, _ in self.carrier}, "called sent, but the carrier has none of it"
        self.deps.engine.dispose()
        shutil.rmtree(self.folder)


LONG = os.environ.get("PLAINFAULT_PROFILE") == "long"
TestWholeLine = WholeLine.TestCase
TestWholeLine.settings = settings(
    max_examples=200 if LONG else 8,
    stateful_step_count=min(50, NUMBER_BURST * 2) if LONG else 18,
    deadline=None,
    derandomize=not LONG,
    phases=[Phase.generate, Phase.shrink] if LONG else [Phase.generate],
    database=None,
    suppress_health_check=list(HealthCheck),
)
