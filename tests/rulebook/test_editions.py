"""An edition: what a shop lays over the base, and that its fingerprint stands for all of it."""

from __future__ import annotations

import json
from datetime import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.rulebook.edition import Source
from service.rulebook.loading import load_rulebook, rulebook_from_source
from service.rulebook.model import Rulebook
from tests.rulebook.sound import SOUND, write


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    return write(tmp_path)


@pytest.fixture(scope="module")
def corner(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return load_rulebook(write(tmp_path_factory.mktemp("corner")), "corner")


def test_a_zip_code_a_time_and_a_no_stay_what_was_written(corner: Rulebook) -> None:
    assert "02134" in corner.shop.area
    assert corner.shop.hours["mon"].end == time(12, 30)
    assert corner.shop.checks["dishwasher"]["breaker_once"].offered is False
    assert corner.appliances["dishwasher"].checks["clean_filter"].power == "off"
    assert corner.appliances["dishwasher"].observations["new_disposal"].from_facts[0].means == "yes"


def test_a_shop_overrides_weights_checks_and_wording_without_touching_the_base(rules: Path) -> None:
    dishwasher = load_rulebook(rules, "corner").appliances["dishwasher"]

    assert dishwasher.causes["seal_worn"].weight == 6
    assert dishwasher.causes["filter_clogged"].weight == 8
    assert list(dishwasher.checks) == ["clean_filter"]
    assert load_rulebook(rules, "corner").wording["en"]["greeting"] == "Corner Repair here, {shop}."
    assert load_rulebook(rules, "corner").wording["es"]["greeting"] == "Hola, somos {shop}."


def test_a_shop_overrides_grades_and_what_is_not_listed(tmp_path: Path) -> None:
    own = SOUND["shops/corner.yaml"].replace(
        "weights: {dishwasher: {seal_worn: 6}}",
        "weights: {dishwasher: {something_else: 9}}\n"
        "evidence: {dishwasher: {filter_clogged: {no_drain: rarely, leak: often}}}",
    )
    dishwasher = load_rulebook(write(tmp_path, {**SOUND, "shops/corner.yaml": own}), "corner").appliances["dishwasher"]

    assert dishwasher.something_else == 9
    assert dishwasher.causes["filter_clogged"].evidence == {
        "leak": "often",
        "no_drain": "rarely",
        "sink_backs_up": "rarely",
    }


def test_a_stored_edition_loads_as_what_it_was(corner: Rulebook) -> None:
    again = rulebook_from_source(corner.source)

    assert again == corner
    assert again.fingerprint == corner.fingerprint
    assert again.shop == corner.shop
    assert dict(again.appliances) == dict(corner.appliances)
    assert list(again.appliances["dishwasher"].causes) == list(corner.appliances["dishwasher"].causes)
    assert dict(again.dangers) == dict(corner.dangers)
    assert dict(again.talk) == dict(corner.talk)
    assert again.wording == corner.wording
    assert again.vocabulary == corner.vocabulary


def test_a_rulebook_is_loaded_once_while_its_files_stay_as_they_are(rules: Path) -> None:
    first = load_rulebook(rules, "corner")
    assert load_rulebook(rules, "corner") is first

    path = rules / "shops/corner.yaml"
    path.write_text(path.read_text("utf-8").replace("name: Corner Repair", "name: Corner Repairs"), "utf-8")

    assert load_rulebook(rules, "corner").shop.name == "Corner Repairs"


def test_the_order_of_keys_in_a_file_does_not_change_the_fingerprint(tmp_path: Path, corner: Rulebook) -> None:
    name = "appliances/dishwasher/causes.yaml"
    turned = SOUND[name].replace("no_drain: often, sink_backs_up: rarely", "sink_backs_up: rarely, no_drain: often")
    assert turned != SOUND[name]

    assert load_rulebook(write(tmp_path, {**SOUND, name: turned}), "corner").fingerprint == corner.fingerprint


def test_a_comment_does_not_change_the_fingerprint(tmp_path: Path, corner: Rulebook) -> None:
    files = {name: f"# a remark\n{text}" for name, text in SOUND.items()}

    assert load_rulebook(write(tmp_path, files), "corner").fingerprint == corner.fingerprint


def test_the_rulebook_cannot_be_changed(corner: Rulebook) -> None:
    with pytest.raises(TypeError):
        corner.appliances["washer"] = corner.appliances["dishwasher"]
    with pytest.raises(AttributeError):
        corner.fingerprint = "other"
    with pytest.raises(ValueError, match="frozen"):
        corner.shop.name = "Other"


def _leaves(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    if isinstance(value, dict):
        return [leaf for key, item in value.items() for leaf in _leaves(item, (*path, key))]
    if isinstance(value, list):
        return [leaf for place, item in enumerate(value) for leaf in _leaves(item, (*path, place))]
    return [path]


def _changed(value: object) -> object:
    """Another value of the same kind."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value + 1
    return f"{value}x" if value else "x"


@given(data=st.data())
def test_a_change_of_any_field_changes_the_fingerprint(corner: Rulebook, data: st.DataObject) -> None:
    source = json.loads(corner.source)
    path = data.draw(st.sampled_from(_leaves(source)))
    place = source
    for part in path[:-1]:
        place = place[part]
    place[path[-1]] = _changed(place[path[-1]])
    changed = json.dumps(source, ensure_ascii=False, separators=(",", ":"))
    assert changed != corner.source

    try:
        other = rulebook_from_source(changed)
    except ValueError:
        return  # a value the schema does not allow: there is no such edition
    assert other.fingerprint != corner.fingerprint
    assert other != corner


def test_the_source_is_canonical(corner: Rulebook) -> None:
    assert Source.model_validate_json(corner.source).model_dump_json() == corner.source
    assert json.dumps(json.loads(corner.source), ensure_ascii=False, separators=(",", ":")) == corner.source


def test_two_shops_of_one_base_are_two_editions(tmp_path: Path, corner: Rulebook) -> None:
    other = SOUND["shops/corner.yaml"].replace("shop: corner", "shop: other")
    rules = write(tmp_path, {**SOUND, "shops/other.yaml": other})

    assert load_rulebook(rules, "other").fingerprint != corner.fingerprint
    assert load_rulebook(rules, "corner").fingerprint == corner.fingerprint
