"""
The work between texts: ringing wakes, a night's learning, escalating alarms, receipts that came too soon, sending.

One pass for tests, a loop in a thread for real.
"""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import date
from types import TracebackType
from typing import TypeVar

from service.edge.deps import Deps
from service.edge.escalation import escalate
from service.edge.learning import learn_by_night
from service.edge.network import Network
from service.edge.outbox import Sent, forget_leases, send_due
from service.edge.problems import whereabouts
from service.edge.receipts import settle_early
from service.edge.wakes import ring_due
from service.edge.wire import Ask

log = logging.getLogger("plainfault.worker")
T = TypeVar("T")

IDLE_S = 0.25
"""How long the loop rests when there was nothing to do; a nudge ends it sooner, for what is to be sent."""

GATHER_S = 0.2
"""
How long it rests after a pass that could have taken more: what is written meanwhile goes in one claim and one mark. A pass
costs as much as two or three texts of it.
"""

AFTER_FAILURE_S = 5.0
"""How long it rests when the database failed it."""

SIDE_BY_SIDE = 16
"""Calls to gateways at the same time, each for another number."""


@dataclass(frozen=True, slots=True)
class Tick:
    """What one pass did."""

    rang: int
    escalated: int
    sent: Sent

    @property
    def anything(self) -> bool:
        """Whether another pass at once may find more."""
        return bool(self.rang or self.escalated or self.sent.anything)


def tick(deps: Deps, ask: Ask | None = None) -> Tick:
    """One pass in this thread: wakes first (they write replies), then alarms, then what is due to be sent."""
    if ask is not None:
        return _pass(deps, ask, None, {})
    with Network() as own:
        return _pass(deps, own, None, {})


def _pass(
    deps: Deps, ask: Ask, pool: ThreadPoolExecutor | None, nights: dict[str, date], *, rounds: bool = True
) -> Tick:
    """*rounds*: also look for wakes, nights and alarms, which no text makes due at once."""
    failed: list[Exception] = []

    def step(do: Callable[[], T], otherwise: T) -> T:
        """What *do* gives: what one kind of work stumbles over must not keep the others from being done."""
        try:
            return do()
        except Exception as wrong:
            failed.append(wrong)
            return otherwise

    rang = escalated = 0
    if rounds:
        rang = step(lambda: ring_due(deps), 0)
        step(lambda: learn_by_night(deps, nights), None)
        escalated = step(lambda: escalate(deps), 0)
        step(lambda: settle_early(deps), 0)
    sent = step(lambda: send_due(deps, ask, side_by_side=SIDE_BY_SIDE if pool else 1, pool=pool), Sent())
    if failed:
        raise failed[0]
    return Tick(rang, escalated, sent)


class Worker:
    """
    The loop in a thread of its own. Use as a context, or ``start`` and ``stop``.

    Any number of workers may run on PostgreSQL, in any number of processes; on SQLite one, in the web process.
    """

    def __init__(self, deps: Deps) -> None:
        self._deps = deps
        self._stop = threading.Event()
        self._nudge = threading.Event()
        self._nights: dict[str, date] = {}
        self._rounds_at = -IDLE_S
        self._thread = threading.Thread(target=self.run, name="plainfault-worker", daemon=True)

    def start(self) -> None:
        """Begin."""
        self._thread.start()

    def stop(self, timeout_s: float = 30.0) -> None:
        """Finish the pass under way and end; what is not sent stays due."""
        self._stop.set()
        self._nudge.set()
        self._thread.join(timeout_s)

    def nudge(self) -> None:
        """Look now: something was just written."""
        self._nudge.set()

    def run(self) -> None:
        """Loop in the calling thread until ``stop``."""
        with (
            Network(side_by_side=SIDE_BY_SIDE) as network,
            ThreadPoolExecutor(SIDE_BY_SIDE, "plainfault-sender") as pool,
        ):
            if self._deps.engine.dialect.name == "sqlite":  # one process, and this is its only worker
                forget_leases(self._deps)
            while not self._stop.is_set():
                self._nudge.clear()
                rest_s = self._once(network, pool)
                if rest_s:
                    self._nudge.wait(rest_s)

    def _once(self, ask: Ask, pool: ThreadPoolExecutor) -> float:
        """One pass; how long to rest after it, seconds."""
        began = time.monotonic()
        rounds = began - self._rounds_at >= IDLE_S
        if rounds:
            self._rounds_at = began
        try:
            done = _pass(self._deps, ask, pool, self._nights, rounds=rounds)
            if not done.anything:
                return IDLE_S
            return 0.0 if done.sent.sent >= SIDE_BY_SIDE else GATHER_S
        except Exception as wrong:
            # The loop must outlive whatever happens in it: rows that are due stay due.
            log.error("a pass failed", extra={"why": type(wrong).__name__, "where": whereabouts(wrong)})
            return AFTER_FAILURE_S

    def __enter__(self) -> Worker:
        self.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, wrong: BaseException | None, at: TracebackType | None) -> None:
        self.stop()
