"""Who goes on with a complaint that was closed, as mended or as a wrong number, is taken up where the talk was left."""

from __future__ import annotations

from service.conversation.matters import named
from service.conversation.passing import SETTLED_DAYS
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.wording.sentences import say

_OVER = frozenset(("fixed", "wrong_number", "spam", "cancel", "opt_out"))
"""Who says one of these means the close, or means it again."""
_WHERE = frozenset(("address", "postal_code"))
"""Nobody tells where to come who wants nobody to come."""
_GOES_ON = frozenset(
    ("report_problem", "book", "answer", "ask_price", "ask_warranty", "ask_status", "ask_help", "not_fixed")
)


def take(turn: Turn, reading: Reading) -> None:
    """Open the last complaint again where the text goes on with it though it was closed."""
    last = turn.state.tickets[-1] if turn.state.tickets else None
    if turn.open_tickets or last is None or not (_at_home(turn, last, reading) or _lately_closed(turn, last)):
        return
    elsewhere = {*reading.appliances} - {"unknown", last.appliance}
    if elsewhere or reading.hazards or _OVER & {*reading.intents} or not _goes_on(turn, last, reading):
        return
    turn.change(last.key, stage="listening", closed=None)
    turn.put(focus=last.key)
    turn.learned.add("answer")
    turn.because("heard", "They go on with what was closed: the ticket is open again.", ticket=last.key)


def _lately_closed(turn: Turn, last: TicketState) -> bool:
    ended = last.closed in ("settled_by_owner", "withdrawn") and last.appliance != "unknown"
    return ended and (turn.now - last.opened_at).days <= SETTLED_DAYS


def _at_home(turn: Turn, last: TicketState, reading: Reading) -> bool:
    """Whether a machine turned away as a business's is said to be at home."""
    refused = last.closed == "not_ours" and last.facts.get("use") == "commercial"
    told = named(turn.rulebook, "at_home", reading.text) is not None
    return refused and told and named(turn.rulebook, "business", reading.text) is None


def _goes_on(turn: Turn, last: TicketState, reading: Reading) -> bool:
    """Whether they tell where to come, or that it is at home; or anything at all right after a wrong number was heard."""
    if _at_home(turn, last, reading) or _WHERE & {*reading.facts}:
        return True
    told = reading.facts or reading.observations or reading.symptoms or reading.wish or _GOES_ON & {*reading.intents}
    mistaken = last.closed == "withdrawn" and _said_last(turn, "wrong_number")
    return mistaken and bool(told)


def _said_last(turn: Turn, id: str) -> bool:
    """Whether the last reply ended with the sentence *id*."""
    last = turn.state.last_reply or ""
    return any(last.endswith(say(turn.rulebook, language, id)) for language in ("en", "es"))
