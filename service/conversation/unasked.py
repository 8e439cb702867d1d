"""An answer to a question that does not stand open: “only when it spins”, asked what it sounds like."""

from __future__ import annotations

import re

from service.conversation.answers import ACTING
from service.conversation.ask import choice_words
from service.conversation.fuels import only_by_fuel
from service.conversation.merge import fits, observe
from service.conversation.sounds import offers_sounds, sound_words
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Asked, Choice, Reading
from service.reading.replies.option_words import made_of_one
from service.reading.words.normalising import fold
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.seen import Observation


def note(turn: Turn, reading: Reading) -> None:
    """
    Note the one answer that the text is made of, to whatever may be asked of the machine in focus and is not known.

    Only of a short text that says nothing else, and only where one question has such an answer.
    """
    _sound(turn, reading)
    _oven(turn, reading)
    _beside_a_choice(turn, reading)
    ticket, asked = turn.state.in_focus, turn.state.asked
    if turn.answered or turn.learned or asked is None or asked.kind in ACTING or ticket is None or not ticket.open:
        return
    plain = ("dont_know", "declined", *(("yes", "no") if asked.kind == "yes_no" else ()))
    if reading.hazards or (reading.answer is not None and reading.answer.kind in plain):
        return
    found = [
        (of, code, value)
        for of in turn.open_tickets
        if (rules := turn.rulebook.appliances.get(of.appliance)) is not None
        for code, value in _meant(turn, of, rules, reading.text)
    ]
    mine = [one for one in found if one[0].key == ticket.key] or found
    if len(mine) == 1:
        ((of, code, value),) = mine
        observe(turn, of.key, code, value)
        turn.because("heard", f"Not asked just now, but told: {code} is {value}.", code)


def _sound(turn: Turn, reading: Reading) -> None:
    """Note what the machine in focus sounds like beside its fault, where one question not yet asked is about that."""
    ticket = turn.state.in_focus
    if ticket is None or not ticket.open or (words := sound_words(ticket, reading)) is None:
        return
    turn.learned.add("observation")
    rules = turn.rulebook.appliances.get(ticket.appliance)
    found = []
    for code, known in rules.observations.items() if rules is not None else ():
        if known.who != "customer" or code in ticket.observations or not known.when or not fits(ticket, known):
            continue
        choices = _choices(turn, ticket, known)
        if not offers_sounds([choice.say for choice in choices]):
            continue
        given = turn.reader.read(words, asked=Asked("observation", ticket.appliance, code, tuple(choices))).answer
        if given is not None and given.kind == "choice" and given.value in known.values:
            found.append((code, given.value))
    if len(found) == 1:
        ((code, value),) = found
        observe(turn, ticket.key, code, value)
        turn.because("heard", f'"{words}" is what it sounds like: {code} is {value}.', code)


def _beside_a_choice(turn: Turn, reading: Reading) -> None:
    """Note what a text tells besides the fault it names of a list: “makes clunking when it turns on” tells the sound too."""
    ticket = turn.state.in_focus
    if ticket is None or not ticket.open or not {"symptom", "answer"} <= turn.learned or reading.observations:
        return
    rules = turn.rulebook.appliances.get(ticket.appliance)
    for seen in turn.reader.read(reading.text, about=ticket.appliance).observations if rules is not None else ():
        known = rules.observations.get(seen.id) if rules is not None and seen.appliance == ticket.appliance else None
        if (
            known is not None
            and known.when
            and seen.id not in turn.the(ticket.key).observations
            and fits(ticket, known)
        ):
            observe(turn, ticket.key, seen.id, seen.value, hedged=seen.hedged)
            turn.because("heard", f'"{seen.words}": {seen.id} is {seen.value}.', seen.id)


_OVEN = re.compile(r"\b(?:oven|horno)\b(?! de micro)")
_NOT_ALONE = re.compile(
    r"\b(?:burners?|stove ?top|stove|range|top|both|cooktop|quemador(?:es)?|hornillas?|estufa|"
    r"parrillas?|arriba|los dos|ambos)\b"
)


def _oven(turn: Turn, reading: Reading) -> None:
    """Note that it is the oven of a range, where a fault is told of “my oven” and nothing of the burners."""
    told = fold(reading.text)
    if not _OVEN.search(told) or _NOT_ALONE.search(told):
        return
    for ticket in turn.open_tickets:
        rules = turn.rulebook.appliances.get(ticket.appliance)
        known = rules.observations.get("which_part") if rules is not None else None
        if known is None or "oven" not in known.values or known.id in ticket.observations or not fits(ticket, known):
            continue
        if any(f.appliance == ticket.appliance and ticket.symptoms.get(f.code) for f in reading.symptoms):
            observe(turn, ticket.key, known.id, "oven")
            turn.because("heard", "The oven is named, and none of the burners.", known.id)


def _choices(turn: Turn, ticket: TicketState, known: Observation) -> list[Choice]:
    return [Choice(a.value, choice_words(turn, "observation", ticket.key, known.id, a.value)) for a in known.answers]


_MOST_WORDS = 7
"""A text of more words tells more than who made it."""

_SAYS_SO = re.compile(
    r"\b(?:is|its|it's|es|says|dice|brand|marca|called|llama)\s+(?:(?:an?|the|una?|la|el|de|marca|is|es)\s+)*"
)


def maker(turn: Turn, reading: Reading) -> None:
    """
    Note who made the machine in focus, told by itself in small letters: “oh its a norvell”.

    Only of a short text in which nothing else was heard, and which says that it is or is called so.
    """
    ticket = turn.state.in_focus
    heard = turn.learned or turn.answered or reading.hazards or reading.symptoms or reading.denied or reading.wish
    if heard or ticket is None or not ticket.open or ticket.appliance == "unknown":
        return
    told = fold(reading.text)
    if len(told.split()) > _MOST_WORDS or "?" in told or not _SAYS_SO.search(told):
        return
    brand = turn.reader.read(reading.text, asked=Asked("brand", ticket.appliance)).facts.get("brand")
    if not isinstance(brand, str) or not re.search(_SAYS_SO.pattern + re.escape(fold(brand)) + r"\b", told):
        return
    turn.learned.add("fact")
    if "brand" in ticket.facts:
        return
    turn.change(ticket.key, facts={**ticket.facts, "brand": brand})
    turn.because("heard", f'Not asked just now, but told: "{brand}" made it.', ticket=ticket.key)


def _meant(turn: Turn, ticket: TicketState, rules: Appliance, text: str) -> list[tuple[str, str]]:
    """Each observation that fits the complaint and has an answer of which *text* is made, with that answer."""
    asked = turn.state.asked
    found = []
    for code, known in rules.observations.items():
        if (
            known.who != "customer"
            or code in ticket.observations
            or (asked is not None and code == asked.code)
            or not fits(ticket, known)
        ):
            continue
        choices = _choices(turn, ticket, known)
        place = made_of_one(text, choices)
        if place is not None and not only_by_fuel(known.answers[place], text):
            found.append((code, choices[place].value))
    return found
