"""What the office, the technician and the carrier do to a thread. The customer is told what concerns them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime, timedelta

from service.conversation.booking import remind
from service.conversation.closing import close
from service.conversation.events import DeliveryFailed, OfficeDid, TechnicianDid
from service.conversation.hear import open_ticket
from service.conversation.merge import GATHERED, MACHINE_FACTS, keep_words, observe, said_symptom
from service.conversation.office_closing import OfficeMistaken, close_ticket, reopen, ticket_of
from service.conversation.office_says import tell_deed
from service.conversation.state import TicketState, VisitHeld
from service.conversation.step import Alarm, Book, Move
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.conversation.visits import drop_visit
from service.conversation.waking import came_back
from service.diagnosis.model import NOT_LOOKED_AT
from service.scheduling.hours import next_quiet_end

FOLLOW_UP = timedelta(days=3)
"""How long after a repair we ask whether it holds."""
CONTACT = ("name", "address", "postal_code", "phone", "email", "payer")


def did(turn: Turn, event: OfficeDid) -> None:
    """
    Take one action of the office.

    data: book, move {technician, start, end, minutes, address, postal_code} (times as ISO text or datetimes; ``quiet``
    True tells the customer nothing) · cancel {why, quiet} · close {reason, cause} · hold {wrote} · correct {symptoms,
    observations, facts, contact, appliance, urgency} (None or empty takes a fact or contact back) · open {appliance, words,
    symptoms, facts, contact, language, hazards} · comes_back {earlier: the number of a ticket of another phone, empty to
    take it back} · reopen {ticket: its document, for one that the state has let go of}. Raises OfficeMistaken.
    """
    turn.kind = "started"
    actions: dict[str, Callable[[Turn, OfficeDid], None]] = {
        "book": _book, "move": _move, "cancel": _cancel, "close": close_ticket, "correct": _correct, "hold": _hold,
        "release": _release, "clear_danger": _clear_danger, "person_done": _person_done, "open": _open,
        "comes_back": _comes_back, "reopen": reopen,
    }  # fmt: skip
    actions[event.action](turn, event)
    turn.because("told", f"{event.by} of the office: {event.action.replace('_', ' ')}.", ticket=event.ticket)


def _when(event: OfficeDid, name: str) -> datetime:
    value = event.data.get(name)
    moment = datetime.fromisoformat(value) if isinstance(value, str) else value
    if not isinstance(moment, datetime) or moment.tzinfo is None:
        raise OfficeMistaken(f"{event.action}: {name} must be a time with its zone, not {value!r}.")
    return moment


def _text(data: Mapping[str, object], name: str) -> str | None:
    value = data.get(name)
    return value if isinstance(value, str) and value else None


def _book(turn: Turn, event: OfficeDid) -> None:
    """Book as the office says; with a tentative visit standing, this confirms it."""
    ticket = ticket_of(turn, event)
    if ticket.visit is not None:
        _move(turn, event)
        return
    technician = _text(event.data, "technician")
    if technician is None:
        raise OfficeMistaken("book: a technician is needed; give one of the shop's.")
    _contact(turn, event.data)
    contact = turn.state.contact
    minutes = event.data.get("minutes")
    visit = VisitHeld(
        id=f"{turn.thread}-{ticket.key}-{turn.number}", technician=technician, start=_when(event, "start"),
        end=_when(event, "end"), minutes=minutes if isinstance(minutes, int) else 60,
    )  # fmt: skip
    turn.diary_changes.append(
        Book(
            visit=visit.id, tickets=(ticket.key,), technician=technician, start=visit.start, end=visit.end,
            minutes=visit.minutes, address=contact.address or "", postal_code=contact.postal_code or "",
        )
    )  # fmt: skip
    _stand(turn, ticket, visit)
    tell_deed(turn, event, "office.booked", needs_visit=(visit.id, visit.version), window=held_words(turn, visit))


def _move(turn: Turn, event: OfficeDid) -> None:
    ticket = ticket_of(turn, event)
    old = ticket.visit
    if old is None:
        raise OfficeMistaken("move: no visit stands for this ticket; book one.")
    start = _when(event, "start") if "start" in event.data else old.start
    end = _when(event, "end") if "end" in event.data else old.end
    technician = _text(event.data, "technician") or old.technician
    visit = old.model_copy(
        update={"technician": technician, "start": start, "end": end, "version": old.version + 1, "tentative": False}
    )
    turn.diary_changes.append(Move(visit=visit.id, technician=technician, start=start, end=end))
    for other in [t for t in turn.open_tickets if t.visit is not None and t.visit.id == visit.id]:
        _stand(turn, other, visit)
    told = "office.confirmed" if old.tentative and old.start == start else "office.moved"
    tell_deed(turn, event, told, needs_visit=(visit.id, visit.version), window=held_words(turn, visit))


def _stand(turn: Turn, ticket: TicketState, visit: VisitHeld) -> None:
    turn.change(ticket.key, visit=visit, stage="arranged", offers=(), ready=True)
    turn.clear_wake(f"offer:{ticket.key}")
    turn.clear_wake(f"quiet_close:{ticket.key}")
    turn.put(asked=None)
    remind(turn, ticket.key, visit)


def _cancel(turn: Turn, event: OfficeDid) -> None:
    ticket = ticket_of(turn, event)
    visit = ticket.visit
    drop_visit(turn, ticket, _text(event.data, "why") or "cancelled by the office")
    for other in [t for t in turn.open_tickets if visit is not None and t.visit is not None and t.visit.id == visit.id]:
        turn.change(other.key, visit=None, stage="arranging", offers=())
    if visit is not None:
        tell_deed(turn, event, "office.cancelled", window=held_words(turn, visit))


def _correct(turn: Turn, event: OfficeDid) -> None:
    """Put right what was read: the office's word stands over the reader's."""
    ticket = ticket_of(turn, event)
    data = event.data
    if appliance := _text(data, "appliance"):
        turn.change(ticket.key, appliance=appliance)
    _take_over(turn, ticket.key, data)


def _take_over(turn: Turn, key: str, data: Mapping[str, object]) -> None:
    for code, said in _map(data, "symptoms").items():
        if said is None:
            left = {c: v for c, v in turn.the(key).symptoms.items() if c != code}
            turn.change(key, symptoms=left)
        else:
            said_symptom(turn, key, code, said=bool(said))
    for id, value in _map(data, "observations").items():
        if value is None:
            left_seen = {c: v for c, v in turn.the(key).observations.items() if c != id}
            turn.change(key, observations=left_seen)
        else:
            observe(turn, key, id, str(value))
    facts = dict(turn.the(key).facts)
    for name, value in _map(data, "facts").items():
        if value is None or value == "":
            facts.pop(name, None)
        elif name in GATHERED:
            facts[name] = tuple(map(str, value)) if isinstance(value, list | tuple) else (str(value),)
        elif name in MACHINE_FACTS:
            facts[name] = float(value) if isinstance(value, int | float) else str(value)
    turn.change(key, facts=facts)
    urgency = data.get("urgency")
    if isinstance(urgency, list | tuple):
        turn.change(key, urgency=tuple(map(str, urgency)))
    contact = _map(data, "contact")
    cleared = {name: None for name in CONTACT if name in contact and not contact[name]}
    turn.put(contact=turn.state.contact.model_copy(update=cleared))
    _contact(turn, contact)
    turn.new_symptoms.clear()


def _map(data: Mapping[str, object], name: str) -> Mapping[str, object]:
    value = data.get(name)
    return value if isinstance(value, Mapping) else {}


def _contact(turn: Turn, data: Mapping[str, object]) -> None:
    told: dict[str, object] = {name: data[name] for name in CONTACT if isinstance(data.get(name), str) and data[name]}
    access = data.get("access")
    if isinstance(access, list | tuple):
        told["access"] = tuple(map(str, access))
    if told:
        turn.put(contact=turn.state.contact.model_copy(update=told))


def _hold(turn: Turn, event: OfficeDid) -> None:
    """A person takes over; with their own words (``wrote``) they answer what a person was asked for."""
    turn.clear_wake("silence")
    if event.data.get("wrote"):
        for ticket in turn.open_tickets:
            own = event.ticket in (None, ticket.key) and ticket.stage not in ("visited", "deciding", "parts")
            if own and ticket.needs_person and not ticket.needs_person.startswith("danger"):
                turn.change(ticket.key, needs_person=None)


def _release(turn: Turn, _event: OfficeDid) -> None:
    turn.put(person_asked=False, misread=0, repeats=0, heard_again=0)


def _clear_danger(turn: Turn, event: OfficeDid) -> None:
    """A person has made sure: the line may speak of the machine again, owner checks stay off for a fault not to be run."""
    for ticket in turn.open_tickets:
        if ticket.hazards and (event.ticket is None or event.ticket == ticket.key):
            turn.change(ticket.key, hazards_cleared=True, needs_person=None)
    held = turn.state.danger
    if held is not None and (event.ticket is None or event.ticket == held.ticket):
        turn.put(danger=None, asked=None)
    turn.clear_wake("danger_check")


def _person_done(turn: Turn, event: OfficeDid) -> None:
    turn.put(person_asked=False, misread=0, repeats=0, heard_again=0)
    for ticket in turn.open_tickets:
        if event.ticket is None or event.ticket == ticket.key:
            keeps = "person.takes"
            turn.change(ticket.key, needs_person=None, told=tuple(t for t in ticket.told if t != keeps))


def _open(turn: Turn, event: OfficeDid) -> None:
    """A phoned-in ticket, typed by the office; nothing is sent. A danger named on the phone ends owner checks as a text's."""
    language = event.data.get("language")
    if language in ("en", "es"):
        turn.put(language=language)
    key = open_ticket(turn, _text(event.data, "appliance") or "unknown")
    _take_over(turn, key, event.data)
    if words := _text(event.data, "words"):
        keep_words(turn, key, (words,))
    named = event.data.get("hazards")
    if isinstance(named, list | tuple):
        turn.change(key, hazards=tuple(str(code) for code in named if code in turn.rulebook.dangers))
    turn.put(focus=key)


def _comes_back(turn: Turn, event: OfficeDid) -> None:
    """A person knows it for the same fault as a ticket of another number; the customer is told nothing."""
    ticket = ticket_of(turn, event)
    turn.change(ticket.key, earlier=_text(event.data, "earlier"))


def technician(turn: Turn, event: TechnicianDid) -> None:
    """An outcome: the ticket ends repaired, waits for a part or another visit, or is for the office to decide."""
    ticket = turn.state.ticket(event.ticket)
    if ticket is None:
        raise OfficeMistaken(f"outcome: this thread has no ticket {event.ticket!r}.")
    if ticket.visit is not None:
        turn.clear_wake(f"reminder:{ticket.visit.id}")
    if event.fixed and not event.returning:
        close(turn, ticket.key, "repaired", cause=event.found)
        if not came_back(turn, turn.the(ticket.key)):
            due = next_quiet_end(turn.rulebook.shop, turn.now + FOLLOW_UP)
            turn.wake("follow_up", f"follow_up:{ticket.key}", due, ticket=ticket.key)
    else:
        stage = "parts" if event.returning else "deciding"
        why = (
            event.why or "the technician comes back" if event.returning else event.why or "not fixed: decide what next"
        )
        cause = ticket.cause_found if event.found == NOT_LOOKED_AT else event.found
        turn.change(ticket.key, stage=stage, visit=None, cause_found=cause, needs_person=why[:190])
    turn.because(
        "heard", f"{event.by} found {event.found}; {'fixed' if event.fixed else 'not fixed yet'}.", event.found
    )


def undelivered(turn: Turn, event: DeliveryFailed) -> None:
    """A reply did not arrive for good; an undelivered danger is told at once, also after hours."""
    kind = "the danger instruction" if event.danger else "a reply"
    text = f"Could not deliver {kind}: reach them another way."
    ticket = turn.state.danger.ticket if event.danger and turn.state.danger else turn.state.focus
    turn.alarms.append(
        Alarm(kind="danger" if event.danger else "undelivered", ticket=ticket, text=text, on_call=event.danger)
    )
    turn.because("told", text)
