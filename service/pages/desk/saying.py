"""What the customer wrote about one complaint, in their own words, for the top of its page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.conversation.state import Contact, TicketState
from service.pages.desk.talk import whole_texts
from service.storage.desk import HeardRow, TicketRow, TurnRow
from service.storage.outbox import Standing

MOST = 12
"""Texts shown at most: the first, and the latest of the others."""
TELLS = 3
"""A text tells something with as many words besides name, address and way in."""


@dataclass(frozen=True, slots=True)
class Said:
    """Their texts, oldest first. more: how many others of theirs stand in the conversation alone."""

    texts: tuple[str, ...] = ()
    more: int = 0


def said_of(
    row: TicketRow,
    ticket: TicketState,
    contact: Contact,
    heard: Sequence[HeardRow],
    replies: Sequence[Standing],
    turns: Mapping[str, TurnRow],
    turn_of: Mapping[str, str | None],
) -> Said:
    """All that tells of the complaint, what was said on the phone first. turn_of: as for ``build_talk``."""
    about: dict[str, set[str]] = {}
    for reply in replies:
        turn = turn_of.get(reply.id)
        if turn and reply.ticket:
            about.setdefault(turn, set()).add(reply.ticket)
    texts = [one.text.strip() for one in whole_texts(heard) if _belongs(one, row, turns, about) and one.text.strip()]
    written = {" ".join(text.split()) for text in texts}
    phoned = [said for said in ticket.words if not any(" ".join(said.split()) in text for text in written)]
    every = list(dict.fromkeys([*phoned, *texts]))
    known = [part.casefold() for part in (contact.address, contact.name, contact.postal_code, *contact.access) if part]
    telling = [text for place, text in enumerate(every) if place == 0 or _tells(text, known)]
    if len(telling) > MOST:
        telling = [telling[0], *telling[-(MOST - 1) :]]
    return Said(tuple(telling), len(every) - len(telling))


def _belongs(one: HeardRow, row: TicketRow, turns: Mapping[str, TurnRow], about: Mapping[str, set[str]]) -> bool:
    """Whether a text was written while the ticket was open, in a turn that was not answered about others alone."""
    turn = turns.get(one.turn or "")
    at = turn.at if turn else one.at
    if at < row.opened_at or (row.closed_at is not None and row.closed and at > row.closed_at):
        return False
    answered = about.get(one.turn or "", set())
    return not answered or row.id in answered


def _tells(text: str, known: Sequence[str]) -> bool:
    rest = text.casefold()
    for part in known:
        rest = rest.replace(part, " ")
    return len(rest.split()) >= TELLS
