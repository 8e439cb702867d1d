"""A machine that mostly is a part of a larger one: which is meant is asked before the shop turns it away."""

from __future__ import annotations

from service.conversation.ask import INSIDE, pose
from service.conversation.hear import rename
from service.conversation.matters import named
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.machines.belonging import PART_OF
from service.reading.model import Reading


def ask_which(turn: Turn, ticket: TicketState) -> bool:
    """Ask once whether the machine of *ticket*, which the shop does not serve, is inside one that it does, where not told."""
    serves = turn.rulebook.shop.serves
    larger = [a for a in PART_OF.get(ticket.appliance, ()) if a in serves]
    if ticket.appliance in serves or not larger or f"appliance:{INSIDE}" in ticket.asked:
        return False
    if any(named(turn.rulebook, f"{ticket.appliance}_alone", said) for said in ticket.words):
        return False
    pose(turn, "appliance", ticket=ticket.key, code=INSIDE, choices=(larger[0], ticket.appliance), counts=True)
    turn.because("asked", f"A {ticket.appliance} is not ours, one inside a {larger[0]} is: which is meant?")
    return True


def take(turn: Turn, reading: Reading) -> None:
    """Take the answer to which is meant: the complaint goes to the larger machine, or stays and is turned away."""
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked and asked.kind == "appliance" and asked.code == INSIDE else None
    given = reading.answer
    if asked is None or ticket is None:
        return
    alone = named(turn.rulebook, f"{ticket.appliance}_alone", reading.text) is not None
    if given is None and not alone:
        return
    meant = given.value if given is not None and given.kind in ("value", "choice") else None
    if alone:
        meant = ticket.appliance
    elif given is not None and given.kind == "dont_know":
        meant = asked.choices[0][0]  # most are: the technician sees
    if meant is not None and meant in PART_OF.get(ticket.appliance, ()):
        rename(turn, ticket, meant, said_wrong=False)
    if meant is not None or (given is not None and given.kind == "none"):
        turn.answered = True
        turn.learned.add("answer")
        turn.put(asked=None)
