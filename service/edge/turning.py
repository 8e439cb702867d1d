"""
One turn of a thread as rows: its waiting texts, what the conversation decides, and everything that follows from it.

A decision that fails leaves a failed turn: the texts stay kept, a person is asked for and the customer gets a sentence.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from typing import TypeVar

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import InterfaceError, OperationalError

from service.conversation.events import Event, Texted
from service.conversation.needs import needs_diary
from service.conversation.safety import stock_reply
from service.conversation.state import State
from service.conversation.step import Alarm, Step
from service.conversation.turn import take
from service.conversation.upgrade import read_state
from service.edge.parts import as_texts
from service.edge.unanswered import heeded, park
from service.rulebook.model import Rulebook
from service.scheduling.model import Diary
from service.storage import alarms, diary, messages, teaching, threads, tickets, turns, wakes
from service.storage.consents import note_consent
from service.storage.engine import writing
from service.storage.messages import Arrived
from service.storage.postgresql import unread
from service.storage.replies import write_replies
from service.storage.threads import ThreadRow

log = logging.getLogger("plainfault.exchange")
T = TypeVar("T")

TRIES = 3
"""How often a turn is taken when the diary changes under it each time; then a person is asked for."""


class TurnBroke(Exception):
    """What a turn decided could not be written, for a fault of ours. why: the error's name."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def in_one_transaction(engine: Engine, body: Callable[[Connection, str | None], T]) -> T:
    """
    What *body* does, in one transaction.

    It is undone and done anew if a day of the diary has changed since its turn saw it, and if its turn breaks while it is
    being written: then it is told why, so that it keeps the texts with a failed turn. That is dearer than a savepoint when
    it happens, and costs nothing when it does not.
    """
    failed, tries = None, 0
    while True:
        try:
            with writing(engine) as connection:
                return body(connection, failed)
        except diary.DayChanged as changed:
            tries += 1
            failed = type(changed).__name__ if tries == TRIES else None
        except TurnBroke as broke:
            failed = broke.why


def take_turn(
    connection: Connection,
    rulebook: Rulebook,
    row: ThreadRow,
    extra: Sequence[Event],
    now: datetime,
    failed: str | None = None,
    arrived: Arrived | None = None,
) -> Step | None:
    """
    Take a turn for the waiting texts of the thread and *extra*; None for a parked one that is not heeded, or if it failed.

    failed: why the turn is known to fail. arrived: a text that is kept as taken by this turn. Raises TurnBroke, DayChanged,
    and the database's own errors.
    """
    turn = turns.turn_id(row.id, row.turns + 1)
    taken = messages.take_waiting(connection, row.shop, row.id, turn, arrived)
    waiting = as_texts(taken)
    texts = tuple(Texted(id=w.id, text=w.text, media=w.media, at=w.carrier_at or w.at) for w in waiting)
    events: tuple[Event, ...] = (*texts, *extra)
    if row.parked and not heeded(rulebook, row, waiting):
        messages.mark_turn(connection, [one.id for one in taken], "parked")
        threads.note_inbound(connection, row)
        return None
    autonomy = row.autonomy or rulebook.shop.policies.autonomy
    decided = _Decided(None, State(), None, failed)
    if failed is None:
        decided = _decide(connection, _letting(rulebook, autonomy), row, events, now)
    step = decided.step
    document = turns.document_of(step, decided.failed)
    record = partial(
        turns.write_turn, connection, row, events=events, edition=rulebook.fingerprint, autonomy=autonomy,
        diary=decided.seen, document=document, now=now,
    )  # fmt: skip
    if step is None:
        record()
        _answer_for_failure(connection, rulebook, row, texts, turn, now)
        return None
    try:
        with unread(connection):
            record()
            threads.save(connection, row, document["state"])
            _send_and_wake(connection, row, step, turn, autonomy == "draft", now)
            known = tickets.sync_known(connection, row, step.state, document["state"], now)
        _tell(connection, row, step, texts, now)
        park(connection, rulebook, row, [t.text for t in texts], step)
        # Last what others may be waiting for: the days of the diary, and the count of the shop's tickets.
        for change in step.diary:
            diary.apply(connection, row, rulebook.shop, change, decided.seen.versions if decided.seen else {}, now)
        if not known:
            tickets.sync(connection, row, step.state, document["state"], now)
        teaching.record_settled(connection, row, rulebook, decided.before, step.state, now)
    except (diary.DayChanged, OperationalError, InterfaceError):
        raise  # the turn is taken anew, or the database itself failed and may have ended the whole transaction
    except Exception as wrong:
        raise _broke(row, wrong) from wrong
    return step


def _broke(row: ThreadRow, wrong: Exception) -> TurnBroke:
    log.exception("turn failed", extra={"thread_id": row.id, "turn": row.turns + 1})
    return TurnBroke(type(wrong).__name__)


@dataclass(frozen=True, slots=True)
class _Decided:
    """What the conversation made of a turn. before: the state it began with. failed: the error's name if it has no step."""

    step: Step | None
    before: State
    seen: Diary | None
    failed: str | None = None


def _decide(
    connection: Connection, rulebook: Rulebook, row: ThreadRow, events: Sequence[Event], now: datetime
) -> _Decided:
    """The step, or the name of what went wrong; nothing is written yet."""
    before, seen = State(), None
    try:
        before = read_state(row.state)
        if needs_diary(before, events, rulebook, now):
            seen = diary.load_diary(connection, rulebook.shop, now)
        step = take(
            before, events, rulebook, now, seen, thread=row.id, turn=row.turns + 1, held=row.held_by is not None
        )
    except (OperationalError, InterfaceError):
        raise
    except Exception as wrong:
        return _Decided(None, before, seen, _broke(row, wrong).why)
    return _Decided(step, before, seen)


def _letting(rulebook: Rulebook, autonomy: str) -> Rulebook:
    """*rulebook* as the desk has switched it; the edition stays the same, the turn's row keeps the switch."""
    policies = rulebook.shop.policies
    if policies.autonomy == autonomy:
        return rulebook
    shop = rulebook.shop.model_copy(update={"policies": policies.model_copy(update={"autonomy": autonomy})})
    return replace(rulebook, shop=shop)


def _send_and_wake(connection: Connection, row: ThreadRow, step: Step, turn: str, draft: bool, now: datetime) -> None:
    """Write the replies and wakes the step decided."""
    write_replies(connection, row, step.replies, turn=turn, draft=draft, now=now)
    wakes.clear(connection, row.shop, [f"{row.id}:{key}" for key in step.clear_wakes], "no longer needed", now)
    due = [wakes.NewWake(w.kind, f"{row.id}:{w.key}", w.due, w.ticket, w.version) for w in step.wakes]
    wakes.set_wakes(connection, row.shop, row.id, due)


def _tell(connection: Connection, row: ThreadRow, step: Step, texts: Sequence[Texted], now: datetime) -> None:
    """Tell the shop's people what the step found alarming, and keep the proof of a consent given or taken back."""
    for alarm in step.alarms:
        _raise(connection, row, alarm, now)
    if step.state.consent != row.consent:
        note_consent(connection, row, step.state.consent, texts, now)


def _answer_for_failure(
    connection: Connection, rulebook: Rulebook, row: ThreadRow, texts: Sequence[Texted], turn: str, now: datetime
) -> None:
    threads.save_turn_count(connection, row)
    words = [t.text for t in texts]
    if row.consent == "in":
        replies = stock_reply(rulebook, words, _language(row))
    else:
        replies = tuple(r for r in stock_reply(rulebook, words, _language(row)) if r.kind == "danger")
    if texts:
        write_replies(connection, row, replies, turn=turn, draft=False, now=now)
    danger = any(reply.kind == "danger" for reply in replies)
    words_for_desk = "A turn failed; the texts are kept and wait for a person."
    _raise(connection, row, Alarm(kind="danger" if danger else "trouble", text=words_for_desk, on_call=danger), now)


def _raise(connection: Connection, row: ThreadRow, alarm: Alarm, now: datetime) -> None:
    alarms.raise_alarm(
        connection,
        shop=row.shop,
        thread=row.id,
        ticket=tickets.ticket_id(row.id, alarm.ticket) if alarm.ticket else None,
        kind=alarm.kind,
        text=alarm.text,
        on_call=alarm.on_call,
        now=now,
    )


def _language(row: ThreadRow) -> str:
    told = row.state.get("language")
    return told if told in ("en", "es") else State().language
