"""Segments: counting, cutting and plain signs."""

from hypothesis import given
from hypothesis import strategies as st

from service.wording.segments import MULTI, SINGLE, count, plain

ANY_TEXT = st.text(max_size=500)
DEAR_OR_CHEAP = st.text(alphabet="aé€[~ê💧ñ\n", max_size=400)


def test_an_empty_text_is_one_segment_of_nothing():
    counted = count("")
    assert (counted.encoding, counted.units, counted.number) == ("GSM-7", 0, 1)


@given(ANY_TEXT | DEAR_OR_CHEAP)
def test_parts_joined_are_the_text_and_no_part_is_too_full(text):
    counted = count(text)
    assert "".join(counted.parts) == text
    assert sum(counted.sizes) == counted.units
    limit = SINGLE if counted.number == 1 else MULTI
    assert max(counted.sizes) <= limit[counted.encoding]


@given(DEAR_OR_CHEAP)
def test_a_part_is_only_left_when_the_next_character_does_not_fit(text):
    counted = count(text)
    for size, following in zip(counted.sizes, counted.parts[1:], strict=False):
        first = count(following[0] + ("ê" if counted.encoding == "UCS-2" else "")).units
        first -= 1 if counted.encoding == "UCS-2" else 0
        assert size + first > MULTI[counted.encoding]


def test_typographic_signs_become_their_plain_likeness():
    assert plain("Don’t – it’s “hot” … 70°F", "en") == "Don't - it's \"hot\" ... 70 F"
    assert plain("a\tb\u00a0c • d → e", "en") == "a b c - d -> e"
    assert plain("1½ cups, ¼ inch", "en") == "1 1/2 cups, 1/4 inch"
    assert plain("gire 90°", "es") == "gire 90 grados"


def test_spanish_keeps_its_accents_unless_the_shop_wants_seven_bits():
    text = "¿Está el botón más frío? Señor, pingüino, té"
    assert plain(text, "es") == text
    assert plain(text, "es", "seven_bit") == "¿Esta el boton mas frio? Señor, pingüino, té"
    assert count(plain(text, "es", "seven_bit")).encoding == "GSM-7"


def test_english_spells_a_name_without_the_accent_that_would_double_the_price():
    assert plain("Thanks, María Núñez", "en") == "Thanks, Maria Nuñez"


@given(ANY_TEXT, st.sampled_from(["en", "es"]), st.sampled_from(["accents", "seven_bit"]))
def test_making_a_text_plain_twice_changes_nothing_more(text, language, mode):
    once = plain(text, language, mode)
    assert plain(once, language, mode) == once


@given(st.text(alphabet="abc’‘“”–—…áíóúÁñé¿ ", max_size=200))
def test_seven_bit_spanish_is_in_the_seven_bit_alphabet(text):
    assert count(plain(text, "es", "seven_bit")).encoding == "GSM-7"
