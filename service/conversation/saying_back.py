"""What was understood, said back in a few words so that it can be corrected; urgent advice that goes with it."""

from __future__ import annotations

from service.conversation import water_off
from service.conversation.fit import misfit
from service.conversation.passing import KNOWLEDGE
from service.conversation.summary import machine_words
from service.conversation.underway import Turn

MOST = 2
"""As many signs as are said back; more would be a list."""


def say_back(turn: Turn) -> None:
    """Say back what this turn brought: the machine and its signs, a theory thanked, another machine noted, advice."""
    _signs(turn)
    if "theory" in turn.learned:
        turn.tell("heard.theory", spare=True)
    _urgent(turn)


_NOTED = {
    "address": "heard.noted.address", "postal_code": "heard.noted.zip", "name": "heard.noted.name",
    "phone": "heard.noted.phone", "access": "heard.noted.access", "wish": "heard.noted.wish",
    "email": "heard.noted", "payer": "heard.noted", "fact": "heard.noted.fact", "observation": "heard.noted.fact",
}  # fmt: skip
"""What is kept without a word of it, and how it is said to be; the first that was told is said."""
_SAID_BACK = frozenset(("symptom", "theory", "corrected"))
NOTED = frozenset(_NOTED) - {"fact", "observation"}
"""Of these who they are, where and when; each time it is told that is news."""


def noted(turn: Turn, *, spare: bool = True) -> bool:
    """Say in few words that what this turn brought is kept, where nothing else says so; whether it was said."""
    id = next((id for what, id in _NOTED.items() if what in turn.learned), None)
    if id is None or turn.pieces or turn.replies or _SAID_BACK & turn.learned:
        return False
    ticket = turn.state.in_focus
    if ticket is not None and misfit(turn.rulebook, turn.state, ticket) is not None:
        return False  # no thanks for what turns them away
    turn.tell(id, spare=spare)
    return True


def thank(turn: Turn) -> None:
    """Thank for what was told of the machine late, when nothing is asked any more and nothing else is said."""
    if "fact" in turn.learned and "answer" not in turn.learned and turn.state.asked is None and turn.open_tickets:
        noted(turn, spare=False)


def still_asked(turn: Turn) -> bool:
    """
    Say that what was told is kept; whether the question that stands is then gone back to, not put in the same words.

    It is where it is about the machine, asks of no danger and was put once.
    """
    asked = turn.state.asked
    if not noted(turn) or asked is None or asked.tries > 1:
        return False
    return asked.kind in KNOWLEDGE and asked.code not in turn.rulebook.dangers


def _signs(turn: Turn) -> None:
    told: dict[str, list[str]] = {}
    for key, code in turn.new_symptoms:
        ticket = turn.state.ticket(key)
        rules = turn.rulebook.appliances.get(ticket.appliance) if ticket and ticket.open else None
        if ticket is None or rules is None:
            continue
        said = code[1:] if code.startswith("=") else None
        if said is None and ticket.symptoms.get(code) and code in rules.symptoms:
            said = turn.own(rules.symptoms[code].say)
        if said:
            told.setdefault(key, []).append(said[:1].lower() + said[1:])
    for key, signs in told.items():
        machine = machine_words(turn.rulebook, turn.the(key).appliance, turn.language)
        machine = machine[:1].upper() + machine[1:]
        turn.tell("heard.signs", spare=True, machine=machine, signs=", ".join(signs[:MOST]))
    if not told and "corrected" in turn.learned and turn.state.in_focus:
        machine = machine_words(turn.rulebook, turn.state.in_focus.appliance, turn.language)
        turn.tell("heard.corrected", spare=True, machine=machine)


def _urgent(turn: Turn) -> None:
    """What the rules say of a reason to be seen sooner, once."""
    said = {mark for ticket in turn.open_tickets for mark in ticket.told}
    for ticket in turn.open_tickets:
        for code in ticket.urgency:
            rule = turn.rulebook.urgency.get(code)
            if rule is None or rule.say is None or f"urgent:{code}" in said:
                continue
            said.add(f"urgent:{code}")
            left = water_off.left_to_do(turn, ticket, turn.own(rule.say))
            if left:
                turn.tell_own(f"urgency.{code}", left)
            standing = turn.the(ticket.key)
            turn.change(ticket.key, told=(*standing.told, f"urgent:{code}"))
            turn.because("told", f"Told what helps meanwhile: {code}.", code, source=rule.source)
