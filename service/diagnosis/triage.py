"""How soon somebody should come, and why: danger, urgency, a machine not to be used, symptoms, likely causes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from service.diagnosis.belief import shares_of, weigh_once
from service.diagnosis.checks import stop_use
from service.diagnosis.model import Evidence, Triage
from service.diagnosis.table import Table, compiled
from service.rulebook.schema.appliance import Appliance, StopUse
from service.rulebook.schema.common import Level

LEVELS: tuple[Level, ...] = ("now", "today", "soon", "routine")
"""Most pressing first."""

LIKELY_FROM = 0.30
"""Share of belief from which causes of a level raise the ticket to it. Our own choice, no source."""


def triage(appliance: Appliance | None, evidence: Evidence, urgency: Sequence[str]) -> Triage:
    """The ticket's level and its reasons, most pressing first; without an appliance only danger and urgency count."""
    found: list[tuple[Level, str]] = [("now", f"danger named: {_words(code)}") for code in sorted(evidence.hazards)]
    found += [("today", f"urgent: {_words(code)}") for code in dict.fromkeys(urgency)]
    if appliance is not None:
        table = compiled(appliance)
        found += _from_stop_use(table, evidence)
        found += _from_symptoms(appliance, evidence)
        found += _from_causes(table, evidence)
    found.sort(key=lambda one: LEVELS.index(one[0]))
    return Triage(found[0][0] if found else "routine", tuple(dict.fromkeys(why for _, why in found)))


def _from_stop_use(table: Table, evidence: Evidence) -> Iterable[tuple[Level, str]]:
    appliance = table.appliance
    code = stop_use(appliance, evidence, weigh_once(table, evidence).known)
    if code is None:
        return
    name, _, value = code.partition("=")
    rule = appliance.observations[name].stop_use[value] if value else appliance.symptoms[name].stop_use
    told = appliance.observations[name].trade if value else appliance.symptoms[name].trade
    answer = f" ({_words(value)})" if value else ""
    yield _stop_level(rule), f"not to be used: {told}{answer}"


def _stop_level(rule: StopUse | None) -> Level:
    return "today" if rule is not None and rule.signal in ("DANGER", "WARNING") else "soon"


def _from_symptoms(appliance: Appliance, evidence: Evidence) -> Iterable[tuple[Level, str]]:
    for code, symptom in appliance.symptoms.items():
        if evidence.symptoms.get(code) and symptom.level != "routine":
            yield symptom.level, f"reported: {symptom.trade}"


def _from_causes(table: Table, evidence: Evidence) -> Iterable[tuple[Level, str]]:
    """Levels of causes that together are likely, each level with the largest of its causes named."""
    causes = table.appliance.causes
    shares = dict(zip(table.causes, shares_of(table, evidence).tolist(), strict=True))
    for level in LEVELS[1:3]:
        pressing = {code: shares[code] for code, cause in causes.items() if cause.level in _at_least(level)}
        if sum(pressing.values()) >= LIKELY_FROM:
            first = max(pressing, key=lambda code: pressing[code])
            yield level, f"likely: {causes[first].name.en} ({round(100 * sum(pressing.values()))} % with its like)"
            return
    stopping = {code: shares[code] for code, cause in causes.items() if cause.stop_use}
    if sum(stopping.values()) >= LIKELY_FROM:
        first = max(stopping, key=lambda code: stopping[code])
        yield "soon", f"likely unsafe to run: {causes[first].name.en}"


def _at_least(level: Level) -> tuple[Level, ...]:
    return LEVELS[: LEVELS.index(level) + 1]


def _words(code: str) -> str:
    return code.replace("_", " ")
