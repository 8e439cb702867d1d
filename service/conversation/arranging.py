"""What a visit still needs, and what becomes of the windows that were offered."""

from __future__ import annotations

from collections.abc import Sequence
from zoneinfo import ZoneInfo

from service.conversation.ask import again, pose
from service.conversation.booking import accept, keep
from service.conversation.fit import turn_away
from service.conversation.hours_told import is_limit
from service.conversation.matters import named
from service.conversation.moving import asks_for_another_time, beside_offers, time_wanted
from service.conversation.offering import kept_wish, local_offers, offer, offer_alone
from service.conversation.people import call_person, reads_when, settle_warranty
from service.conversation.state import TicketState
from service.conversation.underway import Said, Turn
from service.conversation.visits import no_visit
from service.reading.model import Reading, Wish
from service.scheduling.accept import which_offer
from service.scheduling.model import Offer
from service.scheduling.wishes import binds, lay

_WARRANTIES = ("maker_warranty", "home_warranty")
ENOUGH = 2
"""As often as one thing needed for a visit is asked for; then a person takes it."""


def arrange(turn: Turn, keys: Sequence[str]) -> None:
    """Ask for what a visit still needs, then offer windows. keys: tickets one visit is for, the leading one first."""
    lead = turn.the(keys[0])
    turn.put(focus=lead.key)
    for key in keys:
        turn.change(key, stage="arranging")
    missing = _missing(turn)
    if missing is not None:
        _ask_for(turn, lead, missing)
        return
    if turn_away(turn, turn.the(lead.key)):
        return
    wishes = (turn.the(key).wish for key in keys)
    offer(turn, lead.key, kept_wish(next((wish for wish in wishes if wish is not None), None)))


def _missing(turn: Turn) -> str | None:
    contact = turn.state.contact
    if not contact.postal_code:
        return "postal_code" if contact.address else "address_zip"
    return None if contact.address else "address"


def _ask_for(turn: Turn, lead: TicketState, missing: str) -> None:
    kind = "address" if missing == "address_zip" else missing
    mark = f"needs:{missing}"
    times = sum(1 for t in lead.told if t == mark)
    if times >= ENOUGH or kind in lead.declined:
        if "person.takes" not in lead.told:
            call_person(turn, f"a visit is wanted and the {kind.replace('_', ' ')} is missing", ticket=lead.key)
            turn.change(lead.key, told=(*lead.told, "person.takes"))
        turn.tell("person.takes", when=reads_when(turn))
        return
    turn.change(lead.key, told=(*lead.told, mark))
    if missing == "address":
        pose(turn, "address", ticket=lead.key)
    elif missing == "address_zip":
        pose(turn, "address", ticket=lead.key, code="zip")
    else:
        pose(turn, "postal_code", ticket=lead.key)
    turn.because("asked", f"A visit needs the {kind.replace('_', ' ')}.")


def answer(turn: Turn, reading: Reading) -> bool:
    """Take the answer to offered windows, and say what becomes of a warranty told beside it. True when it was one."""
    said = len(turn.pieces)
    if not _taken(turn, reading):
        return False
    turn.answered = True
    if "ask_warranty" in reading.intents or reading.facts.get("payer") in _WARRANTIES:
        settle_warranty(turn)
        booked = any(piece.id.startswith("book.") for piece in turn.pieces[said : said + 1])
        turn.pieces.insert(said + booked, Said("answer.warranty", turn.words("answer.warranty")))
    return True


def _taken(turn: Turn, reading: Reading) -> bool:
    """Take the answer to offered windows: one of them, a wish, none, or no visit. True when it was one."""
    asked = turn.state.asked
    ticket = turn.state.ticket(asked.ticket) if asked else None
    if asked is None or asked.kind != "offer" or ticket is None or not ticket.open:
        return False
    if "ask_status" in reading.intents and reading.wish is None and (reading.asks_when or reading.answer is None):
        return False
    if "cancel" in reading.intents and reading.wish is None:
        return False
    given = reading.answer
    offers = local_offers(turn, ticket)
    chosen = _chosen(turn, ticket, reading, offers)
    sooner = beside_offers(turn, reading, offers) if ticket.visit is None and _only_soon(reading.wish) else None
    if sooner is not None and sooner.soonest:
        turn.because("heard", "They want sooner times than the offered ones.", ticket=ticket.key)
        offer(turn, ticket.key, sooner, said="offer.soonest")
    elif reading.asks_when and (chosen is not None or reading.wish is not None):
        _show(turn, ticket, chosen, reading)
    elif chosen is not None:
        accept(turn, ticket.key, chosen, asked.at)
    elif _declines(turn, ticket, reading):
        _not_wanted(turn, ticket)
    elif asks_for_another_time(turn, reading) or reading.wish is not None:
        offer(turn, ticket.key, _wish(turn, ticket, reading))
    elif ticket.visit is None and (shifted := beside_offers(turn, reading, offers)) is not None:
        turn.because("heard", "They want other times than the offered ones, later or sooner.", ticket=ticket.key)
        offer(turn, ticket.key, shifted, said="offer.soonest" if shifted.soonest else None)
    elif given is not None and given.kind in ("none", "no", "dont_know"):
        turn.change(ticket.key, offers=())
        pose(turn, "offer", ticket=ticket.key)
    elif given is not None and given.kind == "yes" and len(offers) > 1:
        again(turn, lead="offer.which")
    else:
        return False
    return True


def _chosen(turn: Turn, ticket: TicketState, reading: Reading, offers: Sequence[Offer]) -> int | None:
    """Which of *offers* they take; none that does not keep the hours they set as a limit."""
    chosen = which_offer(offers, reading.answer, reading.wish, turn.rulebook.shop, turn.now) if offers else None
    if chosen is None or not is_limit(turn, reading) or _keeps_hours(turn, offers[chosen], reading.wish):
        return chosen
    turn.because("ruled_out", "The window does not keep the hours they set as a limit.", ticket=ticket.key)
    return None


def _keeps_hours(turn: Turn, window: Offer, wish: Wish | None) -> bool:
    """Whether *window* lies within the hours of *wish*."""
    zone = ZoneInfo(turn.rulebook.shop.timezone)
    return wish is None or lay(wish, turn.now, zone).allows(window.start, window.end)


def _declines(turn: Turn, ticket: TicketState, reading: Reading) -> bool:
    """Whether they turn the windows down, or would have the visit that stands stay as it is."""
    if binds(reading.wish):
        return False
    if reading.answer is not None and reading.answer.kind == "declined":
        return True
    return ticket.visit is not None and named(turn.rulebook, "leave_it", reading.text) is not None


def _only_soon(wish: Wish | None) -> bool:
    """Whether they ask for the soonest there is and nothing else."""
    return wish is not None and wish.soonest and not binds(wish)


def _show(turn: Turn, ticket: TicketState, chosen: int | None, reading: Reading) -> None:
    """A question takes nothing: the window it is about is offered alone, the earliest to who asks for that."""
    turn.because("heard", "They ask about a time; a question books nothing.", ticket=ticket.key)
    wish = _wish(turn, ticket, reading)
    if chosen is None or (wish is not None and wish.soonest):
        offer(turn, ticket.key, wish, count=1 if wish is not None and wish.soonest else 3)
    else:
        offer_alone(turn, ticket.key, chosen)


def _wish(turn: Turn, ticket: TicketState, reading: Reading) -> Wish | None:
    """When they would like us; for a visit that stands, what is said of its own time is the reason."""
    if ticket.visit is not None:
        return time_wanted(turn, ticket.visit, reading)
    kept = turn.the(ticket.key).wish if ticket.key == turn.state.focus else None
    return kept_wish(kept) if kept is not None and reading.wish is not None else reading.wish


def _not_wanted(turn: Turn, ticket: TicketState) -> None:
    """They turn the windows down: no visit, or the one that stands as it is."""
    if ticket.visit is None:
        no_visit(turn, ticket.key)
    else:
        keep(turn, ticket.key)
