"""
A danger that is over, only supposed or in another house is not raised; said again, or of this house, it is, whatever else is
told.
"""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

PAIRS = (
    (
        "the outlet was charred in 2017 and got replaced",
        "the outlet was charred in 2017, got replaced and is charred again",
    ),
    ("gas leak in 2009, plumber fixed it. oven runs cold", "gas leak in 2009, plumber fixed it. now i smell gas again"),
    ("ya no da toques, quedó muy bien", "ya no da toques"),
    ("ya no huele a gas, lo arregló la compañía", "ya no huele a gas, lo arregló mi esposo"),
    ("we sold the old dryer that sparked. this one wont start", "we sold the old dryer and the new one sparked"),
    ("if it ever leaks on the outlet is that covered", "if it runs it leaks on the outlet"),
    (
        "my aunt in tucson got shocked by hers, mine just hums",
        "my aunt in tucson got shocked by hers and mine shocked me",
    ),
    ("our neighbor said his washer smoked", "our neighbor said smoke comes from my house"),
    ("no smell or smoke, it just stopped", "no gas smell and smoke is coming off it"),
    ("breaker didnt trip, no burning smell", "breaker is burnt"),
    ("smells like dryer sheets", "smells like dryer sheets but also burnt"),
    ("there are yellow flames on my gas range", "there are yellow flames behind the washer"),
)


@pytest.mark.parametrize(("over", "now"), PAIRS)
def test_what_is_over_or_elsewhere_is_held_back_and_what_is_here_is_not(reader: Reader, over: str, now: str) -> None:
    assert reader.hazards(over) == ()
    assert reader.hazards(now) != ()


def test_a_fire_is_never_settled_by_a_repair(reader: Reader) -> None:
    assert [h.code for h in reader.hazards("the oven is not on fire anymore, the technician fixed it")] == ["fire"]


def test_a_correction_that_parts_a_word_leaves_an_excuse_in_its_sentence(reader: Reader) -> None:
    assert reader.hazards("thats just the smoke detector wanting a battery. my washer wont drain") == ()
