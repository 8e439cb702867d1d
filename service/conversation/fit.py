"""Whether the job is ours: machine, brand, area, private use. If not, said at once, with where to turn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rapidfuzz import fuzz

from service.conversation.closing import close
from service.conversation.state import ClosedReason, State, TicketState
from service.conversation.summary import machine_words
from service.conversation.underway import Turn
from service.rulebook.model import Rulebook

ALIKE = 88
"""Ratio (0 to 100) from which a brand as written is one of the shop's spellings."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """Why the job is not ours. what: the code looked up under the shop's ``refer``; value: what was told."""

    kind: Literal["machine", "brand", "area", "commercial"]
    what: str
    value: str
    closes: ClosedReason


def misfit(rulebook: Rulebook, state: State, ticket: TicketState) -> Misfit | None:
    """The first reason why *ticket* is not the shop's job; None while nothing speaks against it."""
    shop = rulebook.shop
    if ticket.appliance != "unknown" and ticket.appliance not in shop.serves:
        return Misfit("machine", ticket.appliance, ticket.appliance, "not_ours")
    if ticket.facts.get("use") == "commercial" and not shop.policies.commercial:
        return Misfit("commercial", "commercial", ticket.appliance, "not_ours")
    brand = ticket.facts.get("brand")
    if isinstance(brand, str) and (refused := refused_brand(rulebook, brand)):
        return Misfit("brand", "brand", refused, "not_ours")
    zip_code = state.contact.postal_code
    if zip_code and zip_code not in shop.area:
        return Misfit("area", "area", zip_code, "out_of_area")
    return None


def refused_brand(rulebook: Rulebook, brand: str) -> str | None:
    """The name of the brand the shop does not serve, if *brand* as written is closest to one of those."""
    best, name = float(ALIKE), None
    brands = rulebook.shop.brands
    for refuses, listed in ((False, brands.serves), (True, brands.refuses)):
        for known, spellings in listed.items():
            score = max(fuzz.ratio(brand.lower(), s.lower()) for s in (known, *spellings))
            if score > best or (score == best and name is None and refuses):
                best, name = score, known if refuses else None
    return name


def turn_away(turn: Turn, ticket: TicketState) -> bool:
    """Say that the job is not ours and close the ticket; False when it may well be ours."""
    found = misfit(turn.rulebook, turn.state, ticket)
    if found is None:
        return False
    _say(turn, ticket, found)
    turn.because("ruled_out", f"Not ours: {found.kind} {found.value}.", f"shop.{found.kind}", value=found.value)
    close(turn, ticket.key, found.closes)
    return True


def say_not_ours(turn: Turn, ticket: TicketState) -> bool:
    """Say that the job is not ours, once, and leave the ticket to a person; False when it may well be ours."""
    found = misfit(turn.rulebook, turn.state, ticket)
    if found is not None and "not_ours" not in ticket.told:
        _say(turn, ticket, found)
        turn.change(ticket.key, told=(*ticket.told, "not_ours"))
    return found is not None


def _say(turn: Turn, ticket: TicketState, found: Misfit) -> None:
    shop = turn.rulebook.shop
    refer = turn.own(shop.refer.get(found.what, shop.refer_otherwise))
    machine = machine_words(turn.rulebook, ticket.appliance, turn.language)
    if found.kind == "machine" and found.what in shop.refer:
        turn.tell_own(f"shop.refer.{found.what}", refer)
    else:
        turn.tell(f"fit.{found.kind}", value=found.value, machine=machine, refer=refer)


def reopen_if_mended(turn: Turn) -> None:
    """A ZIP put right ("sorry, 87110") brings back the ticket that was closed for the wrong one."""
    if turn.open_tickets or not turn.state.tickets or "postal_code" not in turn.learned:
        return
    last = turn.state.tickets[-1]
    if last.closed == "out_of_area" and turn.state.contact.postal_code in turn.rulebook.shop.area:
        turn.change(last.key, stage="listening", closed=None)
        turn.put(focus=last.key)
        turn.because("heard", "The ZIP code was put right: the ticket is open again.", ticket=last.key)
