"""A ticket for the other rooms: its evidence for the diagnosis, its line in words for the desk and the sheet."""

from __future__ import annotations

from service.conversation.state import TicketState
from service.diagnosis.model import Evidence
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
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


def trade_words(rulebook: Rulebook, ticket: TicketState) -> tuple[str, ...]:
    """What is said to be wrong as the trade says it, English; dangers first."""
    appliance = rulebook.appliances.get(ticket.appliance)
    told = [rulebook.vocabulary.hazards.get(code, code).split(",")[0] for code in ticket.hazards]
    groups = [(code,) for code, said in ticket.symptoms.items() if said]
    for group in (*groups, *ticket.one_of):
        told.append(" or ".join(_trade(appliance, code) for code in group))
    return tuple(told)


def _trade(appliance: Appliance | None, code: str) -> str:
    if appliance is not None and code in appliance.symptoms:
        return appliance.symptoms[code].trade
    return code.replace("_", " ")
