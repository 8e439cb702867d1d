"""A visit in words: its window, its fee, the month of an earlier one."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from service.conversation.state import TicketState, VisitHeld
from service.conversation.underway import Turn
from service.scheduling.words import fee_words as in_dollars
from service.scheduling.words import window_words
from service.wording.segments import plain
from service.wording.sentences import fill


def visit_words(turn: Turn, ticket: TicketState | None) -> str:
    """The window of the ticket's visit, "Thu 4 Dec, 1 to 3 pm"; empty without a visit."""
    return held_words(turn, ticket.visit) if ticket is not None and ticket.visit is not None else ""


def held_words(turn: Turn, visit: VisitHeld) -> str:
    """The window of *visit* in the shop's time and their language."""
    zone = ZoneInfo(turn.rulebook.shop.timezone)
    words = window_words(visit.start.astimezone(zone), visit.end.astimezone(zone), turn.language, turn.now)
    return plain(words, turn.language, turn.rulebook.shop.policies.spanish)


def earlier_month(turn: Turn, ticket: TicketState | None) -> str:
    """The month of the complaint that *ticket* comes back from, "March"; empty when there is none."""
    earlier = turn.state.ticket(ticket.earlier) if ticket is not None else None
    if earlier is None:
        return ""
    return turn.words(f"month.{earlier.opened_at.astimezone(ZoneInfo(turn.rulebook.shop.timezone)).month}")


def fee_words(turn: Turn) -> str:
    """The one sentence the shop says of its fee; no other price is ever stated."""
    fees = turn.rulebook.shop.fees
    return fill(turn.own(fees.say), {"fee": in_dollars(fees.visit_cents)}, "the shop's file, fees.say")
