"""What a text that tells no fault says of storms, days and habits: small talk, nothing for the technician."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from service.reading.model import Asked, Reading

_OF_A_FAULT = ("since", "pattern", "after", "tried")
_COMPLAINS = frozenset(("report_problem", "not_fixed", "unreadable"))


def without_fault(told: Reading, intents: Collection[str], asked: Asked | None, about: str | None) -> Reading:
    """
    *told* without when it began, how often and after what, where a first text tells no fault: “the storm flooded the road, is
    he still coming”. What was tried stays with a machine that works again.
    """
    if asked or about or not intents or told.symptoms or told.hazards or not _COMPLAINS.isdisjoint(intents):
        return told
    if told.denied:
        return told
    left = [name for name in _OF_A_FAULT if name != "tried" or "fixed" not in intents]
    return replace(told, facts={name: value for name, value in told.facts.items() if name not in left})
