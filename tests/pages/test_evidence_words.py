"""How evidence and facts are worded for people who read the desk and the sheet."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from service.conversation.state import TicketState
from service.pages.desk.reading import evidence_words, fact_words
from service.rulebook.loading import load_rulebook
from tests.conftest import RULES


@pytest.mark.parametrize(
    ("facts", "observations", "words"),
    [
        ({"fuel": "gas"}, {}, "gas or electric: Gas"),
        ({"fuel": "gas"}, {"heat_kind": "electric"}, "gas or electric: Electric (big 3 or 4 prong plug)"),
    ],
)
def test_what_a_fact_answered_unasked_is_worded_too(
    facts: dict[str, str], observations: dict[str, str], words: str
) -> None:
    dryer = load_rulebook(RULES, "demo").appliances["dryer"]
    opened = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
    ticket = TicketState(key="t1", appliance="dryer", facts=facts, observations=observations, opened_at=opened)
    assert evidence_words(dryer, "heat_kind", ticket) == words


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("top_load", "top load"),
        (("cleaned_filter", "reset_breaker"), "cleaned filter, reset breaker"),
        (9.0, "9"),
        ("WT_100", "WT_100"),
        ("TV7_x", "TV7_x"),
    ],
)
def test_a_code_is_worded_and_a_plate_is_left_as_it_stands(value: object, words: str) -> None:
    assert fact_words(value) == words
