"""Texts to a Reading, in the light of the open question and the machine under discussion."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from service.conversation.events import Texted
from service.conversation.state import State, TicketState
from service.conversation.underway import Reads
from service.reading import model
from service.reading.model import Reading

STALE = timedelta(days=365)
"""A number silent for this long may have a new owner: it is told nothing that was kept."""


def listen(reader: Reads, state: State, texts: Sequence[Texted]) -> Reading:
    """What *texts* say; they rested together, oldest first. A year of purchase counts to the year they wrote in."""
    year = texts[-1].at.year
    asked, about = open_question(state), under_discussion(state)
    media = sum(t.media for t in texts)
    words = [t.text for t in texts if t.text.strip()]
    if len(words) > 1:
        return reader.read_together(words, media=media, asked=asked, about=about, this_year=year)
    return reader.read(words[0] if words else "", media=media, asked=asked, about=about, this_year=year)


def open_question(state: State) -> model.Asked | None:
    """The open question as the reader takes it."""
    asked = state.asked
    if asked is None:
        return None
    ticket = state.ticket(asked.ticket)
    choices = tuple(model.Choice(value, say) for value, say in asked.choices)
    if asked.kind == "offer":
        return model.Asked("offer", appliance=_appliance(ticket), offers=tuple(c.say for c in choices))
    return model.Asked(asked.kind, appliance=_appliance(ticket), code=asked.code, choices=choices)


def under_discussion(state: State) -> str | None:
    """The machine that "it" stands for: the ticket in focus, else the last one, though it is closed."""
    ticket = state.in_focus or (state.tickets[-1] if state.tickets else None)
    return _appliance(ticket)


def _appliance(ticket: TicketState | None) -> str | None:
    return ticket.appliance if ticket is not None and ticket.appliance != "unknown" else None
