"""
The exchange: one transaction per text, from its arrival to the replies that wait for the sender.

It gathers (message, thread, diary), lets the conversation decide, and applies what was decided as rows. Whatever fails in
between, the text stays stored, a person is asked for and the customer gets a sentence: nothing a customer wrote is lost.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import partial

from sqlalchemy import Connection

from service.conversation.events import Event, OfficeDid, Woke
from service.conversation.step import Step
from service.edge import parts
from service.edge.deps import Deps
from service.edge.inbound import Inbound
from service.edge.turning import in_one_transaction, take_turn
from service.edge.unanswered import SHOP_REST_S, floods, machine_sends, paced
from service.reading.readers import reader_for
from service.reading.words.masking import mask_cards
from service.rulebook.model import Rulebook
from service.storage import messages, threads, wakes
from service.storage.messages import Arrived
from service.storage.parts import Place, let_go
from service.storage.threads import ThreadRow
from service.storage.turns import turn_id

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
    return in_one_transaction(
        deps.engine, lambda connection, failed: _keep(deps, connection, rulebook, inbound, now, failed)
    )


def _keep(
    deps: Deps, connection: Connection, rulebook: Rulebook, inbound: Inbound, now: datetime, failed: str | None
) -> Received:
    text = mask_cards(inbound.text)
    row = threads.lock_by_number(connection, inbound.shop, inbound.sender, inbound.gateway, now)
    those = parts.gathered(connection, row, inbound, text, now)
    if those and those.repeated:
        return Received(fresh=False, thread=row.id)
    identity, arrived = _recorded(connection, deps, rulebook, row, inbound, text, those.place if those else None, now)
    if identity is None:
        return Received(fresh=False, thread=row.id)
    row = replace(row, last_in_at=now)
    to_read = parts.to_read(connection, row, those, identity, text, now) if those else text
    too_many = those.flooded if those else False
    if not those or not those.before:  # the other pieces of a long text do not count: the person wrote once
        row, too_many = paced(row, now)
    if machine_sends(connection, rulebook, row, to_read, now):
        messages.mark_turn(connection, [identity], "machine")
    elif floods(connection, rulebook, row, to_read, now, too_many=too_many):
        messages.mark_turn(connection, [identity], "flood")
    elif those and not those.complete and not reader_for(rulebook).hazards(to_read):
        parts.hold(connection, row, those, identity)
    else:
        if those:
            parts.let_go(connection, row, those.place, now)
        rest_s = _rest_s(deps, rulebook, row, to_read, now)
        if rest_s is None:
            take_turn(connection, rulebook, row, (), now, failed, arrived)
            return Received(fresh=True, thread=row.id, message=identity)
        if arrived:
            messages.put_back(connection, identity)
        _let_rest(connection, row, rest_s, now)
    threads.note_inbound(connection, row)
    return Received(fresh=True, thread=row.id, message=identity)


def _recorded(
    connection: Connection, deps: Deps, rulebook: Rulebook, row: ThreadRow, inbound: Inbound, text: str,
    place: Place | None, now: datetime,
) -> tuple[str | None, Arrived | None]:  # fmt: skip
    """
    Keep the text; its id, or None for a repeat. Where texts do not rest it is kept as taken by the turn that is coming: one
    that gets none is marked so afterwards.
    """
    record = partial(
        messages.record_inbound, connection, shop=inbound.shop, thread=row.id, gateway=inbound.gateway,
        carrier_id=inbound.carrier_id, text=text, media=inbound.media, carrier_at=inbound.carrier_at, now=now,
    )  # fmt: skip
    if place or not _never_rests(deps, rulebook, row):
        return record(place=place), None
    arrived = messages.record_taken(*record.args, **record.keywords, turn=turn_id(row.id, row.turns + 1))
    return (arrived.text.id, arrived) if arrived else (None, None)


def parts_over(deps: Deps, shop: str, thread: str, whole: str, *, ring: Callable[[Connection], bool]) -> None:
    """Take the turn of the pieces of *whole* that are there: the others have stayed away. *ring*: as for ``rest_over``."""

    def body(connection: Connection, failed: str | None) -> None:
        row = threads.lock_by_id(connection, shop, thread)
        rings = ring(connection)
        if row and rings and let_go(connection, shop, thread, whole, left_out=False):
            take_turn(connection, deps.rulebook_of(shop), row, (), deps.clock(), failed)

    in_one_transaction(deps.engine, body)


def rest_over(deps: Deps, shop: str, thread: str, *, ring: Callable[[Connection], bool] | None = None) -> None:
    """
    Take the turn of a thread whose texts have rested; nothing happens if an earlier turn took them.

    *ring* marks the wake in the same transaction, and says False if it has rung or moved meanwhile.
    """

    def body(connection: Connection, failed: str | None) -> None:
        row = threads.lock_by_id(connection, shop, thread)
        rings = ring is None or ring(connection)
        if row and rings and messages.waiting(connection, shop, thread):
            take_turn(connection, deps.rulebook_of(shop), row, (), deps.clock(), failed)

    in_one_transaction(deps.engine, body)


def wake(deps: Deps, shop: str, thread: str, event: Woke, *, ring: Callable[[Connection], bool] | None = None) -> None:
    """Take a turn for a wake that is due. *ring*: as for ``rest_over``."""

    def body(connection: Connection, failed: str | None) -> None:
        row = threads.lock_by_id(connection, shop, thread)
        rings = ring is None or ring(connection)
        if row and rings:
            take_turn(connection, deps.rulebook_of(shop), row, (event,), deps.clock(), failed)

    in_one_transaction(deps.engine, body)


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

    def body(connection: Connection, failed: str | None) -> Step | None:
        row = threads.lock_by_id(connection, shop, thread)
        if row is None:
            raise LookupError(f"shop {shop} has no thread {thread}")
        if isinstance(event, OfficeDid) and event.action in ("hold", "release"):
            holder = event.by if event.action == "hold" else None
            threads.hold(connection, thread, holder)
            row = replace(row, held_by=holder)
        step = take_turn(connection, deps.rulebook_of(shop), row, (event,), deps.clock(), failed)
        if also:
            also(connection, step)
        return step

    return in_one_transaction(deps.engine, body)


def open_ticket(deps: Deps, shop: str, number: str, gateway: str, event: OfficeDid) -> tuple[str, Step | None]:
    """A phoned-in ticket: the thread of *number* (made if new) takes the office's ``open``. Gives the thread's id."""

    def body(connection: Connection, failed: str | None) -> tuple[str, Step | None]:
        row = threads.lock_by_number(connection, shop, number, gateway, deps.clock())
        return row.id, take_turn(connection, deps.rulebook_of(shop), row, (event,), deps.clock(), failed)

    return in_one_transaction(deps.engine, body)


def _rest_s(deps: Deps, rulebook: Rulebook, row: ThreadRow, text: str, now: datetime) -> float | None:
    """How long the text waits for more of them, seconds; None for one that is taken at once."""
    busy, rest_s = deps.shares.exceeded(row.shop, now), rulebook.shop.policies.rest_s
    if (not busy and _never_rests(deps, rulebook, row)) or _at_once(rulebook, text):
        return None
    return SHOP_REST_S if busy else rest_s


def _never_rests(deps: Deps, rulebook: Rulebook, row: ThreadRow) -> bool:
    """Whether texts are taken as they come, as long as the shop keeps to its share."""
    known = deps.gateways.get(row.gateway)
    return rulebook.shop.policies.rest_s == 0 or (known is not None and known.answers_at_once)


def _at_once(rulebook: Rulebook, text: str) -> bool:
    reader = reader_for(rulebook)
    return bool(reader.hazards(text)) or reader.consent(text) is not None


def _let_rest(connection: Connection, row: ThreadRow, rest_s: float, now: datetime) -> None:
    rest = timedelta(seconds=rest_s)
    first = min((w.at for w in messages.waiting(connection, row.shop, row.id)), default=now)
    due = min(now + rest, first + rest * REST_CAP)
    wakes.set_wake(connection, shop=row.shop, thread=row.id, kind="rest", key=f"{row.id}:rest", due=due)
