"""A visit that stands, by text: another time, no visit any more, when it is. Nothing is dropped unasked."""

from __future__ import annotations

from datetime import timedelta

from service.conversation import premises
from service.conversation.ask import pose
from service.conversation.booking import ask_way_in
from service.conversation.closing import close
from service.conversation.matters import named
from service.conversation.merge import MACHINE_FACTS
from service.conversation.moving import asks_for_another_time, standing, time_wanted
from service.conversation.offering import offer
from service.conversation.people import call_person, reads_when
from service.conversation.state import TicketState
from service.conversation.step import CancelVisit
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.reading.model import Reading, Wish
from service.scheduling.wishes import binds

EXPECTED = timedelta(hours=1)
"""From this long before a window on, "where are you" is about the van and not about the time."""
AT_THE_DOOR = ("name", "access", "confirm:way_in")
"""What is asked of a visit that is booked; put again when another time is settled."""


def asked(turn: Turn, reading: Reading) -> bool:
    """Take a wish to change or drop a visit; True when that is this turn's matter."""
    ticket = standing(turn)
    if ticket is not None and ticket.visit is not None and asks_for_another_time(turn, reading):
        turn.put(focus=ticket.key)
        turn.because("heard", "They want another time for the visit.", ticket=ticket.key)
        _ask_again_later(turn, ticket)
        if named(turn.rulebook, "runs_late", reading.text) is not None and _binds(turn, ticket, reading) is None:
            return _runs_late(turn, ticket)
        offer(turn, ticket.key, time_wanted(turn, ticket.visit, reading))
        return True
    if ticket is not None and named(turn.rulebook, "runs_late", reading.text) is not None:
        return _runs_late(turn, ticket)
    if ticket is None and _of_no_visit(turn, reading):
        turn.tell("visit.not_found")
        turn.because("told", "They speak of a visit, and none stands under this number.")
        return True
    if "reschedule" in reading.intents:
        return False
    if "cancel" in reading.intents and "fixed" not in reading.intents:
        return _cancel(turn, ticket)
    return False


def _of_no_visit(turn: Turn, reading: Reading) -> bool:
    """Whether another time is wanted, or a day told of it, where nothing is complained of here."""
    if {"symptom", "appliance", "answer"} & turn.learned or any(t.appliance != "unknown" for t in turn.open_tickets):
        return False
    told = (turn.state.last_reply or "").endswith(turn.words("visit.not_found"))
    return "reschedule" in reading.intents or (told and reading.wish is not None)


def _binds(turn: Turn, ticket: TicketState, reading: Reading) -> Wish | None:
    """The time that is asked for instead, if the text says any."""
    wish = time_wanted(turn, ticket.visit, reading) if ticket.visit is not None else None
    return wish if binds(wish) else None


def _runs_late(turn: Turn, ticket: TicketState) -> bool:
    """They will not be home in time and name no other: only the office knows what the technician can do."""
    call_person(turn, "runs late for the visit", ticket=ticket.key)
    turn.tell("visit.late", when=reads_when(turn))
    return True


def _ask_again_later(turn: Turn, ticket: TicketState) -> None:
    """The open question about the door waits until the time is settled."""
    asked = turn.state.asked
    mark = f"{asked.kind}:{asked.code}" if asked is not None and asked.code else asked.kind if asked is not None else ""
    if mark in AT_THE_DOOR:
        turn.change(ticket.key, asked=tuple(a for a in ticket.asked if a != mark))


def _cancel(turn: Turn, ticket: TicketState | None) -> bool:
    if ticket is not None:
        pose(turn, "confirm", ticket=ticket.key, code="cancel")
        turn.because(
            "asked", "A visit is dropped only after a yes; STOP is mentioned since they may have meant that.", "T-A"
        )
        return True
    if "ticket" in turn.learned and len(turn.open_tickets) > 1:
        return _other_instead(turn)
    if turn.open_tickets:
        no_visit(turn, turn.open_tickets[0].key)
        return True
    turn.tell("cancel.nothing")
    return True


def _other_instead(turn: Turn) -> bool:
    """“forget that, the washer is worse”: what stood before is closed, the talk goes on with what is told now."""
    new = turn.open_tickets[-1]
    for old in turn.open_tickets[:-1]:
        close(turn, old.key, "withdrawn")
    turn.put(focus=new.key, asked=None)
    turn.answered = True
    return False


def no_visit(turn: Turn, key: str) -> None:
    """They want nobody to come: closed, and the way back told."""
    ticket = turn.the(key)
    close(turn, key, "declined" if ticket.offers or ticket.stage == "arranging" else "withdrawn")
    turn.tell("cancel.closed")


def confirmed(turn: Turn, reading: Reading) -> bool:
    """Take the answer to a yes-or-no of our own: drop the visit, same machine, same way in, still wanted."""
    open_one = turn.state.asked
    ticket = turn.state.ticket(open_one.ticket) if open_one else None
    if open_one is None or open_one.kind != "confirm" or ticket is None or not ticket.open:
        return False
    given = reading.answer.kind if reading.answer else None
    if given in ("dont_know", "declined"):
        given = "no"
    if "book" in reading.intents and open_one.code in (
        "cancel",
        "visit",
    ):  # "send someone" keeps the visit, whatever was asked
        given = "no" if open_one.code == "cancel" else "yes"
    if open_one.code == "cancel":
        given = "yes" if given is None and reading.intents == ("thanks",) else given
        return _cancel_answer(turn, ticket, given)
    if open_one.code == premises.USE:
        return premises.told(turn, ticket, reading)
    if open_one.code == "same_machine":
        return _same_machine(turn, ticket, given)
    if open_one.code == "way_in":
        return _way_in(turn, ticket, given, reading)
    if open_one.code == "visit":
        return _still_wanted(turn, ticket, given)
    return False


def _taken(turn: Turn) -> None:
    turn.answered = True
    turn.learned.add("answer")
    turn.put(asked=None)


def _cancel_answer(turn: Turn, ticket: TicketState, given: str | None) -> bool:
    if given not in ("yes", "no"):
        return False
    _taken(turn)
    if given == "no":
        turn.tell("cancel.kept", window=held_words(turn, ticket.visit) if ticket.visit else "")
        return True
    drop_visit(turn, ticket, "cancelled by the customer")
    works = any(r == "fixed" for r in ticket.checks.values()) or "works_again" in ticket.told
    for key in [
        t.key for t in turn.open_tickets if t.visit is not None and ticket.visit and t.visit.id == ticket.visit.id
    ]:
        close(turn, key, "settled_by_owner" if works else "withdrawn")
    turn.tell("cancel.done")
    return True


def drop_visit(turn: Turn, ticket: TicketState, why: str) -> None:
    """Take the ticket's visit out of the diary."""
    if ticket.visit is None:
        return
    turn.diary_changes.append(CancelVisit(visit=ticket.visit.id, why=why))
    turn.clear_wake(f"reminder:{ticket.visit.id}")
    turn.because(
        "booked", f"Took the visit of {held_words(turn, ticket.visit)} out of the diary: {why}.", visit=ticket.visit.id
    )


def _same_machine(turn: Turn, ticket: TicketState, given: str | None) -> bool:
    """Another machine of the kind starts without the old one's facts and history."""
    if given not in ("yes", "no"):
        return False
    _taken(turn)
    if given == "no":
        facts = {k: v for k, v in ticket.facts.items() if k not in MACHINE_FACTS}
        turn.change(ticket.key, earlier=None, facts=facts)
    turn.because("heard", "The same machine as before." if given == "yes" else "Another machine than before.")
    return False


def _way_in(turn: Turn, ticket: TicketState, given: str | None, reading: Reading) -> bool:
    if given == "no" and "access" not in turn.learned and len(reading.text.split()) < 3:
        _taken(turn)
        turn.put(contact=turn.state.contact.model_copy(update={"access": ()}))
        turn.change(ticket.key, asked=tuple(a for a in ticket.asked if a != "confirm:way_in"))
        ask_way_in(turn, ticket.key)
        return True
    if given is None and "access" not in turn.learned:
        return False
    _taken(turn)
    turn.tell("book.thanks", window=held_words(turn, ticket.visit) if ticket.visit else "")
    return True


def _still_wanted(turn: Turn, ticket: TicketState, given: str | None) -> bool:
    if given == "no":
        _taken(turn)
        no_visit(turn, ticket.key)
        return True
    _taken(turn)
    return False


def status(turn: Turn) -> None:
    """When we come; shortly before and from then on a person is told too, since only people know where a van is."""
    ticket = standing(turn)
    if ticket is None or ticket.visit is None:
        turn.tell("status.none")
        return
    visit = ticket.visit
    window = held_words(turn, visit)
    turn.tell("status.held" if visit.tentative else "status.visit", window=window)
    if turn.now >= visit.start - EXPECTED:
        call_person(turn, "asks where the technician is", ticket=ticket.key)
        turn.tell("status.today", when=reads_when(turn))
