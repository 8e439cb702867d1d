"""A fuel that is told spares the questions and the choices that only ask for it: “It is a gas oven” of a gas oven."""

from __future__ import annotations

import re

from service.conversation.state import TicketState
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.seen import Answer, Observation

_IS = re.compile(r"^it is (?:an? )?(gas|electric)\b")
_IS_NOT = re.compile(r"\bnot (gas|electric)$")
_OF = re.compile(r", (gas|electric)$")
_NAMED = re.compile(r"\b(?:gas|ele[ck]tri|el[eé]ctric)")
_LEAST = 2
"""Fewer choices are no question."""


def told_by_fuel(rules: Appliance | None, ticket: TicketState) -> frozenset[str]:
    """The observations that the fuel told answers by itself: nobody is asked what an electric oven's igniter does."""
    fuel = ticket.facts.get("fuel")
    if rules is None or fuel is None:
        return frozenset()
    return frozenset(o.id for o in rules.observations.values() if any(_fuel(_IS, a) == fuel for a in o.answers))


def choices_for(known: Observation, ticket: TicketState) -> list[str]:
    """The answers to *known* that are offered: all but those that speak of another fuel than the one told."""
    fuel = ticket.facts.get("fuel")
    every = [a.value for a in known.answers]
    if fuel not in ("gas", "electric"):
        return every
    left = [a.value for a in known.answers if not _of_another(a, str(fuel))]
    return left if len(left) >= _LEAST else every


def only_by_fuel(answer: Answer, text: str) -> bool:
    """Whether *answer* only tells a fuel that *text* does not name: “oven” is no “It is a gas oven”."""
    return _fuel(_IS, answer) is not None and _NAMED.search(text.lower()) is None


def _of_another(answer: Answer, fuel: str) -> bool:
    told = (_fuel(_IS, answer), _fuel(_OF, answer))
    return any(other is not None and other != fuel for other in told) or _fuel(_IS_NOT, answer) == fuel


def _fuel(pattern: re.Pattern[str], answer: Answer) -> str | None:
    found = pattern.search(answer.say.en.lower())
    return found.group(1) if found else None
