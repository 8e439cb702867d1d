"""The vocabulary against itself: no code in two kinds of which a text may be read as either, facts for their values."""

from __future__ import annotations

from collections.abc import Iterator

from service.rulebook.checking.codes import unknown
from service.rulebook.folder import Page
from service.rulebook.problems import Problem
from service.rulebook.schema.vocabulary import VocabularyFile

_READ_TOGETHER = ("symptoms", "hazards", "urgency", "intents")


def vocabulary_problems(page: Page[VocabularyFile]) -> Iterator[Problem]:
    """What is wrong within the vocabulary."""
    owner: dict[str, str] = {}
    for kind in _READ_TOGETHER:
        for code in getattr(page.model, kind):
            if code in owner:
                found = f'"{code}" is already one of the {owner[code]}.'
                yield page.problem((kind, code), found, remedy="Give it another name.")
            owner.setdefault(code, kind)
    for fact in page.model.fact_values:
        yield from unknown(
            page, ("fact_values", fact), fact, "a fact", page.model.facts, "Facts are listed under facts."
        )
