"""
The reader's scores on labelled texts do not fall below these floors, and no text takes long, whatever it contains.

Every other text is scored here, for time's sake; ``python -m tests.reading.score`` scores them all.
"""

from __future__ import annotations

import random
import statistics
import time

from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading.reader import Reader
from tests.pace import pace
from tests.reading.agreement import agreement
from tests.reading.score import TEXTS, demo_reader, lines_of, score

# Lower than before for symptoms, intents and facts: 2,300 texts came in, most of them hard ones, of which 0.89, 0.92 and 0.83
# are read right; of the older ones 0.948, 0.973 and 0.916. Dangers denied stand lower since every fourth text is read.
FLOORS = {
    "appliance": 0.97,
    "symptom": 0.94,
    "hazard": 0.96,
    "denied_hazard": 0.915,
    "intent": 0.965,
    "fact": 0.905,
    "answer": 0.955,
    "language": 0.98,
    "denied": 0.83,
}


def test_the_labelled_texts_are_read_at_least_this_well(reader: Reader) -> None:
    scores = score(reader, lines_of(sorted(TEXTS.glob("*.jsonl")))[::4])
    low = {kind: round(scores[kind].f1, 3) for kind, floor in FLOORS.items() if scores[kind].f1 < floor}
    assert low == {}
    assert scores["hazard"].recall >= 0.98


def test_two_labellers_agree_on_what_texts_say() -> None:
    agreed = agreement()
    assert agreed.texts >= 340
    low = {kind: round(agreed[kind].f1, 3) for kind in FLOORS if agreed[kind].f1 < 0.9}
    assert low == {}


def test_half_of_all_texts_take_a_millisecond_or_so(reader: Reader) -> None:
    lines = lines_of(sorted(TEXTS.glob("*.jsonl")))[::12]
    took = [min(_took(reader, line["text"]) for _ in range(2)) for line in lines]
    # Measured: 0.0014 where nothing else runs, up to 0.0042 where others use up the caches, which the pace does not tell.
    assert statistics.median(took) < 0.007 * pace()


def test_no_text_of_1600_signs_takes_long(reader: Reader) -> None:
    words = [
        "water",
        "floor",
        "not",
        "drain",
        "the",
        "my",
        "burner",
        "is",
        "clothes",
        "stop",
        "no",
        "it",
        "leaks",
        "gas",
        "smell",
        "a",
        "1",
        "?",
        "ice",
        "dishwasher",
    ]
    chance = random.Random(7)
    texts = [
        "a " * 800,
        "not " * 400,
        "water on the " * 120,
        "?" * 1600,
        "5" * 1600,
        "ñ" * 1600,
        "x" * 1600,
        "qzxv " * 320,
        "1-" * 800,
    ]
    texts += [" ".join(chance.choices(words, k=400))[:1600] for _ in range(5)]
    for text in texts:
        best = min(_took(reader, text) for _ in range(5))
        assert best < 0.12 * pace(), (text[:40], best)  # measured: 0.02 where nothing else runs, 0.065 beside others


def _took(reader: Reader, text: str) -> float:
    start = time.process_time()
    reader.read(text)
    return time.process_time() - start


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=400))
def test_any_text_is_read_without_failing(text: str) -> None:
    reading = demo_reader().read(text)
    assert reading.text == text
    for found in (*reading.symptoms, *reading.denied):
        assert 0 < found.score <= 1
