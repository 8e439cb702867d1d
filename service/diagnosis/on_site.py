"""What a danger that was named means for the visit: what is done before all else, and what the machine is taken for."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace

from service.diagnosis.duration import rounded_up
from service.diagnosis.model import Evidence, VisitPlan
from service.rulebook.schema.danger import OnSite


def done_first(rules: Iterable[OnSite], hazards: Collection[str]) -> tuple[OnSite, ...]:
    """
    The *rules* for the *hazards* named, cleared or not, in the rules' order.

    A hazard that a person at a desk has cleared still comes first at the machine: nobody has measured there yet.
    """
    return tuple(rule for rule in rules if not {*rule.dangers}.isdisjoint(hazards))


def taken_for(rules: Iterable[OnSite], hazards: Collection[str], evidence: Evidence) -> Evidence:
    """*evidence* with what the *hazards* suggest of the machine where nobody told: a smell of gas, a gas machine."""
    suggested = {fact: value for rule in done_first(rules, hazards) for fact, value in rule.suggests.items()}
    return replace(evidence, facts={**suggested, **evidence.facts}) if suggested else evidence


def with_time_for_it(plan: VisitPlan, rules: Iterable[OnSite], hazards: Collection[str]) -> VisitPlan:
    """*plan* with the minutes of what is done first for the *hazards*: they come before all that its tests take."""
    minutes = sum(rule.minutes for rule in done_first(rules, hazards))
    if not minutes:
        return plan
    return replace(
        plan, minutes_usual=plan.minutes_usual + minutes, minutes_promise=rounded_up(plan.minutes_promise + minutes)
    )
