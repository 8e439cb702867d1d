"""Every kind of mistake in a rule file, and what its author is told, word for word. The cases stand in ``mistakes/``."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.rulebook.loading import RulesMistaken, check_rules, load_rulebook
from service.rulebook.problems import render
from service.rulebook.yaml_text import read_yaml
from tests.rulebook.sound import SOUND, broken, write

FOLDER = Path(__file__).parent / "mistakes"


def cases() -> dict[str, dict[str, str]]:
    """Each case by its file and name."""
    found: dict[str, dict[str, str]] = {}
    for path in sorted(FOLDER.glob("*.yaml")):
        written, problems = read_yaml(path, path.name)
        assert written, render(problems)
        for case in written.value:
            name = f"{path.stem}: {case['mistake']}"
            assert name not in found, f"two cases are called {name}"
            found[name] = case
    return found


CASES = cases()


@pytest.mark.parametrize("name", CASES)
def test_a_mistake_is_told_word_for_word(tmp_path: Path, name: str) -> None:
    case = CASES[name]

    problems = check_rules(write(tmp_path, broken(case["file"], case["instead_of"], case["stands"])))

    assert "\n".join(map(str, problems)) == case["told"].rstrip("\n")


def test_there_are_more_than_a_hundred_kinds_of_mistakes() -> None:
    assert len(CASES) > 100


def test_the_sound_rules_have_no_problem(tmp_path: Path) -> None:
    assert render(check_rules(write(tmp_path))) == ""


def test_all_problems_of_all_files_are_told_at_once_by_file_and_line(tmp_path: Path) -> None:
    files = broken("causes.yaml", "slow_drain: almost always", "slow_drian: almost always")
    files |= {"shops/corner.yaml": SOUND["shops/corner.yaml"].replace("Denver", "Dnver").replace("8900", "lots")}
    files |= {
        "appliances/dishwasher/parts.yaml": SOUND["appliances/dishwasher/parts.yaml"].replace("volume_l", "volume")
    }

    told = render(check_rules(write(tmp_path, files)))

    assert [line for line in told.splitlines() if not line.startswith("  ")] == [
        "rules/appliances/dishwasher/parts.yaml, line 2, part seal_kit, volume_l",
        "rules/appliances/dishwasher/parts.yaml, line 7, part seal_kit, volume",
        "rules/shops/corner.yaml, line 24, fees > visit_cents",
        "3 problems in 2 files. The rules now in use were not changed.",
    ]


def test_loading_refuses_what_the_check_refuses(tmp_path: Path) -> None:
    rules = write(tmp_path, broken("causes.yaml", "weight: 5", "weight: 0"))

    with pytest.raises(RulesMistaken) as refused:
        load_rulebook(rules, "corner")

    assert refused.value.problems == check_rules(rules)
    assert str(refused.value).endswith("1 problem in 1 file. The rules now in use were not changed.")


def test_a_mistake_in_another_shop_stops_only_that_shop(tmp_path: Path) -> None:
    other = SOUND["shops/corner.yaml"].replace("shop: corner", "shop: other").replace("8900", "lots")
    rules = write(tmp_path, {**SOUND, "shops/other.yaml": other})

    assert load_rulebook(rules, "corner").shop.name == "Corner Repair"
    with pytest.raises(RulesMistaken, match="shops/other"):
        load_rulebook(rules, "other")


def test_a_shop_that_has_no_file_is_named_with_the_nearest_one(tmp_path: Path) -> None:
    with pytest.raises(RulesMistaken) as refused:
        load_rulebook(write(tmp_path), "cornr")

    assert [str(problem) for problem in refused.value.problems] == [
        'rules/shops/cornr.yaml\n  There is no such shop file. Did you mean "corner"?'
    ]


def test_bytes_that_are_no_utf_8_are_told_with_their_line(tmp_path: Path) -> None:
    rules = write(tmp_path)
    path = rules / "appliances/dishwasher/parts.yaml"
    path.write_bytes(path.read_bytes().replace(b"juego", b"jue\xf1o"))

    assert [str(problem) for problem in check_rules(rules)] == [
        "rules/appliances/dishwasher/parts.yaml, line 3\n  The file is not UTF-8 text. Save it as UTF-8."
    ]


def test_an_empty_file_is_told(tmp_path: Path) -> None:
    rules = write(tmp_path, {**SOUND, "talk/answers.yaml": "# nothing yet\n"})

    assert "rules/talk/answers.yaml\n  The file is empty. Write its rules, or delete it." in map(
        str, check_rules(rules)
    )


def test_a_file_that_does_not_belong_in_an_appliance_folder_is_told(tmp_path: Path) -> None:
    rules = write(tmp_path, {**SOUND, "appliances/dishwasher/causs.yaml": "a: b\n"})

    assert [str(problem).splitlines()[:2] for problem in check_rules(rules)] == [
        ["rules/appliances/dishwasher/causs.yaml", "  No such file belongs here."]
    ]


def test_what_is_only_missing_is_told_but_does_not_stop_loading(tmp_path: Path) -> None:
    files = {name: text for name, text in SOUND.items() if not name.endswith(("parts.yaml", "/es.yaml"))}
    rules = write(tmp_path, files)

    told = check_rules(rules)

    assert [str(problem) for problem in told] == [
        "rules/appliances/dishwasher/parts.yaml\n  This file is missing; it holds the parts of dishwasher.",
        "rules/wording/es.yaml\n  This file is missing; it holds every sentence the line sends.",
    ]
    assert not any(problem.blocks for problem in told)
    assert load_rulebook(rules, "corner").appliances["dishwasher"].parts == {}


@pytest.mark.parametrize(("name", "what"), [("vocabulary.yaml", "every code"), ("dangers.yaml", "the hazards")])
def test_no_shop_can_do_without_codes_and_hazards(tmp_path: Path, name: str, what: str) -> None:
    files = {file: text for file, text in SOUND.items() if file != name}

    with pytest.raises(RulesMistaken, match=f"{name}\n  This file is missing; it holds {what}."):
        load_rulebook(write(tmp_path, files), "corner")


def test_a_hazard_without_a_rule_stops_loading(tmp_path: Path) -> None:
    text = SOUND["dangers.yaml"]
    first, second = text.index("  - code: smoke"), text.index("  - code: sparks")
    rules = write(tmp_path, {**SOUND, "dangers.yaml": text[:first] + text[second:]})

    with pytest.raises(RulesMistaken, match='The hazard "smoke" is not here'):
        load_rulebook(rules, "corner")
