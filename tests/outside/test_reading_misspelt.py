"""Real misspellings, from the dictionary in the package codespell (word lists CC BY-SA 3.0; read here, never copied)."""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

import codespell_lib

from tests.reading.score import TEXTS, demo_reader, lines_of, score

MOST_LOST = 0.05
"""How much of the symptom score may be lost when every content word that has a listed misspelling is misspelt."""


@cache
def misspellings() -> dict[str, list[str]]:
    """Right word to its listed misspellings, only those that can be corrected in one way."""
    found: dict[str, list[str]] = {}
    lines = (Path(codespell_lib.__file__).parent / "data" / "dictionary.txt").read_text().splitlines()
    for line in lines:
        wrong, _, right = line.partition("->")
        candidates = [word.strip() for word in right.split(",") if word.strip()]
        if len(candidates) == 1 and wrong.isalpha() and candidates[0].isalpha():
            found.setdefault(candidates[0].lower(), []).append(wrong)
    return found


def misspelt(text: str, chance: random.Random) -> str:
    def slip(match: re.Match[str]) -> str:
        listed = misspellings().get(match.group().lower())
        return chance.choice(listed) if listed and len(match.group()) >= 4 else match.group()

    return re.sub(r"[A-Za-z]+", slip, text)


def test_misspelling_every_word_that_has_one_costs_little() -> None:
    reader, chance = demo_reader(), random.Random(20261125)
    lines = [line for line in lines_of(sorted(TEXTS.glob("*.jsonl"))) if line["expected"]["language"] == "en"][::9]
    slipped = [{**line, "text": misspelt(line["text"], chance)} for line in lines]
    changed = sum(before["text"] != after["text"] for before, after in zip(lines, slipped, strict=True))
    assert changed > len(lines) / 2
    assert score(reader, slipped)["symptom"].f1 >= score(reader, lines)["symptom"].f1 - MOST_LOST
