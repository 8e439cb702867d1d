"""The phrase notation means the same to the loader and to the reader."""

from __future__ import annotations

import time

from hypothesis import given
from hypothesis import strategies as st

from service.reading.notation import PhraseMistaken, parse
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


def test_loading_takes_well_under_a_second() -> None:
    began = time.thread_time()  # this thread's own work: other tests' threads may be busy beside it
    check_rules(RULES)

    assert time.thread_time() - began < 1
