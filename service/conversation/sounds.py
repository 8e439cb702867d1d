"""What a machine sounds like beside its fault: “it just hums” of a washer that will not drain is no new noise."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.conversation.state import Asked, TicketState
from service.reading.model import Answer, Found, Reading
from service.reading.words.normalising import fold

NOISE = "noise"
_NO_FAULT = frozenset((NOISE, "vague"))

_SOFT = re.compile(r"\b(?:hum|buzz|whir|click|tick|zumb|clic|ronron|chasq)")
"""How words begin that tell of the sound of a motor, a pump or a relay at work, or trying to."""
_LOUD = re.compile(
    r"\b(?:loud|new|weird|strange|odd|funny|awful|horrible|terrible|crazy|annoying|bad|worse|scary|louder|violent|"
    r"fuerte|recio|raro|rara|nuevo|feo|fea|horrible|mucho|muchisimo|peor|molesta|molesto|espantoso|escandalo)"
)
"""What makes a complaint of any sound."""
_ANY_SOUND = re.compile(
    r"\b(?:hum|buzz|click|grind|rattl|squeal|squeak|clunk|thump|knock|bang|sound|noise|zumb|clic|rechin|muel|golpe|truen|suen|ruid)"
)
"""How words begin that tell of a sound at all, in what a question offers as its answers."""

_SHORT = 6
"""A text of at most so many words tells but what is heard: “hums normal”."""


def beside_the_fault(found: Found, ticket: TicketState, reading: Reading, asked: Asked | None) -> bool:
    """
    Whether the noise *found* only tells what the machine sounds like beside a fault that is told of it.

    A sound that answers what is heard does so however loud it is. A noise that is the complaint stays one.
    """
    if found.code != NOISE or ticket.symptoms.get(NOISE):
        return False
    if not _at_fault(found, ticket, reading):
        return False
    if asked is not None and asked.ticket == ticket.key and _what_is_heard(asked, reading.answer):
        return True
    told = fold(reading.text)
    return bool(_SOFT.search(fold(found.words))) and not _LOUD.search(told)


def _at_fault(found: Found, ticket: TicketState, reading: Reading) -> bool:
    """Whether something else is wrong with the machine, known before or told beside it."""
    if any(so and code not in _NO_FAULT for code, so in ticket.symptoms.items()):
        return True
    if any(not _NO_FAULT & set(group) for group in ticket.one_of):
        return True
    return any(f.code not in _NO_FAULT and f.appliance in (found.appliance, ticket.appliance) for f in reading.symptoms)


def sound_words(ticket: TicketState, reading: Reading) -> str | None:
    """The words that tell what the machine of *ticket* sounds like beside its fault; None where none do."""
    noises = [f for f in reading.symptoms if f.code == NOISE and f.appliance in ("unknown", ticket.appliance)]
    if any(_SOFT.search(fold(f.words)) and _at_fault(f, ticket, reading) for f in noises) and not ticket.symptoms.get(
        NOISE
    ):
        return next(f.words for f in noises if _SOFT.search(fold(f.words)))
    short = len(reading.text.split()) <= _SHORT and not reading.symptoms
    faulty = any(so and code not in _NO_FAULT for code, so in ticket.symptoms.items())
    usual = short and faulty and not ticket.symptoms.get(NOISE) and _SOFT.search(fold(reading.text))
    return reading.text if usual else None


def _what_is_heard(asked: Asked, given: Answer | None) -> bool:
    """Whether it was asked what is heard, and one of the sounds was told."""
    if asked.kind != "observation" or given is None or given.kind != "choice":
        return False
    return offers_sounds([say for _, say in asked.choices])


def offers_sounds(choices: Sequence[str]) -> bool:
    """Whether a question with these *choices* asks what is heard."""
    return sum(bool(_ANY_SOUND.search(fold(say))) for say in choices) > 1
