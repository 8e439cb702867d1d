"""Which owner checks may be offered at all: safety before arithmetic. What they are worth is reckoned elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from service.diagnosis.held import Held, held, several
from service.diagnosis.likelihoods import Floats
from service.diagnosis.model import Evidence, Limits
from service.diagnosis.table import Bools, Table
from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop


def stop_use(appliance: Appliance, evidence: Evidence, known: Held) -> str | None:
    """The symptom, or ``observation=value``, for which the machine must not be used; None if there is none."""
    for code, present in sorted(evidence.symptoms.items()):
        if present and code in appliance.symptoms and appliance.symptoms[code].stop_use is not None:
            return code
    for code, value in sorted(known.values.items()):
        if value in appliance.observations[code].stop_use:
            return f"{code}={value}"
    return None


def may_offer(table: Table, evidence: Evidence, known: Held, limits: Limits, shop: Shop) -> Bools:
    """
    By check, whether anything but the belief forbids it: danger, no use, nothing said yet, done, declined or ruled off.

    A doubtful or untold answer counts as given: this errs to safety.
    """
    checks = table.appliance.checks
    if (
        evidence.hazards
        or not limits.checks_allowed
        or limits.checks_used >= limits.checks_max
        or not known.present
        or stop_use(table.appliance, evidence, known) is not None
    ):
        return np.zeros(len(checks), dtype=bool)
    said = frozenset(_said(evidence, known))
    allowed = table.offering.open_with(known.present, said)
    off = (
        limits.checks_off
        | limits.declined
        | known.tried
        | evidence.checks.keys()
        | _switched_off(table.appliance, shop)
        | {code for code, check in checks.items() if not said.issuperset(check.only_if)}
    )
    for code in off & checks.keys():
        allowed[table.places[code]] = False
    if table.resets and _reset_done([table.checks[place] for place in table.resets], evidence, known):
        allowed[list(table.resets)] = False
    return allowed


def out_of_place(table: Table, evidence: Evidence, check: str) -> bool:
    """Whether what is told by now speaks against the owner's *check*, as a fuel does that its machine does not burn."""
    known = held(table, evidence)
    said, asked_of = frozenset(_said(evidence, known)), table.appliance.checks[check]
    return not said.isdisjoint(asked_of.never_if) or not said.issuperset(asked_of.only_if)


def chance_to_settle(table: Table, shares: Floats, check: str) -> float:
    """How likely *check* settles the complaint under the belief *shares*."""
    return float(shares @ table.settles[table.places[check]])


def _said(evidence: Evidence, known: Held) -> Iterable[str]:
    yield from evidence.hazards
    yield from (code for code, yes in evidence.symptoms.items() if yes)
    yield from (code for group in known.groups for code in group)
    yield from (f"{code}={value}" for code, value in evidence.observations.items())
    yield from (f"{code}={value}" for code, value in known.values.items())
    yield from (f"{fact}={value}" for fact, stated in evidence.facts.items() for value in several(stated))


def _reset_done(resets: Sequence[str], evidence: Evidence, known: Held) -> bool:
    """Whether anything was reset already: a breaker or reset button is reset one time only."""
    done = {code for code, result in evidence.checks.items() if result in ("fixed", "not_fixed")} | known.tried
    return "reset_breaker" in several(evidence.facts.get("tried", ())) or not done.isdisjoint(resets)


def _switched_off(appliance: Appliance, shop: Shop) -> set[str]:
    return {code for code, own in shop.checks.get(appliance.code, {}).items() if not own.offered}
