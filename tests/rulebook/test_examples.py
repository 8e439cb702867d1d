"""Every example in the rules is found with its place."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from service.rulebook.examples import every_example
from service.rulebook.loading import load_rulebook
from tests.conftest import RULES
from tests.rulebook.sound import SOUND, write


def test_every_example_is_found_once_with_its_file_rule_and_machine(tmp_path: Path) -> None:
    rulebook = load_rulebook(write(tmp_path), "corner")

    placed = list(every_example(rulebook))

    written = sum(text.count("{says:") for text in SOUND.values())
    assert len(placed) == written
    assert ("appliances/dishwasher/symptoms.yaml", "leak", "dishwasher") in {
        (p.file, p.rule, p.appliance) for p in placed
    }
    assert ("dangers.yaml", "active_leak", None) in {(p.file, p.rule, p.appliance) for p in placed}
    assert ("talk/appliances.yaml", "other", None) in {(p.file, p.rule, p.appliance) for p in placed}
    assert ("talk", "yes", None) in {(p.file, p.rule, p.appliance) for p in placed}


def test_no_text_stands_twice_as_an_example_of_one_rule() -> None:
    placed = Counter(
        (p.file, p.rule, p.appliance, p.example.says, p.example.asked)
        for p in every_example(load_rulebook(RULES, "demo"))
    )

    assert [example for example, count in placed.items() if count > 1] == []
