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


@pytest.mark.parametrize(
    ("text", "wants_no_more"),
    [
        ("wrong number remove me", True),
        ("remove me, and my dryer wont heat", False),
        ("who is this? stop", True),
        ("who is this? stop. it leaks", False),
        ("could you please stop", True),
        ("make it please stop", False),
        ("borrenme por favor", True),
        ("borrenme la cita del martes", False),
    ],
)
def test_a_faint_wording_counts_where_no_machine_and_no_visit_is_spoken_of(
    reader: Reader, text: str, wants_no_more: bool
) -> None:
    assert (reader.consent(text) == "out") is wants_no_more


@pytest.mark.parametrize(
    ("text", "wants_no_more"),
    [
        ("please dont stop texting me", False),
        ("i dont want to unsubscribe from your texts", False),
        ("no borren mi número", False),
        ("no me quiten de la lista", False),
        ("you dont stop texting me", True),
        ("they wont stop texting me", True),
        ("no, stop texting me", True),
        ("no stop texting me", True),
    ],
)
def test_a_do_not_before_a_wording_turns_it_round(reader: Reader, text: str, wants_no_more: bool) -> None:
    assert (reader.consent(text) == "out") is wants_no_more


def test_with_a_piece_missing_no_single_word_counts(reader: Reader) -> None:
    assert reader.consent("who is this? stop") == "out"
    assert reader.consent("[…] who is this? stop") is None


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
