"""
The sender: takes what is due, looks again whether it may go, hands it to its gateway and keeps what came of it.

The guarantee: a reply is sent once, unless the carrier took it twice or, for a danger instruction only, unless nobody can
know whether it did. Everything else that nobody can know waits, visible, for a person. No transaction spans a call.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, wait
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial

from sqlalchemy import Connection

from service.edge.calling import Busy, NotSetUp, Outcome, Refused, Taken, Unknown, call
from service.edge.deps import Deps
from service.edge.gateways import Gateway
from service.edge.second_look import Drop, Later, look_again
from service.edge.sending import Text
from service.edge.undelivered import tell_conversation, tell_people, tell_waiting
from service.edge.wire import Ask
from service.storage import buckets, leases
from service.storage.engine import reading, writing
from service.storage.leases import Leased

log = logging.getLogger("plainfault.sender")

NotTaken = Busy | NotSetUp | Refused | Unknown
Called = tuple[Leased, Outcome]
"""A text that was called for, and what came of it."""

BACKOFF_BASE_S = 2.0
BACKOFF_CAP_S = 300.0
"""Full jitter: uniform between 0 and the lesser of the cap and base times two to the attempt (computation notes, 8)."""

LEASE_MARGIN = timedelta(seconds=10)
"""A lease outlasts the calls it is for by this much, so that only a dead sender loses one."""

UNSERVED = timedelta(minutes=5)
"""A text of a shop that is not served is looked at again after this long."""

SETTING_LOOK_S = 60.0
"""A text that waits for a setting of ours is looked at again after this long at most; a look costs no call."""

LOCAL_AT_A_TIME = 50
"""Local texts let through in one transaction."""

TOGETHER_S = 0.02
"""So long the calls of a pass are waited for together before those that have ended are kept."""

LEFT_TO_THE_ANSWER = timedelta(seconds=10)
"""So long a reply is left to the HTTP answer, where a gateway takes replies that way."""


@dataclass(frozen=True, slots=True)
class Sent:
    """What one pass did."""

    sent: int = 0
    dropped: int = 0
    later: int = 0
    dead: int = 0

    @property
    def anything(self) -> bool:
        """Whether another pass at once may find more."""
        return bool(self.sent or self.dropped or self.dead)


def send_due(deps: Deps, ask: Ask, *, side_by_side: int = 1, pool: Executor | None = None) -> Sent:
    """
    One pass: settle what a dead sender left, let local texts arrive, call the gateways for others, *side_by_side* at most.

    Raises nothing for a gateway's failure; a database failure is raised, and the leases end by themselves.
    """
    local = [name for name, gateway in deps.gateways.items() if gateway.local]
    with reading(deps.engine) as connection:  # a look costs the writers nothing; most passes find little
        work = leases.look(connection, deps.clock(), local)
    outcomes = _settle_expired(deps) if work.expired else []
    if work.local:
        outcomes += _take(deps, local, through_local=True, limit=LOCAL_AT_A_TIME, calls=0)[1]
    # Side by side a number has one text in hand, or two dangers; one after the other, the last waits for all before it.
    calls = 2 if pool else side_by_side
    rows: list[Leased] = []
    if work.outside:
        rows, states = _take(deps, local, through_local=False, limit=side_by_side, calls=calls)
        outcomes += states
    lanes: dict[tuple[str, str], list[Leased]] = {}
    for row in rows:
        lanes.setdefault((row.shop, row.number), []).append(row)
    for called in _called(deps, ask, list(lanes.values()), pool):
        outcomes += _keep(deps, called)
    counts = {state: outcomes.count(state) for state in ("sent", "dropped", "later", "dead")}
    return Sent(**counts)


def _take(
    deps: Deps, local: Sequence[str], *, through_local: bool, limit: int, calls: int
) -> tuple[list[Leased], list[str]]:
    """Lease what is due and look at it again: the rows still to be called for, and what became of the others."""
    now = deps.clock()
    answering = [name for name, gateway in deps.gateways.items() if gateway.answers_at_once]
    until = now + timedelta(seconds=_longest_call_s(deps) * calls) + LEASE_MARGIN
    with writing(deps.engine) as connection:
        rows = leases.lease(
            connection, now, until, limit, local=(local, through_local), younger_left=(answering, LEFT_TO_THE_ANSWER)
        )
        kept = _paced(connection, deps, [(row, _prepare(connection, deps, row, now)) for row in rows], now)
    for row, state in kept:
        if state == "dead":
            tell_conversation(deps, row)
    return [row for row, state in kept if state == "call"], [state for _, state in kept if state != "call"]


def _longest_call_s(deps: Deps) -> float:
    return max((g.profile.send.timeout_s for g in deps.gateways.values() if g.profile.send), default=0.0)


def _prepare(connection: Connection, deps: Deps, row: Leased, now: datetime) -> str:
    """Look again, in the transaction that took the row; what is left to do: call, or what became of it."""
    if row.kind == "danger":
        leases.drop_before(connection, row, "overtaken by a danger")
    gateway = deps.gateways.get(row.gateway)
    if gateway is None:
        leases.mark_dead(connection, row, "failed", f"there is no gateway {row.gateway}")
        tell_people(connection, row, deps)
        return "dead"
    try:
        look = look_again(row, deps.rulebook_of(row.shop).shop, now)
    except KeyError:  # whoever serves it again finds its texts waiting
        look = Later(now + UNSERVED, "this shop is not served now")
    if isinstance(look, Drop):
        leases.mark_dropped(connection, row, look.why)
        return "dropped"
    if isinstance(look, Later):
        leases.mark_later(connection, row, look.at, look.why, tried=False)
        return "later"
    if gateway.local:
        leases.mark_sent(connection, row, now)
        return "sent"
    return "call"


def _paced(
    connection: Connection, deps: Deps, kept: Sequence[tuple[Leased, str]], now: datetime
) -> list[tuple[Leased, str]]:
    """*kept*, but that those to be called for wait where their gateway's rate is used up."""
    # Danger draws from a bucket of its own: a busy hour must not hold it back.
    drawing: dict[tuple[str, str, bool], list[Leased]] = {}
    for row, state in kept:
        if state == "call":
            drawing.setdefault((row.shop, row.gateway, row.kind in ("danger", "on_call")), []).append(row)
    late: set[str] = set()
    for (shop, name, danger), rows in drawing.items():
        limits = deps.gateways[name].profile.limits
        draw = partial(
            buckets.draw, connection, shop, f"{name}:danger" if danger else name,
            per_second=limits.per_second, burst=limits.burst, now=now,
        )  # fmt: skip
        if len(rows) > 1 and not draw(wanted=len(rows)):  # nearly always there is enough for all of them
            continue
        for row in rows:
            if wait_s := draw():
                leases.mark_later(connection, row, now + wait_s, None, tried=False)
                late.add(row.id)
    return [(row, "later" if row.id in late else state) for row, state in kept]


def _called(deps: Deps, ask: Ask, lanes: Sequence[Sequence[Leased]], pool: Executor | None) -> Iterator[list[Called]]:
    """
    What came of the calls, those together that ended within a moment or while the last were being kept: one transaction
    keeps them all.

    The texts of one number go one after the other; without a pool all do, each kept before the next is called for.
    """
    if pool is None:
        yield from ([(row, _send(deps, ask, row))] for lane in lanes for row in lane)
        return
    under_way = {pool.submit(lambda lane: [(row, _send(deps, ask, row)) for row in lane], lane) for lane in lanes}
    while under_way:
        done, under_way = wait(under_way, timeout=TOGETHER_S)
        if not done:
            done, under_way = wait(under_way, return_when=FIRST_COMPLETED)
        yield [called for future in done for called in future.result()]


def _send(deps: Deps, ask: Ask, row: Leased) -> Outcome:
    gateway = deps.gateways[row.gateway]
    base = deps.settings.base_url.rstrip("/")
    text = Text(
        shop=row.shop, key=row.key, number=row.number, shop_number=row.shop_number or "", words=row.text,
        receipt_url=f"{base}/hooks/{row.shop}/{row.gateway}/receipts",
    )  # fmt: skip
    return call(ask, gateway, text, deps.clock())


def _keep(deps: Deps, called: Sequence[Called]) -> list[str]:
    """Mark what came of the calls, while their leases still stand."""
    now = deps.clock()
    with writing(deps.engine) as connection:
        taken = [(row, outcome.reference) for row, outcome in called if isinstance(outcome, Taken)]
        if taken:
            leases.mark_all_sent(connection, taken, now)
        states = [
            "sent" if isinstance(outcome, Taken) else _mark(connection, deps, row, outcome, now)
            for row, outcome in called
        ]
    for (row, _), state in zip(called, states, strict=True):
        if state == "dead":
            tell_conversation(deps, row)
    return states


def _mark(connection: Connection, deps: Deps, row: Leased, outcome: NotTaken, now: datetime) -> str:
    if isinstance(outcome, NotSetUp):
        return _wait_for_setting(connection, deps, row, outcome, now)
    verdict = _verdict(deps.gateways[row.gateway], row, outcome)
    if verdict == "again":
        after_s = outcome.after_s if isinstance(outcome, Busy) else None
        leases.mark_later(connection, row, now + _backoff(deps, row.attempts, after_s), outcome.words[:200], tried=True)
        return "later"
    if not leases.mark_dead(connection, row, verdict, outcome.words):
        return "later"
    # Where to look it up at the gateway's, and nothing of the customer's: its answer may repeat what they wrote.
    where = {"shop": row.shop, "gateway": row.gateway, "key": row.key, "status": outcome.status}
    log.warning("a gateway did not take a text", extra=where | {"verdict": verdict, "why": outcome.why})
    tell_people(connection, row, deps)
    return "dead"


def _wait_for_setting(connection: Connection, deps: Deps, row: Leased, outcome: NotSetUp, now: datetime) -> str:
    """
    Nothing was asked of the gateway, so it is no attempt: the text stays until the setting is mended, however long.

    A person is told when it begins, not each time it is looked at.
    """
    told = leases.reason_of(connection, row) == outcome.why[:200]
    at = now + timedelta(seconds=deps.random.uniform(SETTING_LOOK_S / 2, SETTING_LOOK_S))
    if leases.mark_later(connection, row, at, outcome.why[:200], tried=False) and not told:
        where = {"shop": row.shop, "gateway": row.gateway, "key": row.key}
        log.error("a gateway's secret is missing or unusable", extra=where | {"why": outcome.why})
        tell_waiting(connection, row, deps, outcome.why)
    return "later"


def _verdict(gateway: Gateway, row: Leased, outcome: Busy | Unknown | Refused) -> str:
    """again, failed or unsure. A gateway that knows our key may be asked twice; a danger may be heard twice."""
    if isinstance(outcome, Refused):
        return "failed"
    send = gateway.profile.send
    known_key = send is not None and send.idempotency_header is not None
    if isinstance(outcome, Unknown) and not known_key and row.kind not in ("danger", "on_call"):
        return "unsure"
    return "again" if row.attempts < gateway.profile.limits.attempts else "failed"


def _backoff(deps: Deps, attempts: int, after_s: float | None) -> timedelta:
    """How long to wait after the *attempts*-th attempt failed; never less than the gateway asked for."""
    ceiling = min(BACKOFF_CAP_S, BACKOFF_BASE_S * 2 ** (attempts - 1))
    return timedelta(seconds=max(deps.random.uniform(0, ceiling), after_s or 0.0))


def _settle_expired(deps: Deps) -> list[str]:
    """What a sender that died had in hand may have gone out: danger goes again, the rest is for a person to judge."""
    now = deps.clock()
    dead: list[Leased] = []
    with writing(deps.engine) as connection:
        for row in leases.expired(connection, now):
            gateway = deps.gateways.get(row.gateway)
            outcome = Unknown("the sender stopped in the middle of it")
            verdict = "unsure" if gateway is None else _verdict(gateway, row, outcome)
            if verdict == "again":
                leases.mark_later(connection, row, now, outcome.why, tried=True)
            elif leases.mark_dead(connection, row, verdict, outcome.why):
                tell_people(connection, row, deps)
                dead.append(row)
    for row in dead:
        tell_conversation(deps, row)
    return ["dead"] * len(dead)


def forget_leases(deps: Deps) -> None:
    """
    End every lease: only for a process that is the only one, when it begins; whoever held one is dead.

    What was in hand is settled by the next pass instead of after its time, which matters most for a danger.
    """
    with writing(deps.engine) as connection:
        leases.end_all(connection, deps.clock())
