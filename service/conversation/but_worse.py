"""“it works now but the flame is orange”: what is told behind the “but” is not settled, so that nothing is closed."""

from __future__ import annotations

from service.conversation.matters import bare_words, nothing_but
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.opinion.leaning import TOLD_TEXTS

_BUT = frozenset(("but", "though", "tho", "although", "except", "however", "pero", "aunque", "excepto", "sino"))
_BEHIND = frozenset(("though", "tho"))
"""May stand last in what it sets against the rest: “works. the flame is orange though”."""
_ASKS = frozenset((
    "what", "why", "how", "when", "who", "where", "can", "could", "do", "should", "will", "would", "que", "por", "como",
    "cuando", "quien", "puede", "pueden", "debo", "is", "are",
))  # fmt: skip
_NO_FAULT = frozenset(
    ("took", "tardo", "thanks", "thank", "gracias", "i", "we", "you", "yo", "im", "ill", "well", "lol", "jaja", "wow")
)


def but_worse(turn: Turn, reading: Reading) -> bool:
    """
    Whether behind a “but” they tell something that is not settled.

    A fault that is read there, or words about the machine; who only thanks, asks or speaks of themselves tells none.
    """
    words = bare_words(reading.text)
    at = next((n for n, word in enumerate(words) if word in _BUT), None)
    if at is None:
        return False
    if words[-1] in _BEHIND:
        return bool(reading.symptoms)
    if any(found.rule != TOLD_TEXTS and not _BUT.isdisjoint(bare_words(found.words)) for found in reading.symptoms):
        return True  # a fault told across the “but”: “lights but its orange”
    behind = words[at + 1 :]
    if not behind or nothing_but(turn.rulebook, " ".join(behind), "worked", "cheers", "small_words", "plain_yes"):
        return False
    told = turn.reader.read(" ".join(behind), about=_about(turn))
    if told.symptoms or told.hazards or "not_fixed" in told.intents:
        return True
    if "fixed" in told.intents or told.denied:
        return False
    if behind[0] in _ASKS or _NO_FAULT & {*behind[:2]}:
        return False
    return "fixed" in turn.reader.read(" ".join(words[:at]), about=_about(turn)).intents


def _about(turn: Turn) -> str | None:
    focus = turn.state.in_focus
    return focus.appliance if focus is not None else None
