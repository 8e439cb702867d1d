"""Plain replies in forms of their own: a choice told by its fault or by a letter, a check hailed, how often for yes."""

from __future__ import annotations

import pytest

from service.reading.model import Answer, Asked, Choice
from service.reading.reader import Reader


def choices(*codes: str) -> tuple[Choice, ...]:
    return tuple(Choice(code, code) for code in codes)


def answer(reader: Reader, text: str, asked: Asked) -> Answer | None:
    return reader.read(text, asked=asked, about=asked.appliance).answer


@pytest.mark.parametrize(
    ("text", "machine", "codes", "place"),
    [
        ("mostly it drips", "washer", ("noise", "leak", "no_drain"), 1),
        ("hace un ruidajo pero sí mueve la ropa", "washer", ("noise", "no_agitate", "leak"), 0),
        ("doesn't spin, but it does drain, I checked that", "washer", ("no_drain", "no_spin", "no_fill"), 1),
        ("idk man all i know is theres suds everywhere", "washer", ("leak", "suds", "no_drain"), 1),
        ("B", "washer", ("noise", "leak", "no_drain"), 1),
        ("la b, la que no exprime", "washer", ("no_drain", "no_spin"), 1),
        ("number one, since about easter", "cooktop", ("burner_dead", "weak_flame", "clicks_nonstop"), 0),
        ("lo tercero que dijo", "microwave", ("no_heat", "turntable_stuck", "controls_fault"), 2),
        ("not the first two. third sounds right", "dishwasher", ("no_start", "stops_midcycle", "door_fault"), 2),
    ],
)  # fmt: skip
def test_a_choice_is_taken(reader: Reader, text: str, machine: str, codes: tuple[str, ...], place: int) -> None:
    given = answer(reader, text, Asked("symptom", machine, "vague", choices(*codes)))
    assert given is not None
    assert (given.kind, given.index) == ("choice", place)


@pytest.mark.parametrize("text", ["a little water on the floor too", "third time this week it did that"])
def test_no_letter_and_no_ordinal_of_something_else_takes_one(reader: Reader, text: str) -> None:
    given = answer(reader, text, Asked("symptom", "washer", "vague", choices("noise", "no_spin", "door_fault")))
    assert given is None or given.kind != "choice"


@pytest.mark.parametrize(
    "text",
    [
        "worked! you're a genius", "Success", "arregladísimo, me ahorraron una feria", "glasses are clear again",
        "scrubbed the arm and now the dishes come out clean",
    ],
)  # fmt: skip
def test_a_check_that_is_hailed_has_helped(reader: Reader, text: str) -> None:
    given = answer(reader, text, Asked("check_result", "dishwasher", "clean_filter"))
    assert given is not None
    assert given.kind == "fixed"


@pytest.mark.parametrize(
    "text",
    [
        "worked, then it quit again", "worked until the rinse", "filter is clean but the glasses are still cloudy",
        "no way am I climbing up there",
    ],
)  # fmt: skip
def test_one_that_did_not_help_or_was_not_done_has_not(reader: Reader, text: str) -> None:
    given = answer(reader, text, Asked("check_result", "dishwasher", "clean_filter"))
    assert given is None or given.kind != "fixed"


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("every other load or so", "yes"), ("Cómo no, cada que lavo", "yes"), ("wouldn't say so", "no"),
        ("no way am I pulling that out", "declined"), ("como no tira agua ahorita, no", "no"),
    ],
)  # fmt: skip
def test_a_yes_or_no_in_words_of_its_own(reader: Reader, text: str, kind: str) -> None:
    given = answer(reader, text, Asked("yes_no", "washer", "leak"))
    assert given is not None
    assert given.kind == kind


@pytest.mark.parametrize(
    ("text", "kind", "index"),
    [
        ("later one. i'll leave the key under the pot w/ the cactus", "choice", 1),
        ("Either. Heads up tho, washer's dripping steady now, got a bucket under it", "either", None),
    ],
)
def test_a_window_is_taken_beside_news(reader: Reader, text: str, kind: str, index: int | None) -> None:
    given = answer(reader, text, Asked("offer", "washer", None, (), ("Thu 8-10", "Thu 3-5")))
    assert given is not None
    assert (given.kind, given.index) == (kind, index)
