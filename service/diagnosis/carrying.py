"""The load list of a visit and the chance to finish with it: each part with what carrying it saves."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.diagnosis.likelihoods import Floats
from service.diagnosis.load import Carried, Needs, best_load
from service.diagnosis.model import LoadItem
from service.diagnosis.table import Table
from service.rulebook.schema.shop import Shop

WORTH_NAMING = 0.005
"""Parts and causes with less chance are not named."""
DONE_ONCE_FOUND, DONE_UNFOUND = 0.95, 0.50
"""
Chance that a visit ends repaired with the parts on board: cause shown by a planned test, or not. Our own choice, no source;
the reports hold the chance to finish against what happens.
"""
SHOWN_FROM = 0.02
RAISED_FROM = 0.02
"""A part is named as what would raise the chance to finish if it raises it by this much."""


@dataclass(frozen=True, slots=True)
class Carrying:
    """items: the load list, carried parts first. load: parts on board. finish, finish_with: as in ``VisitPlan``."""

    items: tuple[LoadItem, ...]
    load: frozenset[str]
    finish: float
    finish_with: tuple[str, float] | None


def carrying(table: Table, shares: Floats, shown: Floats, shop: Shop, van_litres: float) -> Carrying:
    """What to load. shown: by cause, the chance that a planned test shows it."""
    appliance = table.appliance
    named = [frozenset(cause.parts) for cause in appliance.causes.values()]
    needs: Needs = list(zip(shares.tolist(), named, strict=False))
    parts = {code: Carried(part.carry_cents, part.volume_l) for code, part in appliance.parts.items()}
    trip = float(shop.fees.second_trip_cents)
    load = best_load(needs, parts, trip, van_litres)
    done = (shares * np.where(shown >= SHOWN_FROM, DONE_ONCE_FOUND, DONE_UNFOUND)).tolist()
    able = sum(chance for chance, need in zip(done, [*named, frozenset[str]()], strict=True) if need <= load)
    raised = _by_one_part(list(zip(done, named, strict=False)), load)
    best = max(raised, key=lambda part: raised[part], default=None)
    more = None if best is None or raised[best] < RAISED_FROM else (best, able + raised[best])
    return Carrying(_items(needs, parts, trip, load), load, able, more)


def _by_one_part(chances: Needs, load: frozenset[str]) -> dict[str, float]:
    """What each part alone would add, over the causes that lack nothing but it."""
    added: dict[str, float] = {}
    for chance, need in chances:
        lacking = need - load
        if len(lacking) == 1:
            (part,) = lacking
            added[part] = added.get(part, 0.0) + chance
    return added


def _items(needs: Needs, parts: dict[str, Carried], trip: float, load: frozenset[str]) -> tuple[LoadItem, ...]:
    """Each part with its chance and the saving in cents of having it, given the rest of the load."""
    chance = dict.fromkeys(parts, 0.0)
    decided = dict.fromkeys(parts, 0.0)
    for share, need in needs:
        for part in need & parts.keys():
            chance[part] += share
            decided[part] += share if need - {part} <= load else 0.0
    items = [
        LoadItem(part, chance[part], part in load, round(decided[part] * trip - parts[part].cents))
        for part in parts
        if chance[part] >= WORTH_NAMING or part in load
    ]
    items.sort(key=lambda item: (not item.carry, -round(item.chance, 9)))
    return tuple(items)
