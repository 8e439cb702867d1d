"""What the workshop finds left to mend, in small rules broken one way at a time, and that the shipped ones have no gaps."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from service.rulebook.folder import ApplianceFolder, Folder, read_folder
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.workshop.cover import cover, findings
from service.workshop.cover.loose import least, loose
from service.workshop.cover.phrases import wordings
from service.workshop.cover.walk import in_vain
from tests.conftest import RULES
from tests.rulebook.sound import broken, write

WALKED = ("dryer",)
"""Questions and checks that are never met take seconds a machine to look for; the command does it for all of them."""


def told(tmp_path: Path, file: str, instead_of: str, stands: str) -> str:
    """What is told of the sound rules with one change, of that file only."""
    report = cover(write(tmp_path, broken(file, instead_of, stands)), "corner")
    assert report.exit_code == 1
    return "\n".join(line.strip() for line in report.text.splitlines())


def test_a_symptom_without_phrases_in_spanish_is_named_with_its_line(tmp_path: Path) -> None:
    text = told(tmp_path, "symptoms.yaml", "signs: {en: [leak], es: [gotea]}", "signs: {en: [leak]}")

    assert "rules/appliances/dishwasher/symptoms.yaml, line 17, symptom leak" in text
    assert "No phrase in Spanish is heard as leak. Write what people say under signs, es, with an example." in text


def test_an_observation_heard_in_one_language_only_is_named(tmp_path: Path) -> None:
    text = told(tmp_path, "observations.yaml", "signs: {en: [sink backs up], es: [se llena el fregadero]}",
                "signs: {en: [sink backs up]}")  # fmt: skip

    assert "This is heard in one language only, not in Spanish. Write phrases under es." in text


def test_a_wording_that_two_symptoms_claim_is_shown_with_both_lines(tmp_path: Path) -> None:
    text = told(tmp_path, "symptoms.yaml", "signs: {en: [leak], es: [gotea]}",
                'signs: {en: [leaks, "[dry|drains] (so) slowly"], es: [gotea]}')  # fmt: skip

    assert "claim" not in text, "the gap of the other phrase is not this wording"
    text = told(tmp_path / "again", "symptoms.yaml", "signs: {en: [leak], es: [gotea]}",
                'signs: {en: [leaks, "[drip|trickle] (so)", "=trickle"], es: [gotea]}')  # fmt: skip
    assert '"trickle" is also heard as leak, in line 20. Keep it with one' in text


@pytest.mark.parametrize(
    ("phrase", "left"),
    [
        ("[hot|cold] (spots)", ["hot", "cold"]),
        ("(really) loud", ["loud"]),
        ("[hot|cold] [spots|in the middle]", []),
        ("loud", []),
        ("water * (on the) floor", []),
        ("(it) [is off|off] (now)", ["off"]),
    ],
)
def test_a_phrase_may_come_down_to_one_word(phrase: str, left: list[str]) -> None:
    assert least(phrase) == left


def test_a_phrase_that_is_heard_nearly_everywhere_is_told_unless_its_word_is_written_alone(tmp_path: Path) -> None:
    rules = tmp_path / "rules"
    shutil.copytree(RULES, rules, ignore=shutil.ignore_patterns(".kept"))
    file = rules / "appliances" / "dryer" / "symptoms.yaml"
    was = file.read_text(encoding="utf-8")
    for put, told_of in (
        ('"[not right]"', 0),
        ('"[hot|cold] (spots)"', 1),
        ('"[hot|cold] (spots)"\n        - hot\n        - cold', 0),
    ):
        file.write_text(was.replace("        - not right\n", f"        - {put}\n", 1), encoding="utf-8")
        found = [f for f in loose(*_dryer(rules)) if "spots" in f.problem.found]
        assert len(found) == told_of, put
    assert all(f.kind == "loose" for f in found)


def _dryer(rules: Path) -> tuple[Folder, ApplianceFolder]:
    folder = read_folder(rules, ["demo"])
    return folder, folder.appliances["dryer"]


def test_a_symptom_over_another_may_share_its_wordings(tmp_path: Path) -> None:
    files = broken("symptoms.yaml", 'es: ["desagua (muy) lento"]}', 'es: ["desagua (muy) lento", gotea]}')
    files["appliances/dishwasher/symptoms.yaml"] = files["appliances/dishwasher/symptoms.yaml"].replace(
        "over: [no_drain]", "over: [no_drain, leak]"
    )
    assert "claim" not in cover(write(tmp_path, files), "corner").text


def test_causes_that_nothing_tells_apart_are_named(tmp_path: Path) -> None:
    files = broken("causes.yaml", "something_else: 1", "something_else: 2")
    twin = """  - id: seal_torn
    name: {en: drain seal torn, es: sello roto}
    weight: 5
    evidence:
      slow_drain: almost always
      drain_type: {valve: always, pump: never}
    parts: [seal_kit]
    repair_min: 15
    repair: fit a new seal
    source: common practice, no source
"""
    files["appliances/dishwasher/causes.yaml"] += twin
    name = "appliances/dishwasher/tests.yaml"
    files[name] = files[name].replace("{seal_worn: always}", "{seal_worn: always, seal_torn: always}")

    text = cover(write(tmp_path, files), "corner").text

    assert "Nothing tells seal_torn from seal_worn (line 3): no answer, no owner check, no test." in text
    files[name] = files[name].replace("seal_torn: always", "seal_torn: rarely")
    assert "Nothing tells" not in cover(write(tmp_path / "told_apart", files), "corner").text


def test_a_part_a_tool_and_a_panel_that_nothing_needs_are_named(tmp_path: Path) -> None:
    files = broken("causes.yaml", "    parts: [seal_kit]\n", "")
    name = "appliances/dishwasher/tests.yaml"
    files[name] = files[name].replace("    opening: toe_panel\n", "")
    files["appliances/dishwasher/parts.yaml"] += "  - {id: hammer, name: hammer}\n"

    text = cover(write(tmp_path, files), "corner").text

    assert "No cause is mended with this part." in text
    assert "parts.yaml, line 10, tool hammer" in text
    assert "No test is behind this panel." in text


def test_a_question_no_cause_answers_differently_is_never_worth_asking(tmp_path: Path) -> None:
    text = told(tmp_path, "observations.yaml", "trade: new disposal", "trade: new disposal put in")

    assert "observation new_disposal" in text
    assert "new_disposal is never worth asking: no answer changes what is done next by enough." in text


def test_a_check_that_is_always_forbidden_is_never_offered(tmp_path: Path) -> None:
    text = told(tmp_path, "checks.yaml", "settles: {filter_clogged: very often}", "settles: {filter_clogged: often}")

    assert "clean_filter is never offered" in text, "it is unsafe for the only other cause"
    mended = broken("checks.yaml", "    unsafe_for: [seal_worn]\n", "")
    assert "clean_filter is never offered" not in cover(write(tmp_path / "mended", mended), "corner").text


def test_a_check_that_the_shop_switched_off_is_not_missed(tmp_path: Path) -> None:
    assert "breaker_once" not in cover(write(tmp_path), "corner").text


def test_wording_that_is_too_long_or_too_hard_is_named(tmp_path: Path) -> None:
    long = "Does the sink back up " + "when it drains and then again " * 12 + "?"
    hard = "Subsequently investigate potentially deteriorated electrical connections immediately underneath"
    text = told(tmp_path, "observations.yaml", "Does the sink back up?", long)
    assert "This costs 3 segments (383 units of GSM-7). Shorten it to 2 segments." in text
    text = told(tmp_path / "hard", "observations.yaml", "Does the sink back up?", f"{hard}?")
    assert "at most 9 for 8 words. Make sentences shorter, and take shorter words." in text


def test_an_appliance_without_rules_is_told_with_those_that_have_some(tmp_path: Path) -> None:
    report = cover(write(tmp_path), "corner", ["toaster"])

    assert (report.text, report.exit_code) == ("There are no rules for toaster. Those with rules: dishwasher.", 1)


def test_a_phrase_is_compared_in_all_its_wordings() -> None:
    assert {words for _, words in wordings("[leaks|drips] (all) over", "en")} == {
        "leaks over", "leaks all over", "drips over", "drips all over",
    }  # fmt: skip


@pytest.fixture(scope="module")
def shipped() -> tuple[Rulebook, Folder]:
    return load_rulebook(RULES, "demo"), read_folder(RULES, ["demo"])


def test_the_shipped_rules_leave_nothing_open(shipped: tuple[Rulebook, Folder]) -> None:
    rulebook, folder = shipped

    found = [str(one.problem) for one in findings(folder, rulebook, walk=False)]

    assert found == [], "run: plainfault workshop cover"


@pytest.mark.parametrize("appliance", WALKED)
def test_every_question_and_check_of_the_shipped_rules_is_met(shipped: tuple[Rulebook, Folder], appliance: str) -> None:
    rulebook, folder = shipped

    assert [
        str(one.problem) for one in in_vain(folder.appliances[appliance], rulebook.appliances[appliance], rulebook.shop)
    ] == []
