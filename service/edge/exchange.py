"""
The exchange: one transaction per text, from its arrival to the replies that wait for the sender.

It gathers (message, thread, diary), lets the conversation decide, and applies what was decided as rows. Whatever fails in
between, the text stays stored, a person is asked for and the customer gets a sentence: nothing a customer wrote is lost.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from sqlalchemy import Connection
from sqlalchemy.exc import InterfaceError, OperationalError

from service.conversation.events import Event, OfficeDid, Texted, Woke
from service.conversation.needs import needs_diary
from service.conversation.safety import stock_reply
from service.conversation.state import State
from service.conversation.step import Alarm, Step
from service.conversation.turn import take
from service.conversation.upgrade import read_state
from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.edge.unanswered import SHOP_REST_S, floods, heeded, machine_sends, park
from service.reading.masking import mask_cards
from service.reading.reader import reader_for
from service.rulebook.model import Rulebook
from service.scheduling.model import Diary
from service.storage import alarms, diary, messages, shops, teaching, threads, tickets, turns, wakes
from service.storage.consents import note_consent
from service.storage.engine import writing
from service.storage.replies import write_replies
from service.storage.threads import ThreadRow

log = logging.getLogger("plainfault.exchange")

TRIES = 3
"""How often a turn is retaken when the diary has changed under it; then a person is asked for."""

REST_CAP = 3
"""A customer who keeps typing is answered after this many rests at the latest."""


@dataclass(frozen=True, slots=True)
class Received:
    """What became of a delivery. fresh: False for a repeat. thread: the thread it belongs to."""

    fresh: bool
    thread: str
    message: str | None = None


def receive(deps: Deps, inbound: Inbound) -> Received:
    """
    Take one delivered text: keep it, and take the turn now (danger, consent, no rest) or when it has rested.

    A repeat of a carrier id changes nothing. Raises KeyError for a shop that is not there.
    """
    rulebook = deps.rulebook_of(inbound.shop)
    now = deps.clock()
    text = mask_cards(inbound.text)
    with writing(deps.engine) as connection:
        row = threads.lock_by_number(connection, inbound.shop, inbound.sender, inbound.gateway, now)
        identity = messages.record_inbound(
            connection,
            shop=inbound.shop,
            thread=row.id,
            gateway=inbound.gateway,
            carrier_id=inbound.carrier_id,
            text=text,
            media=inbound.media,
            carrier_at=inbound.carrier_at,
            now=now,
        )
        if identity is None:
            return Received(fresh=False, thread=row.id)
        threads.note_inbound(connection, row.id, now)
        if machine_sends(connection, rulebook, row, text, now):
            messages.mark_turn(connection, [identity], "machine")
        elif floods(connection, rulebook, row, text, now):
            messages.mark_turn(connection, [identity], "flood")
        else:
            _take_or_rest(deps, connection, rulebook, row, text, now)
    return Received(fresh=True, thread=row.id, message=identity)


def rest_over(deps: Deps, shop: str, thread: str, *, ring: Callable[[Connection], bool] | None = None) -> None:
    """
    Take the turn of a thread whose texts have rested; nothing happens if an earlier turn took them.

    *ring* marks the wake in the same transaction, and says False if it has rung or moved meanwhile.
    """
    with writing(deps.engine) as connection:
        row = threads.lock_by_id(connection, shop, thread)
        rings = ring is None or ring(connection)
        if row and rings and messages.waiting(connection, shop, thread):
            _take(connection, deps.rulebook_of(shop), row, (), deps.clock())


def wake(deps: Deps, shop: str, thread: str, event: Woke, *, ring: Callable[[Connection], bool] | None = None) -> None:
    """Take a turn for a wake that is due. *ring*: as for ``rest_over``."""
    with writing(deps.engine) as connection:
        row = threads.lock_by_id(connection, shop, thread)
        rings = ring is None or ring(connection)
        if row and rings:
            _take(connection, deps.rulebook_of(shop), row, (event,), deps.clock())


def act(
    deps: Deps,
    shop: str,
    thread: str,
    event: Event,
    *,
    also: Callable[[Connection, Step | None], None] | None = None,
) -> Step | None:
    """
    Take a turn for what the office, the technician or the carrier did. *also* writes more rows in the same transaction.

    Gives the step, or None if the turn failed (a person has been asked for then). Raises LookupError for a thread that is
    not there.
    """
    with writing(deps.engine) as connection:
        row = threads.lock_by_id(connection, shop, thread)
        if row is None:
            raise LookupError(f"shop {shop} has no thread {thread}")
        if isinstance(event, OfficeDid) and event.action in ("hold", "release"):
            holder = event.by if event.action == "hold" else None
            threads.hold(connection, thread, holder)
            row = replace(row, held_by=holder)
        step = _take(connection, deps.rulebook_of(shop), row, (event,), deps.clock())
        if also:
            also(connection, step)
        return step


def open_ticket(deps: Deps, shop: str, number: str, gateway: str, event: OfficeDid) -> tuple[str, Step | None]:
    """A phoned-in ticket: the thread of *number* (made if new) takes the office's ``open``. Gives the thread's id."""
    with writing(deps.engine) as connection:
        row = threads.lock_by_number(connection, shop, number, gateway, deps.clock())
        return row.id, _take(connection, deps.rulebook_of(shop), row, (event,), deps.clock())


def _take_or_rest(
    deps: Deps, connection: Connection, rulebook: Rulebook, row: ThreadRow, text: str, now: datetime
) -> None:
    busy, rest_s = deps.shares.exceeded(row.shop, now), rulebook.shop.policies.rest_s
    no_rest = not busy and (rest_s == 0 or _answers_at_once(deps, row.gateway))
    if no_rest or _at_once(rulebook, text):
        _take(connection, rulebook, row, (), now)
    else:
        _let_rest(connection, row, SHOP_REST_S if busy else rest_s, now)


def _answers_at_once(deps: Deps, gateway: str) -> bool:
    known = deps.gateways.get(gateway)
    return known is not None and known.answers_at_once


def _at_once(rulebook: Rulebook, text: str) -> bool:
    reader = reader_for(rulebook)
    return bool(reader.hazards(text)) or reader.consent(text) is not None


def _let_rest(connection: Connection, row: ThreadRow, rest_s: float, now: datetime) -> None:
    rest = timedelta(seconds=rest_s)
    first = min((w.at for w in messages.waiting(connection, row.shop, row.id)), default=now)
    due = min(now + rest, first + rest * REST_CAP)
    wakes.set_wake(connection, shop=row.shop, thread=row.id, kind="rest", key=f"{row.id}:rest", due=due)


def _take(
    connection: Connection, rulebook: Rulebook, row: ThreadRow, extra: Sequence[Event], now: datetime
) -> Step | None:
    waiting = messages.waiting(connection, row.shop, row.id)
    texts = tuple(Texted(id=w.id, text=w.text, media=w.media, at=w.carrier_at or w.at) for w in waiting)
    events: tuple[Event, ...] = (*texts, *extra)
    if row.parked and not heeded(rulebook, row, waiting):
        messages.mark_turn(connection, [w.id for w in waiting], "parked")
        return None
    autonomy = _autonomy(connection, rulebook, row)
    step, seen, failed = _decide(connection, _letting(rulebook, autonomy), row, events, now)
    turn = turns.write_turn(
        connection, row, events=events, edition=rulebook.fingerprint, autonomy=autonomy, diary=seen, step=step,
        failed=failed, now=now,
    )  # fmt: skip
    messages.mark_turn(connection, [w.id for w in waiting], turn)
    if step is None:
        _answer_for_failure(connection, rulebook, row, texts, turn, now)
        return None
    _finish(connection, row, step, turn, texts, autonomy == "draft", now)
    park(connection, rulebook, row, [t.text for t in texts], step)
    return step


def _decide(
    connection: Connection, rulebook: Rulebook, row: ThreadRow, events: Sequence[Event], now: datetime
) -> tuple[Step | None, Diary | None, str | None]:
    """The step with its diary changes already made, in a savepoint of its own; or the name of what went wrong."""
    for _ in range(TRIES):
        seen: Diary | None = None
        try:
            with connection.begin_nested():
                state = read_state(row.state)
                if needs_diary(state, events, rulebook, now):
                    seen = diary.load_diary(connection, rulebook.shop, now)
                step = take(
                    state, events, rulebook, now, seen, thread=row.id, turn=row.turns + 1, held=row.held_by is not None
                )
                for change in step.diary:
                    diary.apply(connection, row, rulebook.shop, change, seen.versions if seen else {}, now)
                threads.save(connection, row, step.state)
                tickets.sync(connection, row, step.state, now)
                teaching.record_settled(connection, row, rulebook, state, step.state, now)
                return step, seen, None
        except diary.DayChanged:
            continue
        except (OperationalError, InterfaceError):
            # The database itself failed, and may have ended the whole transaction: what is written now would stand alone.
            raise
        except Exception as wrong:
            log.exception("turn failed", extra={"thread_id": row.id, "turn": row.turns + 1})
            return None, seen, type(wrong).__name__
    return None, None, "DayChanged"


def _autonomy(connection: Connection, rulebook: Rulebook, row: ThreadRow) -> str:
    """How much the line may do alone: what the desk has switched, else what the shop's file says."""
    shop = shops.shop_row(connection, row.shop)
    return shop.autonomy if shop else rulebook.shop.policies.autonomy


def _letting(rulebook: Rulebook, autonomy: str) -> Rulebook:
    """*rulebook* as the desk has switched it; the edition stays the same, the turn's row keeps the switch."""
    policies = rulebook.shop.policies
    if policies.autonomy == autonomy:
        return rulebook
    shop = rulebook.shop.model_copy(update={"policies": policies.model_copy(update={"autonomy": autonomy})})
    return replace(rulebook, shop=shop)


def _finish(
    connection: Connection, row: ThreadRow, step: Step, turn: str, texts: Sequence[Texted], draft: bool, now: datetime
) -> None:
    """Write what the step decided besides state and diary: replies, wakes, alarms, proof of consent."""
    write_replies(connection, row, step.replies, turn=turn, draft=draft, now=now)
    for key in step.clear_wakes:
        wakes.clear(connection, row.shop, f"{row.id}:{key}", "no longer needed", now)
    due = [wakes.NewWake(w.kind, f"{row.id}:{w.key}", w.due, w.ticket, w.version) for w in step.wakes]
    wakes.set_wakes(connection, row.shop, row.id, due)
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
