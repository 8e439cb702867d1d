"""The end of a ticket: closed with a reason, its wakes dropped, the focus on what is still open."""

from __future__ import annotations

from service.conversation.state import ClosedReason, State
from service.conversation.underway import Turn

KEPT_CLOSED = 3
"""Closed tickets a state holds on to; older ones are rows only."""


def close(turn: Turn, key: str, why: ClosedReason, *, cause: str | None = None) -> None:
    """Close ticket *key*; *cause* is what was found, if anything was."""
    ticket = turn.the(key)
    found = cause or ticket.cause_found
    turn.change(key, stage="closed", closed=why, offers=(), visit=None, ready=False, cause_found=found)
    turn.clear_wake(f"offer:{key}")
    turn.clear_wake(f"quiet_close:{key}")
    if turn.state.asked and turn.state.asked.ticket in (key, None):
        turn.put(asked=None)
    left = [t for t in turn.state.tickets if t.open]
    turn.put(focus=left[0].key if left else key)
    if not left:
        turn.clear_wake("silence")
    if turn.state.danger and turn.state.danger.ticket == key:
        turn.put(danger=None)
    turn.because("told", f"Ticket {key} closed: {why.replace('_', ' ')}.", ticket=key, cause=found)


def pruned(state: State) -> State:
    """*state* without closed tickets beyond the last few: the document stays bounded."""
    closed = [t.key for t in state.tickets if not t.open]
    gone = set(closed[:-KEPT_CLOSED]) if len(closed) > KEPT_CLOSED else set()
    if not gone:
        return state
    tickets = tuple(t for t in state.tickets if t.key not in gone)
    focus = state.focus if state.focus not in gone else (tickets[-1].key if tickets else None)
    return state.model_copy(update={"tickets": tickets, "focus": focus})
