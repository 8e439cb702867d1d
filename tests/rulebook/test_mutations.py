"""The examples hold the rules in place: a small seeded sample of ``tests.rulebook.mutations``, with floors."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.rulebook.loading import load_rulebook
from tests.conftest import RULES
from tests.rulebook.mutations import Laboratory, sampled

FLOORS = {"swap": (20, 0.95), "everywhere": (20, 0.9), "hazard": (12, 0.9)}
"""Kind of mutation to how many are tried and the least share that an example must notice."""


@pytest.fixture(scope="module")
def laboratory() -> Laboratory:
    return Laboratory(load_rulebook(RULES, "demo"))


@pytest.mark.parametrize("kind", FLOORS)
def test_examples_notice_when_rules_are_taken_out_or_exchanged(laboratory: Laboratory, kind: str) -> None:
    most, floor = FLOORS[kind]
    mutations = sampled(laboratory.mutations(), most, seed=1)[kind]

    missed = [mutation.name for mutation in mutations if not laboratory.caught(mutation)]

    assert mutations
    assert 1 - len(missed) / len(mutations) >= floor, f"no example noticed: {', '.join(missed)}"


def test_what_was_changed_is_put_back(laboratory: Laboratory) -> None:
    every = laboratory.mutations()
    for mutation in (every["everywhere"][0], every["phrase"][0], every["swap"][0]):
        laboratory.caught(mutation)
        untouched = replace(mutation, change=lambda: lambda: None)
        assert not laboratory.caught(untouched), "every example passes again"
