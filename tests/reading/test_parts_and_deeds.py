"""What was done, and what state a part is in, mends no machine; only that the fault is gone does."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader

MERELY_DONE = (
    "vent is clean did it myself sunday",
    "vent is clear i did it",
    "did it already",
    "fixed the vent hose myself last week",
    "my husband fixed the hose already",
    "vent works fine",
    "the trap works good again",
    "outlet works fine",
    "el ducto ya quedo limpio",
    "ya quedó limpio el ducto",
    "ya arreglé la manguera yo mismo",
    "el filtro ya quedó destapado",
)
MENDED = (
    "resetting it did it",
    "the new fuse did it",
    "cleaned the vent and it works now",
    "the vent was full of lint, cleaned it, dries great now",
    "dryer works fine now",
    "my husband fixed it",
    "limpié el ducto y ya seca bien",
    "ya quedó, gracias",
)


@pytest.mark.parametrize("words", MERELY_DONE)
def test_a_deed_or_a_clean_part_is_no_news_that_the_fault_is_gone(reader: Reader, words: str) -> None:
    assert "fixed" not in reader.read(words, asked=Asked("observation", appliance="dryer")).intents
    assert "fixed" not in reader.read(words, about="dryer").intents


@pytest.mark.parametrize("words", MENDED)
def test_that_the_fault_is_gone_is(reader: Reader, words: str) -> None:
    assert "fixed" in reader.read(words, about="dryer").intents
