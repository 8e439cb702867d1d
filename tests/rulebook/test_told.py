"""Texts told: each under a code that is there, and once; a rulebook holds them as they were written."""

from __future__ import annotations

from pathlib import Path

import pytest

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
