"""What the line has understood of a ticket, as tables: signs said, denied and not asked, dangers, facts, what is likely."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from service.conversation.state import Contact, TicketState
from service.conversation.summary import evidence_of
from service.diagnosis.belief import believe
from service.diagnosis.held import fact_says
from service.diagnosis.model import SOMETHING_ELSE, Belief
from service.pages import words
from service.pages.plate_words import recall_words, replace_words
from service.rulebook.model import Rulebook
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.seen import Observation

_CODE = re.compile(r"[a-z]+(_[a-z]+)+")

STATES = {True: "yes", False: "no", None: "not asked"}


@dataclass(frozen=True, slots=True)
class Sign:
    """A symptom or observation. state: yes, no, an answer in words, or ``not asked``. trade: as a technician writes it."""

    code: str
    name: str
    trade: str
    state: str
    known: bool
    doubt: bool


@dataclass(frozen=True, slots=True)
class Fact:
    """A labelled value."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Share:
    """A cause with its share. width: 0 to 100 for the bar. because, against: evidence in words."""

    cause: str
    name: str
    share: str
    width: int
    because: str
    against: str


@dataclass(frozen=True, slots=True)
class Understood:
    """All of it. more: how many signs were neither said nor asked (they stand under a fold)."""

    signs: tuple[Sign, ...]
    more_signs: tuple[Sign, ...]
    hazards: tuple[str, ...]
    hazards_cleared: bool
    urgency: tuple[str, ...]
    tried: tuple[Fact, ...]
    facts: tuple[Fact, ...]
    contact: tuple[Fact, ...]
    theories: tuple[str, ...]
    likely: tuple[Share, ...]
    stop_use: str
    recalls: tuple[str, ...]
    replacing: str


CHECK_WORDS = {
    "offered": "offered, no answer yet",
    "fixed": "it helped",
    "not_fixed": "no change",
    "declined": "declined",
    "unable": "could not do it",
}

FACT_LABELS = {
    "brand": "Brand",
    "model": "Model",
    "serial": "Serial",
    "age_years": "Age, years",
    "fuel": "Fuel",
    "variant": "Kind",
    "code": "Code shown",
    "since": "Since",
    "pattern": "Pattern",
    "after": "After",
    "tried": "Tried",
    "wish": "Time wished for",
    "payer": "Who pays",
}

CONTACT_LABELS = {
    "name": "Name",
    "address": "Address",
    "postal_code": "ZIP",
    "phone": "Other phone",
    "email": "Email",
    "payer": "Who pays",
    "access": "Getting in",
}


def understood(rulebook: Rulebook, ticket: TicketState, contact: Contact) -> Understood:
    """The tables for *ticket* of a thread whose writer is *contact*."""
    appliance = rulebook.appliances.get(ticket.appliance)
    signs = signs_of(rulebook, appliance, ticket)
    belief = believe(appliance, evidence_of(ticket)) if appliance else None
    likeliest = next((one.cause for one in belief.likely if one.cause != SOMETHING_ELSE), None) if belief else None
    return Understood(
        signs=tuple(sign for sign in signs if sign.known),
        more_signs=tuple(sign for sign in signs if not sign.known),
        hazards=words.hazard_names(rulebook, ticket.hazards),
        hazards_cleared=ticket.hazards_cleared,
        urgency=tuple(rulebook.vocabulary.urgency.get(code, words.code_words(code)) for code in ticket.urgency),
        tried=tried_of(appliance, ticket),
        facts=tuple(
            Fact(FACT_LABELS.get(name, words.code_words(name)), fact_words(value))
            for name, value in ticket.facts.items()
            if name != "tried"
        ),
        contact=contact_facts(contact),
        theories=ticket.theory_words,
        likely=shares_of(appliance, belief, ticket) if appliance and belief else (),
        stop_use=ticket.stop_use or "",
        recalls=recall_words(rulebook, ticket.appliance, ticket.facts),
        replacing=replace_words(rulebook, ticket.appliance, ticket.facts, likeliest),
    )


def signs_of(rulebook: Rulebook, appliance: Appliance | None, ticket: TicketState) -> tuple[Sign, ...]:
    """Every symptom and observation of the machine, what is known first; without rules only what was said."""
    found = []
    symptoms = list(appliance.symptoms) if appliance else []
    for code in dict.fromkeys([*ticket.symptoms, *symptoms]):
        if code == "vague":
            continue
        said = ticket.symptoms.get(code)
        trade = appliance.symptoms[code].trade if appliance and code in appliance.symptoms else ""
        name = words.symptom_words(rulebook, ticket.appliance, code)
        found.append(Sign(code, name, trade, STATES[said], said is not None, code in ticket.hedged))
    for group in ticket.one_of:
        name = " or ".join(words.symptom_words(rulebook, ticket.appliance, code) for code in group)
        found.insert(0, Sign("|".join(group), name, "", "one of these", True, False))
    for code, observation in (appliance.observations if appliance else {}).items():
        value = ticket.observations.get(code)
        said_words = {answer.value: answer.say.en for answer in observation.answers}
        state = said_words.get(value, words.code_words(value)) if value else "not asked"
        if not value and code in ticket.asked:
            state = "asked, not known"
        known = value is not None or code in ticket.asked
        found.append(Sign(code, observation.trade, "", state, known, code in ticket.hedged))
    return tuple(sorted(found, key=lambda sign: not sign.known))


def tried_of(appliance: Appliance | None, ticket: TicketState) -> tuple[Fact, ...]:
    """What the owner did already: of their own accord and at our suggestion."""
    own = ticket.facts.get("tried", ())
    done = [Fact(words.code_words(value), "by themselves") for value in (own if isinstance(own, tuple) else ())]
    for check, result in ticket.checks.items():
        name = appliance.checks[check].title.en if appliance and check in appliance.checks else words.code_words(check)
        done.append(Fact(name, CHECK_WORDS.get(result, result)))
    return tuple(done)


def contact_facts(contact: Contact) -> tuple[Fact, ...]:
    """Who, where and how in, as far as told."""
    told: Mapping[str, object] = contact.model_dump()
    return tuple(Fact(label, fact_words(told[name])) for name, label in CONTACT_LABELS.items() if told.get(name))


def shares_of(appliance: Appliance, belief: Belief, ticket: TicketState, most: int = 6) -> tuple[Share, ...]:
    """The likeliest causes; what falls under the table is added to *something else*."""
    named = [item for item in belief.likely if item.cause != SOMETHING_ELSE]
    found = [
        Share(
            item.cause,
            appliance.causes[item.cause].name.en if item.cause in appliance.causes else words.code_words(item.cause),
            words.percent(item.share),
            round(item.share * 100),
            _evidence(appliance, item.because, ticket),
            _evidence(appliance, item.against, ticket),
        )
        for item in named[:most]
        if item.share >= 0.01
    ]
    rest = 1 - sum(item.share for item in named[: len(found)])
    others = len(named) - len(found)
    name = f"something else, {others} less likely causes among it" if others > 1 else "something else"
    found.append(Share(SOMETHING_ELSE, name, words.percent(rest), round(rest * 100), "", ""))
    return tuple(found)


def _evidence(appliance: Appliance, codes: tuple[str, ...], ticket: TicketState, most: int = 3) -> str:
    return "; ".join(evidence_words(appliance, code, ticket) for code in codes[:most])


def evidence_words(appliance: Appliance, code: str, ticket: TicketState) -> str:
    """One piece of evidence in words: ``drains slowly``, ``not: leaks``, ``drain type: pump``, ``filter: no change``."""
    if "|" in code:
        return " or ".join(evidence_words(appliance, part, ticket) for part in code.split("|"))
    if code == "theory":
        return "the customer's own theory"
    bare, _, value = code.partition("=")
    if bare in appliance.symptoms:
        said = ticket.symptoms.get(bare, value not in ("no", "false"))
        return appliance.symptoms[bare].trade if said else f"not: {appliance.symptoms[bare].trade}"
    if bare in appliance.observations:
        observation = appliance.observations[bare]
        answer = value or ticket.observations.get(bare) or _by_facts(observation, ticket) or ""
        said_words = {a.value: a.say.en for a in observation.answers}
        return f"{observation.trade}: {said_words.get(answer, words.code_words(answer))}"
    if bare in appliance.checks:
        result = CHECK_WORDS.get(value or ticket.checks.get(bare, ""), value)
        return f"{appliance.checks[bare].title.en}: {result}"
    return words.code_words(code)


def _by_facts(observation: Observation, ticket: TicketState) -> str | None:
    """What the facts answer that was not asked: a gas dryer is "gas" without a question."""
    return next((way.means for way in observation.from_facts if fact_says(ticket.facts, way)), None)


def fact_words(value: object) -> str:
    """A fact's value as text; a code as words."""
    if isinstance(value, tuple | list):
        return ", ".join(words.code_words(str(item)) for item in value)
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return words.code_words(str(value)) if _CODE.fullmatch(str(value)) else str(value)
