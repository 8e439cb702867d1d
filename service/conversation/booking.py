"""A window accepted: booked or moved if it is still free, confirmed with all they need to know, reminded of in time."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta

from service.conversation import water_off
from service.conversation.ask import pose
from service.conversation.offering import diary, job_of, lapsed, local_offers, offer, together, visit_id
from service.conversation.state import TicketState, VisitHeld
from service.conversation.step import Book, Move
from service.conversation.summary import machine_words
from service.conversation.underway import Turn
from service.conversation.visit_words import fee_words, held_words
from service.scheduling.hours import next_quiet_end
from service.scheduling.model import Offer
from service.scheduling.offers import still_free

REMIND_BEFORE = timedelta(hours=20)
"""A reminder goes out this long before a visit, when texts may; none for a visit sooner than twice this from now."""

_VISITED = frozenset({"repaired", "not_worth_repair", "no_part", "no_access", "left_unsafe"})
"""How a complaint ends where somebody came."""


def accept(turn: Turn, lead: str, chosen: int, offered_at: datetime) -> None:
    """Book or move to the offer *chosen*; windows that lapsed or were taken meanwhile are offered anew."""
    ticket = turn.the(lead)
    keys = together(turn, lead)
    window = local_offers(turn, ticket)[chosen]
    moving = ticket.visit.id if ticket.visit else None
    free = still_free(turn.rulebook.shop, diary(turn), job_of(turn, keys), window, turn.now, moving=moving)
    if ticket.visit is not None and window.start == ticket.visit.start:
        keep(turn, lead)
    elif lapsed(turn, offered_at) and not free:
        offer(turn, lead, None, said="offer.lapsed")
    elif not free:
        turn.because("ruled_out", f"{ticket.offers[chosen].say} was taken meanwhile.")
        offer(turn, lead, None, said="offer.taken")
    elif ticket.visit is None:
        _book(turn, keys, window)
    else:
        _move(turn, keys, ticket.visit, window)


def _book(turn: Turn, keys: Sequence[str], window: Offer) -> None:
    tentative = turn.rulebook.shop.policies.autonomy == "hold"
    visit = VisitHeld(
        id=visit_id(turn, keys[0]), technician=window.technician, start=window.start, end=window.end,
        minutes=window.minutes, tentative=tentative,
    )  # fmt: skip
    contact = turn.state.contact
    turn.diary_changes.append(
        Book(
            visit=visit.id, tickets=tuple(keys), technician=visit.technician, start=visit.start, end=visit.end,
            minutes=visit.minutes, address=contact.address or "", postal_code=contact.postal_code or "",
            tentative=tentative,
        )
    )  # fmt: skip
    _stand(turn, keys, visit)
    turn.because("booked", f"Booked {held_words(turn, visit)} with {visit.technician}.", visit=visit.id)
    _confirm(turn, keys, visit)


def _move(turn: Turn, keys: Sequence[str], old: VisitHeld, window: Offer) -> None:
    visit = old.model_copy(
        update={"technician": window.technician, "start": window.start, "end": window.end, "version": old.version + 1}
    )
    turn.diary_changes.append(Move(visit=visit.id, technician=visit.technician, start=visit.start, end=visit.end))
    _stand(turn, keys, visit)
    turn.because("booked", f"Moved to {held_words(turn, visit)} with {visit.technician}.", visit=visit.id)
    turn.put(asked=None)
    turn.tell("book.moved_held" if visit.tentative else "book.moved", window=held_words(turn, visit))
    turn.needs_visit = (visit.id, visit.version)
    ask_way_in(turn, keys[0])


def keep(turn: Turn, lead: str) -> None:
    """No other time after all: the visit stays as it stands, and what is still to be asked of it is asked."""
    visit = turn.change(lead, offers=(), wish=None).visit
    turn.clear_wake(f"offer:{lead}")
    turn.put(asked=None)
    turn.tell("cancel.kept", window=held_words(turn, visit) if visit else "")
    turn.because("held", "The visit keeps the time it has.", ticket=lead)
    ask_way_in(turn, lead)


def _stand(turn: Turn, keys: Sequence[str], visit: VisitHeld) -> None:
    """The visit stands for *keys*: stages, wakes."""
    for key in keys:
        turn.change(key, visit=visit, stage="arranged", offers=(), wish=None)
        turn.clear_wake(f"offer:{key}")
    turn.put(asked=None)
    remind(turn, keys[0], visit)


def remind(turn: Turn, key: str, visit: VisitHeld) -> None:
    """Set the reminder of *visit*, or drop it where the visit is too near for one."""
    if visit.start - turn.now <= 2 * REMIND_BEFORE:
        turn.clear_wake(f"reminder:{visit.id}")
        return
    due = next_quiet_end(turn.rulebook.shop, visit.start - REMIND_BEFORE)
    turn.wake("reminder", f"reminder:{visit.id}", due, ticket=key, version=visit.version)


def _confirm(turn: Turn, keys: Sequence[str], visit: VisitHeld) -> None:
    """When, where, fee, what to have ready, how to get in; then what they can do meanwhile."""
    contact = turn.state.contact
    id = "book.held" if visit.tentative else "book.done"
    turn.tell(id, window=held_words(turn, visit), address=contact.address or "")
    turn.tell_own("shop.fees.say", fee_words(turn))
    turn.tell("book.ready", machine=machine_words(turn.rulebook, turn.the(keys[0]).appliance, turn.language))
    turn.needs_visit = (visit.id, visit.version)
    for ticket in [t for k in keys if (t := turn.the(k)).unsafe]:
        turn.tell("book.no_use", machine=machine_words(turn.rulebook, ticket.appliance, turn.language))
    meanwhile = _meanwhile(turn, [turn.the(k) for k in keys])
    for id, text in meanwhile:
        turn.tell_own(id, text)
    ask_way_in(turn, keys[0])


def ask_way_in(turn: Turn, key: str) -> bool:
    """
    Who to ask for and how to get in: each asked once; True when one was asked.

    What is on file is never repeated, only asked whether it still holds.
    """
    contact = turn.state.contact
    ticket = turn.the(key)
    if contact.name is None and "name" not in (*ticket.asked, *ticket.declined):
        pose(turn, "name", ticket=key)
        return True
    if {"access", "confirm:way_in"} & {*ticket.asked, *ticket.declined}:
        return False
    if contact.access and f"access:{key}" not in ticket.told:
        if not _were_there(turn):
            return False
        pose(turn, "confirm", ticket=key, code="way_in")
    else:
        pose(turn, "access", ticket=key)
    return True


def _were_there(turn: Turn) -> bool:
    """Whether somebody has been at their door before; else the way in was told lately, and nothing is "as last time"."""
    return any(t.closed in _VISITED or t.stage in ("visited", "deciding", "parts") for t in turn.state.tickets)


def finish(turn: Turn, answered: str) -> bool:
    """After a visit was booked: the next thing to know for the door; *answered* is the kind of question just answered."""
    ticket = turn.state.in_focus
    if ticket is None or ticket.visit is None or answered not in ("name", "access"):
        return False
    if not ask_way_in(turn, ticket.key):
        turn.tell("book.thanks", window=held_words(turn, ticket.visit))
    return True


def _meanwhile(turn: Turn, tickets: Sequence[TicketState]) -> list[tuple[str, str]]:
    """What they can safely do until we come, once per machine: the first entry that fits what is wrong."""
    told = []
    for ticket in tickets:
        rules = turn.rulebook.appliances.get(ticket.appliance)
        if rules is None or "meanwhile" in ticket.told or ticket.stop_use is not None:
            continue
        held = {code for code, said in ticket.symptoms.items() if said} | {c for g in ticket.one_of for c in g}
        fit = next((m for m in rules.basics.meanwhile if held & set(m.symptoms)), None)
        if fit is not None:
            turn.change(ticket.key, told=(*ticket.told, "meanwhile"))
            told.append((f"{rules.code}.meanwhile", water_off.left_to_do(turn, ticket, turn.own(fit.say))))
    return [(id, text) for id, text in told if text]
