"""The answer to the open question into the ticket: choices, yes and no, what they cannot or will not say."""

from __future__ import annotations

from service.conversation.ask import OWN_WORDS, VAGUE
from service.conversation.merge import observe, said_symptom
from service.conversation.moving import asks_for_another_time
from service.conversation.names_told import is_their_name
from service.conversation.office_questions import asks_the_shop
from service.conversation.state import Asked
from service.conversation.underway import Turn
from service.diagnosis.held import fact_says
from service.reading import model as reading_model
from service.reading.model import Answer, Reading
from service.rulebook.schema.seen import Observation

FACT_KINDS = {"age": "age_years", "brand": "brand", "model": "model", "serial": "serial", "code": "code",
              "fuel": "fuel", "variant": "variant", "payer": "payer"}  # fmt: skip
CONTACT_KINDS = ("name", "address", "postal_code", "phone")
ANOTHER_MATTER = frozenset({
    "reschedule", "cancel", "talk_to_person", "ask_status", "ask_price", "ask_warranty", "ask_help",
})  # fmt: skip
"""Intents of a text that is no note on how to get in."""
ACTING = ("offer", "confirm", "check_result")
"""Questions whose answer does something; they are taken elsewhere."""


def another_matter(turn: Turn, reading: Reading) -> bool:
    """Whether the text is about something else than who they are and how to get in."""
    asks = bool(ANOTHER_MATTER & set(reading.intents)) or asks_the_shop(turn, reading.text)
    return asks or asks_for_another_time(turn, reading)


def answer(turn: Turn, reading: Reading) -> None:
    """
    Note what *reading* answers to the open question. ``turn.answered`` says whether it did; then the question is closed.

    A volunteered fact answers too: a ZIP in a sentence about something else is a ZIP.
    """
    asked = turn.state.asked
    if asked is None or asked.kind in ACTING:
        return
    given = reading.answer
    done = _noted(turn, asked, given, reading)
    wants_visit = asked.kind == "address" and "book" in reading.intents
    if not done and given is not None and given.kind in ("dont_know", "declined") and not wants_visit:
        done = _passed(turn, asked, given)
    if done:
        turn.answered = True
        turn.learned.add("answer")
        turn.put(asked=None)


def _noted(turn: Turn, asked: Asked, given: Answer | None, reading: Reading) -> bool:
    if asked.kind == "appliance":
        return "appliance" in turn.learned or "ticket" in turn.learned
    if asked.kind in CONTACT_KINDS:
        return _contact(turn, asked.kind, given, reading)
    if asked.kind == "access":
        return _access(turn, given, reading)
    if asked.kind == "yes_no" and asked.code in turn.rulebook.dangers and turn.state.danger is None:
        return given is not None and given.kind in ("yes", "no", "dont_know")
    ticket = turn.state.ticket(asked.ticket)
    if ticket is None or not ticket.open:
        return True
    if asked.kind == "symptom":
        return _symptom(turn, ticket.key, asked, given, reading)
    if asked.kind == "yes_no":
        return _yes_no(turn, ticket.key, asked, given)
    if asked.kind == "observation":
        return _observation(turn, ticket.key, asked, given, reading)
    name = FACT_KINDS.get(asked.kind)
    if name and name not in ticket.facts and given is not None and given.kind in ("value", "choice") and given.value:
        turn.change(ticket.key, facts={**ticket.facts, name: given.value})
    return bool(name) and name in turn.the(ticket.key).facts


def _contact(turn: Turn, kind: str, given: Answer | None, reading: Reading) -> bool:
    """Who and where, as told; when they would like us is no address."""
    told = given is not None and given.kind == "value" and reading.wish is None
    if kind not in turn.learned and another_matter(turn, reading):
        return False
    if kind not in turn.learned and given is not None and told and given.value:
        turn.put(contact=turn.state.contact.model_copy(update={kind: given.value.strip()[:200]}))
        turn.learned.add(kind)
    return kind in turn.learned


def _access(turn: Turn, given: Answer | None, reading: Reading) -> bool:
    """How to get in, in their words; "no" means nothing to know, and changes nothing."""
    if "access" in turn.learned:
        return True
    if given is not None and given.kind in ("no", "none"):
        return True
    text = reading.text.strip()
    if len(text) < 3 or text.endswith("?") or another_matter(turn, reading):
        return False
    if given is not None and given.kind == "yes" and len(reading.text.split()) < 3:
        return False
    note = reading.text.strip()[:120]
    if is_their_name(note, turn.state.contact.name):
        return False
    turn.put(contact=turn.state.contact.model_copy(update={"access": (*turn.state.contact.access, note)[-6:]}))
    return True


def _symptom(turn: Turn, key: str, asked: Asked, given: Answer | None, reading: Reading) -> bool:
    """A choice among symptoms. Words that name one say it themselves and have been merged already."""
    ticket = turn.the(key)
    if asked.code == OWN_WORDS:
        return bool({"symptom", "observation", "denied"} & turn.learned) or len(reading.text.split()) > 2
    if given is not None and given.kind == "choice" and given.index is not None and given.index < len(asked.choices):
        value, say = asked.choices[given.index]
        means = tuple(value.split("+"))
        _told_besides(turn, key, value)
        if any(ticket.symptoms.get(code) for code in means):
            return True
        possible = tuple(code for code in means if ticket.symptoms.get(code) is not False)
        if len(possible) == 1:
            said_symptom(turn, key, possible[0], said=True, hedged=given.hedged)
        elif possible:
            turn.change(key, one_of=(*ticket.one_of, possible))
            turn.learned.add("symptom")
            turn.new_symptoms.append((key, f"={say}"))
        return True
    if given is not None and given.kind == "none" and asked.code != VAGUE:
        for value, _ in asked.choices:
            said_symptom(turn, key, value, said=False)
        return True
    return "symptom" in turn.learned or (given is not None and given.kind == "none")


def _told_besides(turn: Turn, key: str, value: str) -> None:
    """What a choice of the short list tells besides its symptoms: “the oven won't heat” is of the oven."""
    rules = turn.rulebook.appliances.get(turn.the(key).appliance)
    for choice in rules.basics.choices if rules is not None else ():
        if "+".join(choice.means) == value:
            for id, told in choice.tells.items():
                observe(turn, key, id, told)


def _yes_no(turn: Turn, key: str, asked: Asked, given: Answer | None) -> bool:
    if asked.code is None or asked.code in turn.rulebook.dangers:
        return True
    if asked.code in turn.the(key).symptoms and {"symptom", "denied"} & turn.learned:
        return True
    if given is None or given.kind not in ("yes", "no"):
        return False
    said_symptom(turn, key, asked.code, said=given.kind == "yes", hedged=given.hedged)
    return True


def _by_age(turn: Turn, key: str, known: Observation, reading: Reading) -> str | None:
    """The answer that an age in years gives, where one is asked after: “like 12”, “5 or 6”; a choice's number is none."""
    ways = [way for way in known.from_facts if way.fact == "age_years"]
    text = reading.text.strip(" .")
    if not ways or (text.isdigit() and 0 < int(text) <= len(known.answers)):
        return None
    asked = reading_model.Asked("age", turn.the(key).appliance)
    age = turn.reader.read(reading.text, asked=asked).facts.get("age_years")
    if not isinstance(age, int | float):
        return None
    turn.change(key, facts={**turn.the(key).facts, "age_years": float(age)})
    return next((way.means for way in ways if fact_says({"age_years": float(age)}, way)), None)


def _by_fact(known: Observation, reading: Reading) -> str | None:
    """The answer that a fact told in passing gives: “no its induction”, asked which of three kinds it is."""
    told = ((way, reading.facts.get(way.fact)) for way in known.from_facts if way.fact != "age_years")
    return next((way.means for way, fact in told if fact is not None and fact_says({way.fact: fact}, way)), None)


def _observation(turn: Turn, key: str, asked: Asked, given: Answer | None, reading: Reading) -> bool:
    if asked.code is None or asked.code in turn.the(key).observations:
        return True
    rules = turn.rulebook.appliances.get(turn.the(key).appliance)
    known = rules.observations.get(asked.code) if rules else None
    if known is None:
        return True
    if (means := _by_fact(known, reading)) is not None:
        observe(turn, key, asked.code, means)
        return True
    if given is None and (aged := _by_age(turn, key, known, reading)) is not None:
        observe(turn, key, asked.code, aged)
        return True
    if given is None:
        return False
    value = given.value if given.value in known.values else None
    value = _by_age(turn, key, known, reading) or value
    if value is None and given.kind in ("yes", "no") and given.kind in known.values:
        value = given.kind
    if value is None and given.kind == "choice" and given.index is not None and given.index < len(asked.choices):
        value = asked.choices[given.index][0]
    if value is None and given.kind == "none" and asked.choices:
        turn.because("heard", "None of what was listed: left, and their words are kept for the technician.", asked.code)
        return True
    if value is None:
        return False
    observe(turn, key, asked.code, value, hedged=given.hedged)
    return True


def _passed(turn: Turn, asked: Asked, given: Answer) -> bool:
    """Can't and won't are good answers: noted as declined where they will not, asked no more either way."""
    ticket = turn.state.ticket(asked.ticket) or turn.state.in_focus
    if ticket is None:
        return given.kind == "declined"
    mark = asked.code if asked.kind in ("observation", "yes_no") and asked.code else asked.kind
    if given.kind == "declined":
        turn.change(ticket.key, declined=tuple(dict.fromkeys([*ticket.declined, mark])))
    turn.because("heard", f"They {'will not' if given.kind == 'declined' else 'cannot'} say: {mark}.", mark)
    return True
