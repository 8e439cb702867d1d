"""A ticket ended by the office, and taken up again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast, get_args

from service.conversation.closing import close
from service.conversation.events import OfficeDid
from service.conversation.state import ClosedReason, DangerHeld, TicketState
from service.conversation.underway import Turn
from service.conversation.visits import drop_visit


class OfficeMistaken(ValueError):
    """The office's action lacks something it needs; the text says what and the remedy."""


def ticket_of(turn: Turn, event: OfficeDid) -> TicketState:
    """The ticket that the office acts on, else the one in focus. Raises OfficeMistaken."""
    key = event.ticket or turn.state.focus
    ticket = turn.state.ticket(key)
    if ticket is None:
        raise OfficeMistaken(f"{event.action}: this thread has no ticket {key!r}; name one of its tickets.")
    return ticket


def close_ticket(turn: Turn, event: OfficeDid) -> None:
    """Close it for a reason; its visit is given up."""
    reason, cause = event.data.get("reason"), event.data.get("cause")
    if reason not in get_args(ClosedReason):
        raise OfficeMistaken(f"close: {reason!r} is no reason; use one of {', '.join(get_args(ClosedReason))}.")
    ticket = ticket_of(turn, event)
    drop_visit(turn, ticket, f"closed by the office: {reason}")
    close(turn, ticket.key, cast(ClosedReason, reason), cause=cause if isinstance(cause, str) and cause else None)
    turn.change(ticket.key, needs_person=None)


def reopen(turn: Turn, event: OfficeDid) -> None:
    """
    Take a closed ticket up again where the talk stood; nothing is sent.

    A danger that nobody had cleared stands again: no owner check and no window until a person has cleared it.
    """
    ticket = _held_or_given(turn, event)
    if ticket.open:
        raise OfficeMistaken(f"reopen: ticket {ticket.key} is open already.")
    said = any(ticket.symptoms.values()) or bool(ticket.one_of)
    turn.change(ticket.key, stage="narrowing" if said else "listening", closed=None, needs_person="opened again")
    turn.put(focus=ticket.key)
    turn.clear_wake(f"follow_up:{ticket.key}")
    if ticket.hazards and not ticket.hazards_cleared:
        named = "danger: " + ", ".join(code.replace("_", " ") for code in ticket.hazards)
        turn.change(ticket.key, needs_person=named)
        if turn.state.danger is None:  # a person has it in hand: the line does not ask after it any more
            held = DangerHeld(
                codes=ticket.hazards, at=turn.now, ticket=ticket.key, asked_after=True, answered=True, handed_over=True
            )
            turn.put(danger=held, asked=None)


def _held_or_given(turn: Turn, event: OfficeDid) -> TicketState:
    """The ticket as the state holds it, else as its row does: the state lets go of what was closed long ago."""
    given = event.data.get("ticket")
    if turn.state.ticket(event.ticket) is None and isinstance(given, Mapping):
        turn.put(tickets=(TicketState.model_validate(given), *turn.state.tickets))
    return ticket_of(turn, event)
