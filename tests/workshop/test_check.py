"""What the rule author's check prints, and how it ends."""

from __future__ import annotations

from pathlib import Path

from service.workshop.check import check
from tests.rulebook.sound import SOUND, broken, write


def test_sound_rules_are_counted_and_may_be_used(tmp_path: Path) -> None:
    report = check(write(tmp_path))

    assert report.exit_code == 0
    assert report.text == (
        "dishwasher: 3 symptoms, 3 observations, 2 causes, 2 owner checks, 2 tests, 1 part\n"
        "common: 6 dangers, 1 reason for haste, 2 appliances by name only, 2 rules of talk, 2 sentences, 1 shop\n"
        "The rules can be used."
    )


def test_a_mistake_fails_the_check_and_tells_the_remedy(tmp_path: Path) -> None:
    report = check(write(tmp_path, broken("causes.yaml", "slow_drain: almost always", "slow_drian: almost always")))

    assert report.exit_code == 1
    assert report.text == (
        "rules/appliances/dishwasher/causes.yaml, line 7, cause seal_worn, evidence > slow_drian\n"
        '  "slow_drian" is not evidence. Did you mean "slow_drain"?\n'
        "  Evidence is a symptom or observation of dishwasher, or a hazard.\n"
        "1 problem in 1 file. The rules now in use were not changed."
    )


def test_every_shop_is_checked(tmp_path: Path) -> None:
    other = SOUND["shops/corner.yaml"].replace("shop: corner", "shop: other").replace("8900", "lots")

    report = check(write(tmp_path, {**SOUND, "shops/other.yaml": other}))

    assert report.exit_code == 1
    assert report.text.startswith("rules/shops/other.yaml, line 24, fees > visit_cents\n")


def test_a_folder_that_is_only_begun_passes_and_says_what_is_missing(tmp_path: Path) -> None:
    files = {name: text for name, text in SOUND.items() if not name.endswith(("causes.yaml", "checks.yaml"))}
    files["shops/corner.yaml"] = "\n".join(
        line for line in files["shops/corner.yaml"].splitlines() if not line.startswith(("weights", "checks"))
    )

    report = check(write(tmp_path, files))

    assert report.exit_code == 0
    assert report.text.splitlines()[:3] == [
        "rules/appliances/dishwasher/causes.yaml",
        "  This file is missing; it holds the causes of dishwasher.",
        "1 problem in 1 file.",
    ]
    assert "dishwasher: not whole yet" in report.text


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    report = check(tmp_path / "ruels")

    assert report.exit_code == 1
    assert "There is no such folder. Name the folder of the rules." in report.text
