"""Why, in words for the desk: what was read as what, what was believed before and after, what else was weighed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.conversation import judged
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.diagnosis.model import SOMETHING_ELSE, Belief
from service.reading.model import Found, Reading
from service.reading.opinion.belying import NOT_TAKEN
from service.reading.opinion.leaning import LEANT, TOLD_TEXTS
from service.rulebook.schema.appliance import Appliance

SHOWN = 4
"""As many causes as a reason names."""


def heard(turn: Turn, reading: Reading) -> None:
    """Give a reason for everything the reading found, with the words that carried it and where they stand."""
    for found in reading.hazards:
        words = f'"{found.words}" read as the danger {_meaning(turn, found.code)}.'
        turn.because("heard", words, found.rule, code=found.code, start=found.start, end=found.end)
    for found in reading.denied_hazards:
        words = f'"{found.words}" denies {_meaning(turn, found.code)}; a danger that was held stays until a person clears it.'
        turn.because("heard", words, found.rule, code=found.code, start=found.start, end=found.end, denied=True)
    for sign in reading.symptoms:
        _heard_sign(turn, sign, denied=False)
    for note in reading.notes:
        if note.startswith((LEANT, NOT_TAKEN)):  # no phrase stands for it, so it is said which words counted
            turn.because("heard", note, TOLD_TEXTS)
    for sign in reading.denied:
        _heard_sign(turn, sign, denied=True)
    for seen in reading.observations:
        doubt = ", said with doubt" if seen.hedged else ""
        words = f'"{seen.words}" read as {seen.id} = {seen.value} on the {seen.appliance}{doubt}.'
        turn.because("heard", words, seen.id, value=seen.value, hedged=seen.hedged)
    for theory in reading.theories:
        turn.because("heard", f'"{theory.words}" kept as the customer\'s theory; it is no symptom.', theory.cause)
    if reading.intents or reading.facts or reading.answer:
        _heard_rest(turn, reading)


def _heard_sign(turn: Turn, sign: Found, *, denied: bool) -> None:
    read = "denies" if denied else "read as"
    words = f'"{sign.words}" {read} {sign.code} on the {sign.appliance}.'
    data = {"code": sign.code, "appliance": sign.appliance, "score": round(sign.score, 3), "denied": denied}
    turn.because("heard", words, sign.rule, start=sign.start, end=sign.end, **data)


def _heard_rest(turn: Turn, reading: Reading) -> None:
    said = []
    if reading.intents:
        said.append("wants " + ", ".join(reading.intents))
    if reading.facts:
        private = {"access", "address", "name", "phone", "email"}
        said.append(
            "states " + ", ".join(f"{k}" if k in private else f"{k} {_fact(v)}" for k, v in reading.facts.items())
        )
    if reading.answer:
        value = f" ({reading.answer.value})" if reading.answer.value and reading.answer.kind == "choice" else ""
        said.append(f"answers {reading.answer.kind}{value}")
    turn.because("heard", "The text " + "; ".join(said) + ".", language=reading.language, urgency=list(reading.urgency))


def _meaning(turn: Turn, code: str) -> str:
    return turn.rulebook.vocabulary.hazards.get(code, code).replace("_", " ")


def _fact(value: object) -> str:
    return ", ".join(map(str, value)) if isinstance(value, tuple | list) else str(value)


def belief_of(turn: Turn, ticket: TicketState) -> Belief | None:
    """The belief over the causes of *ticket* as it stands; None for a machine without rules."""
    return judged.belief_of(turn.rulebook, ticket)


def believed(turn: Turn, ticket: TicketState, before: Belief | None) -> None:
    """Give the belief after this text beside the one before, if it moved."""
    appliance = turn.rulebook.appliances.get(ticket.appliance)
    after = belief_of(turn, ticket)
    if appliance is None or after is None or before is after:
        return
    was_kept, kept = shares(before) if before else [], shares(after)
    if was_kept == kept:
        return
    told = []
    for item in after.likely[:SHOWN]:
        was = f", was {before.share(item.cause):.0%}" if before else ""
        why = f" (because of {', '.join(item.because[:3])})" if item.because else ""
        told.append(f"{cause_name(appliance, item.cause)} {item.share:.0%}{was}{why}")
    words = f"Likely with the {appliance.basics.say.en}: " + "; ".join(told) + "."
    turn.because("believed", words, before=was_kept, after=kept, ticket=ticket.key)


def shares(belief: Belief) -> list[list[object]]:
    """Cause and share, rounded, largest first: what is kept with the turn."""
    return [[item.cause, round(item.share, 4)] for item in belief.likely]


def cause_name(appliance: Appliance, cause: str) -> str:
    """A cause as the desk reads it."""
    if cause == SOMETHING_ELSE:
        return "something else"
    return appliance.causes[cause].name.en if cause in appliance.causes else cause.replace("_", " ")


def weighed(considered: Sequence[tuple[str, float]]) -> Mapping[str, float]:
    """What else was considered, with its worth, for a reason's figures."""
    return {name: round(worth, 3) for name, worth in considered}
