"""Texts told: each under a code that is there, and once; a rulebook holds them as they were written."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.reading.opinion.teaching import NOTHING
from service.reading.opinion.told_texts import taught_dangers, taught_denials, taught_symptoms
from service.rulebook.loading import load_rulebook
from tests.rulebook.sound import SOUND, told, write

WANTED = 'told:\n  book:\n    - "send somebody round"\nnothing:\n  - "it wont send the water out"\n'


@pytest.mark.parametrize(
    ("file", "text", "says"),
    [
        ("talk/told.yaml", WANTED.replace("book", "haggle"), ("talk/told.yaml, line 2", "haggle", "an intent")),
        ("talk/told.yaml", WANTED + '  - "IT wont send the water out"\n', ("talk/told.yaml, line 6", "stands here twice")),
        ("talk/told.yaml", WANTED.replace("nothing", "nought"), ("talk/told.yaml", "nought")),
        ("told.yaml", "dangers:\n  floods:\n    - \"so much water\"\nnothing: []\n", ("told.yaml", "floods", "a hazard")),
        ("told.yaml", "briefly:\n  floods:\n    - \"so much water\"\nnothing: []\n", ("told.yaml", "floods", "a hazard")),
        ("told.yaml", "harmless: [\"so what\", \"So what\"]\nnothing: []\n", ("told.yaml", "harmless", "stands here twice")),
        (
            "appliances/dishwasher/told.yaml", "told: {}\ndenied:\n  hovers:\n    - \"it hovers not\"\n",
            ("hovers", "a symptom of dishwasher"),
        ),
        ("appliances/dishwasher/told.yaml", "told:\n  vague:\n    - \"acts up\"\n", ("told.yaml", "No text can teach")),
        ("appliances/dishwasher/told.yaml", "told:\n  hovers:\n    - \"it hovers\"\n", ("hovers", "a symptom of dishwasher")),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told_where_it_stands(tmp_path: Path, file: str, text: str, says: tuple[str, ...]) -> None:
    said = told(write(tmp_path, {**SOUND, file: text}))
    assert [part for part in says if part not in said] == []


def test_a_rulebook_holds_what_people_want_as_it_was_written(tmp_path: Path) -> None:
    rules = write(tmp_path, {**SOUND, "talk/told.yaml": WANTED})
    rulebook = load_rulebook(rules, "corner")
    assert dict(rulebook.intents_told) == {"book": ("send somebody round",)}
    assert rulebook.no_intent_told == ("it wont send the water out",)


def test_short_tellings_of_dangers_teach_nothing_of_faults_and_what_works_is_taught_apart(tmp_path: Path) -> None:
    files = {
        "told.yaml": 'briefly:\n  burning_smell:\n    - "eggs by the pipe"\nharmless:\n  - "eggs for lunch"\nnothing: []\n',
        "appliances/dishwasher/told.yaml": (
            'told: {}\ndenied:\n  no_drain:\n    - "it empties fine"\nnot_denied:\n  - "it empties a bit"\n'
        ),
    }
    rulebook = load_rulebook(write(tmp_path, {**SOUND, **files}), "corner")
    dangers = {(one.text, one.code) for one in taught_dangers(rulebook)}
    assert {("eggs by the pipe", "burning_smell"), ("eggs for lunch", NOTHING)} <= dangers
    assert not {"eggs by the pipe", "eggs for lunch", "it empties fine"} & {t.text for t in taught_symptoms(rulebook)}
    denials = {(one.text, one.code, one.machine) for one in taught_denials(rulebook)}
    assert {("it empties fine", "no_drain", "dishwasher"), ("it empties a bit", NOTHING, "dishwasher")} <= denials
