"""Water that comes from the floor above: how to shut it is said before anything is asked."""

from __future__ import annotations

from service.conversation import water_off
from service.conversation.beside import told_sentences
from service.conversation.matters import named
from service.conversation.underway import Turn
from service.reading.model import Reading

LEAK, URGENT = "leak", "active_leak"
MARK = "leak:above"


def note(turn: Turn, reading: Reading) -> None:
    """Take water told between two floors for a leak that goes on: how to shut it, once; not what is over or was."""
    ticket = turn.state.in_focus
    rules = turn.rulebook.appliances.get(ticket.appliance) if ticket is not None else None
    if ticket is None or not ticket.open or ticket.visit is not None or MARK in ticket.told:
        return
    if water_off.MARK in ticket.told or (rules is not None and LEAK not in rules.symptoms) or not _told(turn, reading):
        return
    told = (*ticket.told, MARK, f"urgent:{URGENT}")
    urgency = tuple(dict.fromkeys([*ticket.urgency, URGENT]))
    turn.change(ticket.key, told=told, urgency=urgency)
    turn.tell("leak.above", signal=turn.words("signal.notice"))
    turn.because("told", "Water between two floors: how to shut it, before any question.", ticket=ticket.key)


def _told(turn: Turn, reading: Reading) -> bool:
    """Whether one sentence has water in it and another floor, and no word that it was long ago or is over."""
    if reading.hazards or LEAK in {s.code for s in reading.denied}:
        return False
    said = ". ".join(told_sentences(turn.rulebook, reading.text))
    if named(turn.rulebook, "leak_is_over", said) is not None:
        return False
    water = LEAK in {s.code for s in reading.symptoms} or named(turn.rulebook, "running_water", said) is not None
    return water and named(turn.rulebook, "between_floors", said) is not None
