"""Which of the shop's recall notices a machine may fall under, as far as its plate has been told. Never for customers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.rulebook.plates import plate
from service.rulebook.schema.shop import Recall, Shop


@dataclass(frozen=True, slots=True)
class Possible:
    """A notice that may fit. unknown: what of the plate nobody has told yet, of ``model`` and ``serial``."""

    recall: Recall
    unknown: tuple[str, ...]


def possible_recalls(shop: Shop, appliance: str, facts: Mapping[str, object]) -> tuple[Possible, ...]:
    """
    The notices of *shop* for a machine, newest first. facts: its brand, model and serial as told or on record.

    What was not told rules nothing out; without a brand nothing is shown, since all would be. A model told in part
    ("starts with DW-24") fits where the longer number does.
    """
    brand = str(facts.get("brand") or "")
    model, serial = (plate(str(facts.get(name) or "")) for name in ("model", "serial"))
    found = []
    for recall in shop.recalls:
        if recall.appliance != appliance or not brand or not _same_brand(shop, brand, recall.brand):
            continue
        if _model_fits(recall, model) and _serial_fits(recall, serial):
            asked = (("model", recall.models, model), ("serial", recall.serials, serial))
            found.append(Possible(recall, tuple(name for name, wanted, told in asked if wanted and not told)))
    return tuple(sorted(found, key=lambda one: one.recall.listed, reverse=True))


def _same_brand(shop: Shop, told: str, listed: str) -> bool:
    spellings = {**shop.brands.serves, **shop.brands.refuses}
    same = {listed.casefold(), *(spelling.casefold() for spelling in spellings.get(listed, ()))}
    return told.casefold() in same


def _model_fits(recall: Recall, told: str) -> bool:
    if not recall.models or not told:
        return True
    listed = ((plate(model), model.endswith("*")) for model in recall.models)
    return any(model.startswith(told) or (open_ended and told.startswith(model)) for model, open_ended in listed)


def _serial_fits(recall: Recall, told: str) -> bool:
    if not recall.serials or not told:
        return True
    return any(
        len(told) == len(plate(run.first)) and plate(run.first) <= told <= plate(run.last) for run in recall.serials
    )
