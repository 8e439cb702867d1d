"""The phrase notation means the same to the loader and to the reader."""

from __future__ import annotations

import time
from collections.abc import Callable

import yaml
from hypothesis import given
from hypothesis import strategies as st

from service.reading.words.notation import PhraseMistaken, parse
from service.rulebook.checking.notation import phrase_mistake
from service.rulebook.loading import check_rules
from service.rulebook.problems import render
from tests.conftest import RULES

PIECES = st.lists(
    st.sampled_from(["drain", "leaks", "=off", "[", "]", "(", ")", "|", "*", "won't"]), min_size=1, max_size=9
).map(" ".join)


@given(PIECES)
def test_what_the_loader_accepts_the_reader_can_parse(phrase: str) -> None:
    if phrase_mistake(phrase) is None:
        assert parse(phrase)


@given(PIECES)
def test_what_the_reader_refuses_the_loader_refuses(phrase: str) -> None:
    try:
        parse(phrase)
    except PhraseMistaken:
        assert phrase_mistake(phrase) is not None


def test_the_rules_of_the_house_have_no_problem() -> None:
    assert render(check_rules(RULES)) == ""


def test_loading_and_checking_costs_little_more_than_reading_the_same_yaml() -> None:
    texts = [path.read_text(encoding="utf-8") for path in sorted(RULES.rglob("*.yaml"))]

    def plainly() -> None:
        for text in texts:
            yaml.load(text, yaml.CSafeLoader)

    assert _least(lambda: check_rules(RULES)) < 4 * _least(plainly)  # measured: about 1.5


def _least(work: Callable[[], object]) -> float:
    """The least processor time of this thread in three runs: other tests' threads may be busy beside it."""
    took = []
    for _ in range(3):
        began = time.thread_time()
        work()
        took.append(time.thread_time() - began)
    return min(took)
