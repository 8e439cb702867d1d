"""The water is shut off already: noted when they say so, and not asked for again."""

from __future__ import annotations

import re

from service.conversation.matters import named, words_before
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading

MARK = "water_off"
"""The mark on a ticket whose water they have shut off."""
_NEAR = 3
_NOT_DONE = frozenset((
    "no", "not", "havent", "hasnt", "didnt", "dont", "cant", "couldnt", "wont", "never", "nunca", "if", "si", "when", "should",
    "cuando", "before", "antes", "need", "isnt", "arent",
))  # fmt: skip
_SENTENCES = re.compile(r"(?<=\.) ")
_LEAD = re.compile(r"^[^:.]{2,24}: ")
"""A signal word or "until we come:" before the first sentence."""


def note(turn: Turn, reading: Reading) -> None:
    """Keep on the open complaints that the water is off, if the text says so."""
    said = named(turn.rulebook, MARK, reading.text)
    if said is None or _NOT_DONE & set(words_before(reading.text, said, _NEAR)):
        return
    for ticket in turn.open_tickets:
        if MARK not in ticket.told:
            turn.change(ticket.key, told=(*ticket.told, MARK))
            turn.because("heard", f'"{said}": the water is off, so that step is told no more.', ticket=ticket.key)


def left_to_do(turn: Turn, ticket: TicketState, text: str) -> str:
    """*text* without the sentences that ask for the water to be shut off, where it is off already."""
    if MARK not in ticket.told:
        return text
    found = _LEAD.match(text)
    lead = found.group() if found else ""
    kept = [s for s in _SENTENCES.split(text.removeprefix(lead)) if named(turn.rulebook, "shuts_water", s) is None]
    if not kept:
        return ""
    first = kept[0] if not lead or lead[1].isupper() else kept[0][:1].lower() + kept[0][1:]
    return lead + " ".join([first, *kept[1:]])
