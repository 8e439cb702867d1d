"""What a text that tells no fault says of storms, days and habits: small talk, nothing for the technician."""

from __future__ import annotations

from dataclasses import replace

from service.reading.machines.kinds import burns_nothing
from service.reading.model import Asked, Reading

_OF_A_FAULT = ("since", "pattern", "after", "tried")
_COMPLAINS = frozenset(("report_problem", "not_fixed", "fixed", "unreadable"))


def without_fault(told: Reading, asked: Asked | None, about: str | None) -> Reading:
    """
    *told* without when it began, how often and after what, where a text tells no fault: “the storm flooded the road, is he
    still coming”, or a "no" that names the outage; and without a fuel that none of its machines burns.
    """
    if "fuel" in told.facts and asked is None and not told.hazards and burns_nothing(told):
        told = replace(told, facts={name: value for name, value in told.facts.items() if name != "fuel"})
    if told.symptoms or told.hazards or not told.intents or not _COMPLAINS.isdisjoint(told.intents):
        return told
    left: tuple[str, ...] = ()
    if asked or about:
        refused = asked is not None and asked.kind == "yes_no" and told.answer is not None and told.answer.kind == "no"
        left = ("after",) if refused else ()
    else:
        left = () if told.denied else _OF_A_FAULT
    kept = {name: value for name, value in told.facts.items() if name not in left}
    return replace(told, facts=kept) if len(kept) < len(told.facts) else told
