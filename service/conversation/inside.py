"""A machine that mostly is a part of a larger one: which is meant is asked before the shop turns it away."""

from __future__ import annotations

import re

from service.conversation.ask import INSIDE, pose
from service.conversation.hear import rename
from service.conversation.matters import named
from service.conversation.passing import leave_for_later
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.machines.belonging import PART_OF
from service.reading.model import Reading
from service.reading.words.normalising import fold


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


LONGEST = 8
"""A text of more words says more than which machine is meant."""
_AS_WELL = frozenset(("too", "also", "both", "either", "tambien", "tampoco", "ambos", "ambas"))
"""“no the freezer is warm too”: both parts of one machine are told of."""


def part_meant(turn: Turn, reading: Reading) -> bool:
    """“no its the freezer”, of a refrigerator: whether it is inside that or one of its own is asked once."""
    ticket = turn.state.in_focus
    if ticket is None or not ticket.open or ticket.visit is not None or f"appliance:{INSIDE}" in ticket.asked:
        return False
    served = turn.rulebook.shop.serves
    for part, wholes in PART_OF.items():
        if ticket.appliance not in wholes or part not in served or len(reading.text.split()) > LONGEST:
            continue
        if named(turn.rulebook, f"{part}_instead", reading.text) is None or turn.answered:
            continue
        if not _AS_WELL.isdisjoint(re.findall(r"\w+", fold(reading.text))):
            continue
        if named(turn.rulebook, f"{part}_alone", reading.text) is not None:
            rename(turn, ticket, part)
            return False
        leave_for_later(turn)
        pose(turn, "appliance", ticket=ticket.key, code=INSIDE, choices=(ticket.appliance, part), counts=True)
        turn.because("asked", f"They mean the {part}: inside the {ticket.appliance}, or one of its own?")
        return True
    return False


def take(turn: Turn, reading: Reading) -> None:
    """Take the answer to which is meant: the complaint goes to the larger machine, or stays and is turned away."""
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked and asked.kind == "appliance" and asked.code == INSIDE else None
    given = reading.answer
    if asked is None or ticket is None:
        return
    whole, part = asked.choices[0][0], asked.choices[-1][0]
    alone = named(turn.rulebook, f"{part}_alone", reading.text) is not None
    if given is None and not alone:
        return
    meant = given.value if given is not None and given.kind in ("value", "choice") else None
    if alone:
        meant = part
    elif given is not None and given.kind == "dont_know":
        meant = whole  # most are: the technician sees
    if meant in (whole, part) and meant is not None and meant != ticket.appliance:
        rename(turn, ticket, meant, said_wrong=False)
    if meant is not None or (given is not None and given.kind == "none"):
        turn.answered = True
        turn.learned.add("answer")
        turn.put(asked=None)
