"""What the evidence amounts to: each fact once, with how likely it is under each cause. No cause is weighed here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

import numpy as np

from service.diagnosis.grades import FLOOR, HEDGED, THEORY_LIFT
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence
from service.diagnosis.table import Table
from service.rulebook.schema.appliance import Appliance, FromFact

FAILED = ("not_fixed",)


class Held(NamedTuple):
    """
    Evidence weighed once: ids and, row by row, how likely each is under each cause; and what stands beside it.

    A standing group has the id ``poor_clean|wet_load``; a check that was tried has the check's id; theories are ``theory``.
    present: symptoms that are there or, in a group, may be, but for ``vague``. values: observations with those that facts
    answer. groups: open symptoms of groups not told apart. tried: checks done without help, also before anybody asked.
    """

    ids: tuple[str, ...]
    rows: Floats
    values: Mapping[str, str]
    groups: tuple[tuple[str, ...], ...]
    tried: frozenset[str]
    present: frozenset[str]


def held(table: Table, evidence: Evidence) -> Held:
    """Everything in *evidence* that this appliance's rules know, in an order that does not depend on how it came."""
    appliance = table.appliance
    values = known_values(appliance, evidence)
    groups = open_groups(appliance, evidence)
    tried = tried_in_vain(appliance, evidence)
    weighed = dict(_symptoms(table, evidence))
    weighed |= {"|".join(group): _any_of(table, group) for group in groups}
    weighed |= {code: _value(table, code, value, code in evidence.hedged) for code, value in values.items()}
    weighed |= {code: table.hazards[code] for code in evidence.hazards if code in table.hazards}
    weighed |= dict(_checks(table, evidence, tried))
    if evidence.theories and any(named := [cause in evidence.theories for cause in table.causes[:-1]]):
        weighed["theory"] = np.where([*named, False], THEORY_LIFT, 1.0)
    ids = tuple(sorted(weighed))
    rows = np.array([weighed[code] for code in ids]).reshape(len(ids), len(table.causes))
    present = {code for code, yes in evidence.symptoms.items() if yes}.union(*groups) - {"vague"}
    return Held(ids, rows, values, groups, tried, frozenset(present))


def known_values(appliance: Appliance, evidence: Evidence) -> dict[str, str]:
    """Observations as given, and those that a fact answers without asking; values the rules do not know are left out."""
    known = appliance.observations
    values = {
        code: value for code, value in evidence.observations.items() if code in known and value in known[code].values
    }
    if evidence.facts:
        for code, observation in known.items():
            if observation.from_facts and code not in evidence.observations:
                means = next((way.means for way in observation.from_facts if fact_says(evidence.facts, way)), None)
                if means in observation.values:
                    values[code] = means
    return values


def makes_sense(never_if: Iterable[str], values: Mapping[str, str]) -> bool:
    """Whether something that makes no sense with the answers *never_if* (``observation=value``) does with these *values*."""
    return all(values.get(name) != value for name, _, value in (answer.partition("=") for answer in never_if))


def fact_says(facts: Mapping[str, object], way: FromFact) -> bool:
    """Whether the stated facts hold what *way* looks for; a fact may have several values."""
    stated = facts.get(way.fact)
    if stated is None:
        return False
    if way.at_least is None and way.at_most is None:
        return way.equals is None or way.equals in several(stated)
    number = _number(stated)
    return (
        number is not None
        and (way.at_least is None or number >= way.at_least)
        and (way.at_most is None or number <= way.at_most)
        and (way.equals is None or way.equals in several(stated))
    )


def several(stated: object) -> tuple[str, ...]:
    """The values of a fact, as texts."""
    if isinstance(stated, str):
        return (stated,)
    if isinstance(stated, (tuple, Iterable)):  # the exact type first: the other asks far more
        return tuple(str(one) for one in stated)
    return (str(stated),)


def open_groups(appliance: Appliance, evidence: Evidence) -> tuple[tuple[str, ...], ...]:
    """Groups of which one is true and nobody has said which, each without the symptoms that were denied."""
    found: dict[tuple[str, ...], None] = {}
    for group in evidence.one_of:
        if not any(evidence.symptoms.get(code) for code in group):
            left = tuple(c for c in dict.fromkeys(group) if c in appliance.symptoms and c not in evidence.symptoms)
            if left:
                found[left] = None
    return tuple(found)


def tried_in_vain(appliance: Appliance, evidence: Evidence) -> frozenset[str]:
    """Checks that were done and did not help, whether the line offered them or the customer had done them before."""
    if "tried" not in evidence.facts and not evidence.checks:
        return frozenset()
    done = {code: result for code, result in evidence.checks.items() if result in ("fixed", *FAILED)}
    failed = {code for code, result in done.items() if result in FAILED and code in appliance.checks}
    if before := set(several(evidence.facts.get("tried", ()))):
        again = (code for code, check in appliance.checks.items() if not before.isdisjoint(check.done_if_tried))
        failed.update(code for code in again if code not in done)
    return frozenset(failed)


def _number(stated: object) -> float | None:
    try:
        return float(str(stated))
    except ValueError:
        return None


def _symptoms(table: Table, evidence: Evidence) -> Iterable[tuple[str, Floats]]:
    said = {code for code, present in evidence.symptoms.items() if present and code in table.symptoms}
    replaced = {code for one in said for code in table.appliance.symptoms[one].over}
    for code, present in evidence.symptoms.items():
        if code in table.symptoms and not (present and code in replaced):
            yes = table.symptoms[code]
            row = yes if present else 1 - yes
            yield code, HEDGED * row + (1 - HEDGED) * (1 - row) if code in evidence.hedged else row


def _any_of(table: Table, group: tuple[str, ...]) -> Floats:
    return np.asarray(1 - np.prod([1 - table.symptoms[code] for code in group], axis=0))


def _value(table: Table, code: str, value: str, hedged: bool) -> Floats:
    row = table.values[code][value]
    if not hedged:
        return row
    others = len(table.values[code]) - 1
    return HEDGED * row + (1 - HEDGED) / others * (1 - row)


def _checks(table: Table, evidence: Evidence, tried: frozenset[str]) -> Iterable[tuple[str, Floats]]:
    for place, code in enumerate(table.checks) if tried or evidence.checks else ():
        if code in tried:
            yield code, 1 - table.settles[place]
        elif evidence.checks.get(code) == "fixed":
            yield code, np.maximum(FLOOR, table.settles[place])
