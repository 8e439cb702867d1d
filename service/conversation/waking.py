"""Wakes: silence, a ticket gone quiet, offers that expire, reminders, a word after a repair, a danger nobody answers."""

from __future__ import annotations

from datetime import timedelta

from service.conversation.ask import again, pose
from service.conversation.closing import close
from service.conversation.events import Woke
from service.conversation.state import TicketState
from service.conversation.step import Alarm
from service.conversation.summary import machine_words
from service.conversation.underway import Turn
from service.conversation.visit_words import held_words
from service.scheduling.hours import next_quiet_end

PATIENT = 3
"""Somebody else must act (an installer comes back): silence is this many times as long before we ask."""


def woke(turn: Turn, event: Woke) -> None:
    """Take one wake; one that no longer fits what it was set for is dropped with its reason."""
    handlers = {
        "silence": _silence, "quiet_close": _quiet_close, "offer_expired": _offer_expired, "reminder": _reminder,
        "follow_up": _follow_up, "danger_check": _danger_check,
    }  # fmt: skip
    turn.kind = "started"
    handler = handlers.get(event.kind)
    stale = handler(turn, event) if handler else f"nothing is done on a wake of kind {event.kind}"
    if stale:
        turn.because("held", f"Wake {event.kind} dropped: {stale}.", event.kind)


def _silent(turn: Turn) -> str | None:
    """Why we start no text now, or None when we may."""
    if turn.state.consent == "out":
        return "they opted out"
    return "a person holds the thread" if turn.held else None


def _silence(turn: Turn, _event: Woke) -> str | None:
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked else None
    stale = _silent(turn)
    if stale:
        return stale
    if asked is None or turn.state.nudged or turn.state.person_asked or turn.state.danger is not None:
        return "no question of ours waits for an answer"
    if ticket is not None and not ticket.open:
        return "the ticket is closed"
    if asked.kind in ("name", "access", "confirm") and ticket is not None and ticket.visit is not None:
        return "the visit stands without the answer"
    turn.put(nudged=True)
    if asked.kind == "offer" and ticket is not None:
        pose(turn, "confirm", ticket=ticket.key, code="visit", tries=2)
    else:
        again(turn, lead="silence.danger" if asked.code in turn.rulebook.dangers else "silence.nudge")
    turn.put(nudged=True)
    turn.because("asked", "No answer so far: asked once more, and never a third time.")
    return None


def _quiet_close(turn: Turn, event: Woke) -> str | None:
    ticket = turn.state.ticket(event.ticket)
    if ticket is None or not ticket.open:
        return "the ticket is closed already"
    if ticket.visit is not None or ticket.needs_person is not None or ticket.unsafe:
        return "a visit, a person or a danger keeps the ticket open"
    close(turn, ticket.key, "gone_quiet")
    return None


def _offer_expired(turn: Turn, event: Woke) -> str | None:
    ticket = turn.state.ticket(event.ticket)
    if ticket is None or not ticket.open or not ticket.offers:
        return "the offers are gone already"
    turn.change(ticket.key, offers=())
    asked = turn.state.asked
    if asked is not None and asked.kind == "offer" and asked.ticket == ticket.key:
        renewed = asked.model_copy(update={"kind": "confirm", "code": "visit", "choices": ()})
        turn.put(asked=renewed)
    turn.because(
        "offered", "The windows offered have lapsed; new ones are offered when they answer.", ticket=ticket.key
    )
    return None


def _reminder(turn: Turn, event: Woke) -> str | None:
    ticket = turn.state.ticket(event.ticket)
    if ticket is None or not ticket.open or ticket.visit is None:
        return "no visit stands any more"
    if ticket.visit.version != event.version:
        return "the visit has moved since"
    if turn.now >= ticket.visit.start:
        return "the visit has begun"
    stale = _silent(turn)
    if stale:
        return stale
    turn.tell("remind.visit", window=held_words(turn, ticket.visit))
    turn.needs_visit = (ticket.visit.id, ticket.visit.version)
    turn.because("told", "Reminded of the visit.", ticket=ticket.key)
    return None


def _follow_up(turn: Turn, event: Woke) -> str | None:
    """One word after a repair; never to somebody who came back with the same fault or declined."""
    ticket = turn.state.ticket(event.ticket)
    if ticket is None or ticket.stage != "closed" or ticket.closed != "repaired":
        return "the ticket did not end in a repair"
    if came_back(turn, ticket):
        return "the same fault came back: nobody asks whether it still works"
    stale = _silent(turn)
    if stale or turn.open_tickets:
        return stale or "another complaint is open"
    machine = machine_words(turn.rulebook, ticket.appliance, turn.language)
    turn.tell("follow_up", machine=machine)
    turn.because("told", "One word after the repair: where to write if it does not hold.", ticket=ticket.key)
    return None


def came_back(turn: Turn, ticket: TicketState) -> bool:
    """Whether *ticket* is itself a comeback, or one came back from it."""
    return ticket.earlier is not None or any(t.earlier == ticket.key for t in turn.state.tickets)


def _danger_check(turn: Turn, _event: Woke) -> str | None:
    """Nobody answered the instruction: the office hears of it again. The customer is left alone."""
    held = turn.state.danger
    if held is None or held.answered:
        return "they have answered, or a person has cleared it"
    codes = ", ".join(c.replace("_", " ") for c in held.codes)
    text = f"No answer since the danger instruction ({codes}). Reach them another way."
    turn.alarms.append(Alarm(kind="danger", ticket=held.ticket, text=text, on_call=True))
    turn.because("told", text)
    return None


def set_waiting(turn: Turn) -> None:
    """At the end of a turn: wake on silence while a question of ours is open, and on a ticket gone quiet."""
    policies, shop = turn.rulebook.shop.policies, turn.rulebook.shop
    asked = turn.state.asked
    waits = asked is not None and not turn.state.nudged and turn.state.danger is None and turn.state.consent == "in"
    if waits and asked is not None and not turn.held and not turn.state.person_asked:
        hours = policies.silence_h * (PATIENT if _somebody_else_acts(turn) else 1)
        turn.wake("silence", "silence", next_quiet_end(shop, turn.now + timedelta(hours=hours)), ticket=asked.ticket)
    elif not turn.state.nudged:
        turn.clear_wake("silence")
    for ticket in turn.open_tickets:
        if ticket.visit is None:
            due = turn.now + timedelta(days=policies.quiet_close_days)
            turn.wake("quiet_close", f"quiet_close:{ticket.key}", due, ticket=ticket.key)


def _somebody_else_acts(turn: Turn) -> bool:
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked else None
    if asked is None or ticket is None or asked.kind != "check_result":
        return False
    rules = turn.rulebook.appliances.get(ticket.appliance)
    check = rules.checks.get(asked.code or "") if rules else None
    return check is not None and check.fixed_elsewhere is not None
