"""The reading grade and its syllable counter."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.wording.grade import grade, sentences, syllables

BY_EAR = {
    1: "drain drained hose doors stopped trips won't can't aren't don't switch range gauge please house",
    2: "hoses washer dryer leaking drying breaker water isn't didn't haven't couldn't started needed dishes table"
    " safely client movement closing boxes someone sometimes careful handle surface cables",
    3: "dishwasher appliance microwave technician video area detergent completely compactor everyone radio",
    4: "electrician usually society variety refrigerant",
    5: "refrigerator refrigeration",
}


@pytest.mark.parametrize(("number", "word"), [(n, w) for n, ws in BY_EAR.items() for w in ws.split()])
def test_syllables_are_counted_as_spoken(number, word):
    assert syllables(word) == number


def test_a_text_without_words_has_no_grade():
    assert grade("") == grade("... !") == 0.0


def test_scraps_are_no_sentences_and_numbers_do_not_end_one():
    assert sentences("Stop. Leave now. The smell is gas and it is strong.") == 1
    assert sentences("Set it to 120.5 F and wait an hour. Then try it again.") == 2
    assert sentences("1 it will not start\n2 water stays in it") == 2


@given(st.text(max_size=300))
def test_any_text_gets_a_finite_grade(text):
    assert -4 <= grade(text) < 1e5
