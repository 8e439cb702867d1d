"""Published check values for reading: sources T1 and T8 (table T-A), edit distances, Luhn's check, NegEx turned round."""

from __future__ import annotations

import pytest
from rapidfuzz.distance import OSA, DamerauLevenshtein, JaroWinkler, Levenshtein

from service.reading.reader import Reader
from service.reading.words.masking import mask_cards
from service.reading.words.spelling import Speller
from tests.reading.score import demo_reader


@pytest.fixture(scope="module")
def reader() -> Reader:
    return demo_reader()


# Table T-A, after 47 CFR 64.1200(a)(10) and CTIA Messaging Principles 5.1.3.
@pytest.mark.parametrize(
    ("text", "out"),
    [
        *(
            (text, True)
            for text in ("STOP", "stop.", "Opt out", "OPT-OUT", "Cancel", "end", "Revoke", "quit", "unsubscribe")
        ),
        *((text, True) for text in ("please stop texting me", "no more texts", "take me off this list", "no mas")),
        *((text, True) for text in ("Stop.", "STOP!!", " stop ", "Unsubscribe")),
        *(
            (text, False)
            for text in ("the washer won't stop", "dryer stops after 5 min", "water at the end of the hose")
        ),
        *((text, False) for text in ("it quit working", "can you cancel my Tuesday visit", "cancel appointment")),
    ],
)
def test_stop_words_of_table_t_a(reader: Reader, text: str, out: bool) -> None:
    assert (reader.consent(text) == "out") is out


# Levenshtein 1966, Damerau 1964; OSA never edits a substring twice.
@pytest.mark.parametrize(
    ("left", "right", "levenshtein", "osa", "full"),
    [
        ("CA", "ABC", 3, 3, 2),
        ("fridge", "frigde", 2, 1, 1),
        ("kitten", "sitting", 3, 3, 3),
        ("wsaher", "washer", 2, 1, 1),
    ],
)
def test_edit_distances_are_the_published_ones(left: str, right: str, levenshtein: int, osa: int, full: int) -> None:
    assert Levenshtein.distance(left, right) == levenshtein
    assert OSA.distance(left, right) == osa
    assert DamerauLevenshtein.distance(left, right) == full


def test_jaro_winkler_cannot_tell_washer_from_dishwasher() -> None:
    assert JaroWinkler.similarity("washer", "dishwasher") == pytest.approx(0.755556, abs=1e-6)


# The traps: one slip apart, and each a right word.
@pytest.mark.parametrize("word", ["has", "fryer", "lead", "no", "words", "orange", "later"])
def test_a_right_word_near_a_word_of_the_trade_stays(word: str) -> None:
    speller = Speller(
        ["has", "fryer", "lead", "no", "words", "orange", "later"],
        {"gas": 1, "dryer": 1, "leak": 1, "works": 1, "range": 1, "water": 1},
    )
    assert speller.correct(word) is None


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("wahser", "washer"),
        ("frigde", "fridge"),
        ("dishwaser", "dishwasher"),
        ("refridgerator", "refrigerator"),
        ("draning", "draining"),
    ],
)
def test_slips_are_mended_toward_words_of_the_rules(typed: str, meant: str) -> None:
    speller = Speller([], {"washer": 1, "fridge": 1, "dishwasher": 1, "refrigerator": 1, "draining": 1, "freezer": 1})
    assert speller.correct(typed) == (meant,)


# Luhn's check (ISO/IEC 7812-1 annex B): the usual published test number and one digit off.
def test_luhn_decides_what_is_a_card() -> None:
    assert "4111111111111111" not in mask_cards("4111111111111111")
    assert mask_cards("4111111111111112") == "4111111111111112"


# NegEx's pseudo-negations "not only" and "not sure if" (Chapman and others 2001), and its stock entry "not drain" turned round.
def test_pseudo_negations_negate_nothing(reader: Reader) -> None:
    assert {f.code for f in reader.read("not only leaking but noisy", about="washer").symptoms} == {"leak", "noise"}
    assert reader.read("not sure if it leaks", about="washer").denied == ()
    assert [f.code for f in reader.read("it does not drain", about="washer").symptoms] == ["no_drain"]
