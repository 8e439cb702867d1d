"""What no phrase hears of what works, the words weighed do; and what is told too much, too little or as when denies nothing."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.opinion.leaning import TOLD_TEXTS
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("la secadora tiene luz en el tablero, le aprieto y no arranca", "dryer.dead"),
        ("the wall oven stays cold, everything on the front lights up", "wall_oven.dead"),
        ("la estufa truena mucho, las cuatro hornillas agarran lumbre", "range.burner_dead"),
        ("the wall oven is stone cold, no codes on it, the whole front lights up", "wall_oven.error_code"),
    ],
)
def test_the_words_deny_what_no_phrase_has(reader: Reader, text: str, denied: str) -> None:
    found = {f"{f.appliance}.{f.code}": f.rule for f in reader.read(text).denied}
    assert found.get(denied) == TOLD_TEXTS


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("la secadora calienta demás y quema la ropa", "no_heat"),
        ("my washer spins not at all", "no_spin"),
        ("the range is dead, oven nothing, burners nothing", "burner_dead"),
        ("the washer fills and fills", "no_fill"),
        ("my dishwasher drains but it takes forever", "no_drain"),
    ],
)
def test_what_only_sounds_so_denies_nothing(reader: Reader, text: str, code: str) -> None:
    assert code not in [f.code for f in reader.read(text).denied]


def test_a_short_answer_denies_what_its_phrase_says_and_no_more(reader: Reader) -> None:
    asked = Asked("observation", appliance="range_hood", code="lamp_works")
    assert {f.code for f in reader.read("si prende la luz", asked=asked).denied} <= {"light_out"}


def test_it_is_said_by_which_words(reader: Reader) -> None:
    notes = reader.read("the wall oven is stone cold, no codes on it, the whole front lights up").notes
    assert any(note.startswith("Most like what denies error_code of wall_oven") and "codes" in note for note in notes)
