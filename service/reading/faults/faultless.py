"""What a text that tells no fault says of storms, days and habits: small talk, nothing for the technician."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from service.reading.machines.kinds import burns_nothing
from service.reading.model import Asked, Reading

_OF_A_FAULT = ("since", "pattern", "after", "tried")
_OF_A_REPAIR = ("since", "pattern", "after")
"""What is told of a fault that is over; what was tried then is what helped."""
_COMPLAINS = frozenset(("report_problem", "not_fixed", "fixed", "unreadable"))


def without_fault(told: Reading, asked: Asked | None, about: str | None) -> Reading:
    """
    *told* without when it began, how often and after what, where a text tells no fault: “the storm flooded the road, is he
    still coming”, or a "no" that names the outage; and without a fuel that none of its machines burns.
    """
    if "fuel" in told.facts and asked is None and not told.hazards and burns_nothing(told):
        told = _without(told, ("fuel",))
    if "fixed" in told.intents and not (told.symptoms or told.hazards or asked or about):
        return _without(told, _OF_A_REPAIR if told.facts.get("after") == ("repair",) else _OF_A_REPAIR[:2])
    if told.symptoms or told.hazards or not told.intents or not _COMPLAINS.isdisjoint(told.intents):
        return told
    left: tuple[str, ...] = ()
    if asked or about:
        refused = asked is not None and asked.kind == "yes_no" and told.answer is not None and told.answer.kind == "no"
        left = ("after",) if refused else ()
    else:
        left = () if told.denied else _OF_A_FAULT
    return _without(told, left)


def _without(told: Reading, left: Collection[str]) -> Reading:
    """*told* without the facts that are *left* out."""
    kept = {name: value for name, value in told.facts.items() if name not in left}
    return replace(told, facts=kept) if len(kept) < len(told.facts) else told
