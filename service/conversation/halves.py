"""A refrigerator's halves told in several texts: one complaint, as the reader makes of them in one text."""

from __future__ import annotations

from collections.abc import Mapping

from service.conversation.matters import bare_words
from service.conversation.passing import leave_for_later
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.opinion.halves import BOTH, COOLS, FREEZER, FRIDGE, WARM, the_one

AS_WELL = frozenset(("too", "also", "both", "either", "neither", "aswell", "tambien", "tampoco", "ambos", "ambas"))
ONLY = frozenset(("only", "just", "solo", "solamente", "nomas", "sino", "instead", "rather"))
"""“no its just the freezer”: the other half is taken back."""
_NAMES = {
    FREEZER: frozenset(("freezer", "congelador", "frizer", "conge")),
    FRIDGE: frozenset(("fridge", "refrigerator", "refri", "refrigerador", "milk", "leche")),
}
_SHORT = 6
"""A text of more words than these tells its half by itself: “the freezer too”."""


def as_one(turn: Turn, key: str, before: Mapping[str, bool], reading: Reading) -> None:
    """Make one code of the halves of ticket *key* that are warm: those of *before* with what *reading* adds or denies."""
    ticket = turn.the(key)
    if ticket.appliance != COOLS:
        return
    held = {code for code in WARM if before.get(code)}
    words = frozenset(bare_words(reading.text))
    told = {f.code for f in reading.symptoms if f.appliance == COOLS} & WARM
    denied = {f.code for f in reading.denied if f.appliance == COOLS} & WARM
    if not denied and (other := _as_well(words, held)):
        told |= other
        leave_for_later(turn)  # “freezer too” is no answer to where the frost is
    if not told and not denied:
        return
    works = {code for code in WARM if ticket.symptoms.get(code) is False} - told
    warm = (told if told and (reading.corrects or ONLY & words) else held | told) - works
    if warm:
        hold(turn, ticket, the_one(warm, works), works, new=not held)


def _as_well(words: frozenset[str], held: set[str]) -> frozenset[str]:
    """What “freezer too” and “el congelador tampoco enfría” tell beside the other half."""
    if not held or not AS_WELL & words or len(words) > _SHORT:
        return frozenset()
    return frozenset(half for half, names in _NAMES.items() if names & words and half not in held)


def hold(turn: Turn, ticket: TicketState, code: str, works: set[str], *, new: bool) -> None:
    """Hold *code* in place of the other codes of its kind, and no observation that goes without it."""
    symptoms = {
        c: said for c, said in ticket.symptoms.items() if c not in WARM or (c in works and c not in (code, BOTH))
    }
    symptoms[code] = True
    if symptoms == ticket.symptoms:
        return
    rules = turn.rulebook.appliances[ticket.appliance]
    seen = {id: value for id, value in ticket.observations.items() if code not in rules.observations[id].unless}
    turn.change(ticket.key, symptoms=symptoms, observations=seen)
    turn.learned.add("symptom")
    if (ticket.key, code) not in turn.new_symptoms:
        turn.new_symptoms.append((ticket.key, code))
    if not new:
        turn.because("heard", f"One complaint of the refrigerator's cold: {code.replace('_', ' ')}.", code)
