"""Whether a repair should be talked over against a new machine, by the shop's own thresholds. For people, never for texts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.rulebook.schema.shop import Replacing, Shop


@dataclass(frozen=True, slots=True)
class RepairOrReplace:
    """
    The shop's thresholds for a machine. repair_most_cents: dearer repairs are talked over. too_old: None while its age is
    not known.
    """

    rule: Replacing
    repair_most_cents: int
    too_old: bool | None


def repair_or_replace(shop: Shop, appliance: str, facts: Mapping[str, object]) -> RepairOrReplace | None:
    """The thresholds of *shop* for the machine with these *facts* (``age_years``); None where it has set none."""
    rule = shop.replace.get(appliance)
    if rule is None:
        return None
    try:
        age = float(str(facts["age_years"]))
    except (KeyError, ValueError):
        age = None
    return RepairOrReplace(
        rule, round(rule.new_cents * rule.cost_share), None if age is None else age >= rule.age_years
    )
