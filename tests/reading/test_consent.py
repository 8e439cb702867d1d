"""Who wants no more texts, and who only has a washer that will not stop."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading.reader import Reader
from tests.reading.score import demo_reader

LISTED = ("stop", "quit", "end", "revoke", "opt out", "cancel", "unsubscribe")


@settings(deadline=None)
@given(
    word=st.sampled_from(LISTED),
    before=st.sampled_from(["", " ", "\n", "  "]),
    after=st.sampled_from(["", ".", "!!", " ", " .", "...", "?"]),
    upper=st.booleans(),
)
def test_a_listed_word_alone_counts_in_any_dress(word: str, before: str, after: str, upper: bool) -> None:
    text = before + (word.upper() if upper else word) + after
    assert demo_reader().consent(text) == "out"


@pytest.mark.parametrize(
    "text",
    [
        "it won't stop", "stop by tomorrow", "can you stop by", "cancel my Tuesday visit", "the dryer quit",
        "water at the end of the hose",
        "STOP THE WATER WONT STOP", "it stops in the middle", "dont text before 8", "i pressed cancel and nothing",
    ],
)  # fmt: skip
def test_the_same_words_about_machine_or_visit_do_not(reader: Reader, text: str) -> None:
    assert reader.consent(text) is None
    assert "opt_out" not in reader.read(text).intents


def told(name: str) -> list[str]:
    """Texts of one kind, one a line, as people write them."""
    return (Path(__file__).parent / "consent" / name).read_text(encoding="utf-8").splitlines()


def test_everybody_who_wants_no_more_texts_is_heard(reader: Reader) -> None:
    assert [text for text in told("wants_no_more.txt") if reader.consent(text) != "out"] == []


def test_nobody_else_is_taken_for_one_who_wants_no_more_texts(reader: Reader) -> None:
    assert [text for text in told("wants_texts.txt") if reader.consent(text) == "out"] == []


PLAIN_WORDINGS = (
    "please stop texting me",
    "no more texts",
    "take me off your list",
    "no mas",
    "ya no me manden mensajes",
    "lose my number",
)


@pytest.mark.parametrize("text", PLAIN_WORDINGS)
def test_any_wording_a_reasonable_person_would_understand_counts(reader: Reader, text: str) -> None:
    assert reader.read(text).intents == ("opt_out",)


def test_a_slip_is_never_corrected_into_a_stop_word(reader: Reader) -> None:
    assert reader.consent("stob") is None
    assert reader.consent("cancle") is None


def test_stop_among_several_texts_counts(reader: Reader) -> None:
    assert reader.read_together(["hi", "STOP"]).intents[0] == "opt_out"


def test_start_and_help_alone(reader: Reader) -> None:
    assert reader.consent("Start") == "in"
    assert reader.consent("HELP!") == "help"
    assert reader.consent("help my dishwasher leaks") is None
