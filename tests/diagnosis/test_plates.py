"""Recalls that are possible by what was told of the plate, and from where on replacing is talked over."""

from __future__ import annotations

from datetime import date

import pytest

from service.diagnosis.recalls import possible_recalls
from service.diagnosis.replacing import repair_or_replace
from service.rulebook.loading import load_rulebook
from service.rulebook.schema.shop import Recall, Replacing, Serials, Shop
from tests.conftest import RULES


@pytest.fixture(scope="module")
def shop() -> Shop:
    latch = Recall(
        id="latch", listed=date(2026, 3, 12), appliance="dishwasher", brand="Mesadora", models=("MD-24*", "MD-18X"),
        serials=(Serials(first="M-100000", last="M-199999"),), hazard="may burn", remedy="leave it off", notice="letter",
    )  # fmt: skip
    hose = latch.model_copy(update={"id": "hose", "listed": date(2026, 5, 1), "models": (), "serials": ()})
    return load_rulebook(RULES, "demo").shop.model_copy(
        update={"recalls": (latch, hose), "replace": {"dishwasher": Replacing(age_years=10, cost_share=0.4, new_cents=80000)}}
    )  # fmt: skip


@pytest.mark.parametrize(
    ("model", "serial", "fits"),
    [
        ("MD-24B", "M123456", True),
        ("md 24b", "m-123456", True),
        ("MD-24B", "M199999", True),
        ("MD-24B", "M200000", False),
        ("MD-24B", "M12345", False),
        ("MD-18X", "M123456", True),
        ("MD-18XL", "M123456", False),
        ("MD-30", "M123456", False),
        ("MD", "", True),
        ("", "M123456", True),
        ("", "", True),
    ],
)
def test_a_notice_fits_by_model_and_serial_and_what_is_not_told_rules_nothing_out(
    shop: Shop, model: str, serial: str, fits: bool
) -> None:
    facts = {"brand": "Mesadora", "model": model, "serial": serial}

    found = {one.recall.id: one.unknown for one in possible_recalls(shop, "dishwasher", facts)}

    assert ("latch" in found) is fits
    assert "hose" in found
    if fits:
        assert found["latch"] == (*(() if model else ("model",)), *(() if serial else ("serial",)))


@pytest.mark.parametrize(
    ("appliance", "brand", "many"),
    [("dishwasher", "messadora", 2), ("dishwasher", "Tervane", 0), ("dishwasher", "", 0), ("dryer", "Mesadora", 0)],
)
def test_a_notice_is_for_its_brand_in_any_spelling_and_its_appliance(
    shop: Shop, appliance: str, brand: str, many: int
) -> None:
    assert len(possible_recalls(shop, appliance, {"brand": brand})) == many


def test_the_newest_notice_stands_first(shop: Shop) -> None:
    assert [one.recall.id for one in possible_recalls(shop, "dishwasher", {"brand": "Mesadora"})] == ["hose", "latch"]


@pytest.mark.parametrize(
    ("age", "too_old"), [(9, False), (9.9, False), (10, True), (15.0, True), (None, None), ("old", None)]
)
def test_the_shops_thresholds_for_replacing(shop: Shop, age: object, too_old: bool | None) -> None:
    found = repair_or_replace(shop, "dishwasher", {} if age is None else {"age_years": age})

    assert found is not None
    assert (found.repair_most_cents, found.too_old) == (32000, too_old)
    assert repair_or_replace(shop, "washer", {"age_years": 20}) is None
