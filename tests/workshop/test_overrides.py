"""What a shop's file lays over the base, told with the base beside it."""

from __future__ import annotations

from pathlib import Path

from service.rulebook.folder import read_folder
from service.rulebook.loading import load_rulebook
from service.workshop.overrides import overrides, told
from tests.conftest import RULES
from tests.rulebook.sound import broken, write


def test_each_override_stands_with_its_base_its_line_and_the_shops_reason(tmp_path: Path) -> None:
    report = told(write(tmp_path), "corner")

    assert report.exit_code == 0
    assert report.text == (
        "rules/shops/corner.yaml lays 3 things over the base.\n\n"
        "How often causes are met\n  line 31: dishwasher, seal_worn: 5 -> 6\n\n"
        "Owner checks\n"
        "  line 32: dishwasher, breaker_once (Reset the breaker once): offered -> not offered (old wiring)\n\n"
        'Sentences\n  line 33: en, greeting: "Hello, this is {shop}." -> "Corner Repair here, {shop}."\n\n'
        "The shop's alone\n  Visit fee: $89\n  Serves: dishwasher\n  Brands served: Mesadora\n  Brands refused: Zephrine\n"
        "  Recalls listed: 0\n  Replacing talked over for: nothing"
    )


def test_what_says_the_same_as_the_base_is_told_to_be_needless(tmp_path: Path) -> None:
    files = broken(
        "shops/corner.yaml", "weights: {dishwasher: {seal_worn: 6}}", "weights: {dishwasher: {seal_worn: 5}}"
    )

    text = told(write(tmp_path, files), "corner").text

    assert "line 31: dishwasher, seal_worn: same as the base" in text
    assert text.endswith("1 line the same as the base: may be deleted.")


def test_a_grade_and_the_weight_of_something_else_have_their_base(tmp_path: Path) -> None:
    own = "weights: {dishwasher: {something_else: 3}}\nevidence: {dishwasher: {seal_worn: {slow_drain: often, leak: rarely}}}"
    rules = write(tmp_path, broken("shops/corner.yaml", "weights: {dishwasher: {seal_worn: 6}}", own))

    found = {one.what: (one.base, one.own) for one in overrides(read_folder(rules, ["corner"]), "corner")}

    assert found["dishwasher, something_else"] == ("1", "3")
    assert found["dishwasher, seal_worn, leak"] == ("as usual", "rarely")
    assert found["dishwasher, seal_worn, slow_drain"] == ("almost always", "often")


def test_the_second_shop_changes_the_dishwasher_and_leaves_the_base_as_it_is() -> None:
    base, second = (load_rulebook(RULES, shop).appliances["dishwasher"] for shop in ("demo", "second"))

    assert second.causes["filter_clogged"].weight != base.causes["filter_clogged"].weight
    assert second.causes["filter_clogged"].evidence["odor"] != base.causes["filter_clogged"].evidence["odor"]
    assert set(base.checks) - set(second.checks) == {"reset_breaker"}
    assert {code for code in base.causes if base.causes[code] != second.causes[code]} == {"filter_clogged"}
