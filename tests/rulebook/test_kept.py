"""Editions kept beside the rules: the same edition again, sooner; never a changed, torn or mistaken one."""

from __future__ import annotations

import shutil
import time
from pathlib import Path

import pytest

from service.rulebook import kept, loading
from service.rulebook.loading import RulesMistaken, load_rulebook
from tests.conftest import RULES
from tests.rulebook.sound import write


def again(rules: Path, shop: str = "corner") -> loading.Rulebook:
    """As a process that has just begun."""
    loading._loaded.cache_clear()
    return load_rulebook(rules, shop)


def test_the_same_files_give_the_same_edition_from_what_was_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rules = write(tmp_path)
    first = again(rules)
    monkeypatch.setattr(loading, "read_folder", lambda *_: pytest.fail("the files were read again"))

    second = again(rules)

    assert (second.fingerprint, second.source) == (first.fingerprint, first.source)
    assert second.appliances["dishwasher"] == first.appliances["dishwasher"]
    assert second.shop == first.shop


def test_a_changed_file_and_another_shop_are_read_anew(tmp_path: Path) -> None:
    rules = write(tmp_path)
    first = again(rules)
    path = rules / "appliances/dishwasher/causes.yaml"
    path.write_text(path.read_text("utf-8").replace("weight: 8", "weight: 9"), "utf-8")

    assert again(rules).fingerprint != first.fingerprint
    with pytest.raises(RulesMistaken, match="There is no such shop file"):
        again(rules, "elsewhere")


def test_a_mistake_is_never_kept(tmp_path: Path) -> None:
    rules = write(tmp_path)
    path = rules / "appliances/dishwasher/causes.yaml"
    path.write_text(path.read_text("utf-8").replace("weight: 8", "weight: none"), "utf-8")

    for _ in range(2):
        with pytest.raises(RulesMistaken, match="is not a number"):
            again(rules)
    assert not (rules / kept.FOLDER).exists()


@pytest.mark.parametrize("spoilt", ["", "{}", "torn"])
def test_what_is_kept_torn_or_changed_is_passed_over_and_mended(tmp_path: Path, spoilt: str) -> None:
    rules = write(tmp_path)
    first = again(rules)
    (file,) = (rules / kept.FOLDER).glob("*.json")
    whole = file.read_text("utf-8")
    file.write_text(whole[: len(whole) // 2] if spoilt == "torn" else spoilt, "utf-8")

    assert again(rules).fingerprint == first.fingerprint
    assert file.read_text("utf-8") == whole


def test_only_so_many_are_kept(tmp_path: Path) -> None:
    for number in range(kept.MOST + 3):
        kept.keep(tmp_path, "corner", str(number), "{}")
    assert len(list((tmp_path / kept.FOLDER).iterdir())) == kept.MOST


def test_a_folder_that_cannot_be_written_is_no_hindrance(tmp_path: Path) -> None:
    rules = write(tmp_path)
    (rules / kept.FOLDER).write_text("a file where the folder would be", "utf-8")

    assert again(rules).fingerprint == again(rules).fingerprint


def test_all_rules_load_several_times_sooner_from_what_was_kept(tmp_path: Path) -> None:
    rules = Path(shutil.copytree(RULES, tmp_path / "rules", ignore=shutil.ignore_patterns(kept.FOLDER)))

    def cpu_s() -> float:
        begun = time.process_time()
        again(rules, "demo")
        return time.process_time() - begun

    anew = cpu_s()
    assert min(cpu_s() for _ in range(2)) < anew / 2
