"""What sheet and desk say of a machine's plate: recalls that are possible, and where replacing is talked over."""

from __future__ import annotations

from collections.abc import Mapping

from service.diagnosis.recalls import Possible, possible_recalls
from service.diagnosis.replacing import repair_or_replace
from service.pages import words
from service.rulebook.model import Rulebook


def recall_words(rulebook: Rulebook, appliance: str, facts: Mapping[str, object]) -> tuple[str, ...]:
    """A line for each notice that may fit the machine with these *facts*; none when none on the shop's list does."""
    return tuple(_recall(one) for one in possible_recalls(rulebook.shop, appliance, facts))


def no_recall_words(rulebook: Rulebook) -> str:
    """What the sheet says where none of the list fits: how old the list is, and that the plate decides."""
    dates = [recall.listed for recall in rulebook.shop.recalls]
    if not dates:
        return "Recall: the shop keeps no list yet. Check the model on its plate."
    return (
        f"Recall: none on the shop's list of {max(dates).isoformat()} fits what was told. Check the model on its plate."
    )


def replace_words(rulebook: Rulebook, appliance: str, facts: Mapping[str, object], cause: str | None) -> str:
    """
    The shop's thresholds for replacing and where this machine stands; empty where the shop set none.

    cause: the likeliest one, for the price of its parts. These words are for people who work here; no text ever says them.
    """
    found = repair_or_replace(rulebook.shop, appliance, facts)
    if found is None:
        return ""
    years = f"{float(str(facts['age_years'])):g} years" if found.too_old is not None else "age not told"
    age = f"{years}: old enough" if found.too_old else years
    most = words.money(found.repair_most_cents)
    said = f"Talk over a new one from {found.rule.age_years} years ({age}), or when the repair passes {most}"
    said += f" ({found.rule.cost_share:.0%} of a like new one, {words.money(found.rule.new_cents)})."
    parts = _parts(rulebook, appliance, cause)
    return f"{said}{parts} In person only: no text says this."


def _recall(one: Possible) -> str:
    recall = one.recall
    asked = f" Not told yet: {' and '.join(one.unknown)}." if one.unknown else ""
    return (
        f"Recall possible, verify on the plate: {recall.hazard}. Notice: {recall.notice}, listed "
        f"{recall.listed.isoformat()}.{asked} If it fits: {recall.remedy}."
    )


def _parts(rulebook: Rulebook, appliance: str, cause: str | None) -> str:
    rules = rulebook.appliances.get(appliance)
    if rules is None or cause not in rules.causes:
        return ""
    parts = [rules.parts[part] for part in rules.causes[cause].parts if part in rules.parts]
    if not parts:
        return ""
    low, high = sum(part.price_low_cents for part in parts), sum(part.price_high_cents for part in parts)
    return f" Parts for the likeliest fault run {words.money(low)} to {words.money(high)}."
