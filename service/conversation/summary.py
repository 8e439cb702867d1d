"""A ticket for the other rooms: its evidence for the diagnosis, its line in words for the desk and the sheet."""

from __future__ import annotations

from service.conversation.state import TicketState
from service.diagnosis.model import Evidence
from service.rulebook.model import Rulebook
from service.wording.sentences import say


def evidence_of(ticket: TicketState) -> Evidence:
    """What is known of the machine. Checks only offered say nothing yet; dangers that a person cleared count no more."""
    done = {check: result for check, result in ticket.checks.items() if result != "offered"}
    return Evidence(
        symptoms=dict(ticket.symptoms),
        one_of=ticket.one_of,
        observations=dict(ticket.observations),
        hedged=frozenset(ticket.hedged),
        checks=done,
        facts=dict(ticket.facts),
        theories=ticket.theories,
        hazards=frozenset() if ticket.hazards_cleared else frozenset(ticket.hazards),
    )


def machine_words(rulebook: Rulebook, appliance: str, language: str = "en") -> str:
    """The appliance as people call it in *language*; for one nobody could tell, the wording's own word."""
    if appliance in rulebook.appliances:
        return rulebook.appliances[appliance].basics.say.in_(language)
    if appliance in rulebook.names:
        return rulebook.names[appliance].say.in_(language)
    return say(rulebook, language, "machine.unknown")
