"""Sources S1 to S5: 3GPP TS 23.038 6.2.1 and TS 23.040 9.2.3.24.1, beside smsutil 1.1.3 and gsm0338 1.1.0."""

import gsm0338
import pytest
import smsutil
from hypothesis import given
from hypothesis import strategies as st

from service.wording.segments import BASIC, EXTENSION, MULTI, SINGLE, count

CODEC = gsm0338.Codec()

ROWS = [
    ("Fridge is warm", "GSM-7", 14, (14,)),
    ("Error code [F7]", "GSM-7", 17, (17,)),
    ("A" * 160, "GSM-7", 160, (160,)),
    ("A" * 161, "GSM-7", 161, (153, 8)),
    ("A" * 307, "GSM-7", 307, (153, 153, 1)),
    ("A" * 159 + "€", "GSM-7", 161, (153, 8)),
    ("A" * 152 + "€" + "B" * 100, "GSM-7", 254, (152, 102)),
    ("Don’t touch it", "UCS-2", 14, (14,)),
    ("💧" * 36, "UCS-2", 72, (66, 6)),
    ("ê" * 71, "UCS-2", 71, (67, 4)),
    ("é" * 70, "GSM-7", 70, (70,)),
    ("~" * 81, "GSM-7", 162, (152, 10)),
    ("70°F", "UCS-2", 4, (4,)),
    ("Line one\nLine two", "GSM-7", 17, (17,)),
]
"""The fourteen worked rows of the source notes, section 2."""

T_C = [
    (
        "You are opted out of texts from Example Appliance Repair. No more messages will be sent."
        " Call 312-555-0142 for help.",
        116,
    ),
    (
        "Example Appliance Repair: help at 312-555-0142. Msg frequency varies. Msg & data rates may apply."
        " Reply STOP to opt out.",
        120,
    ),
]
"""Table T-C: consent replies that fit one segment."""


def smsutil_sizes(text):
    """Part sizes as smsutil has them; it reports UCS-2 in bytes, two to a unit."""
    per_unit = 1 if smsutil.is_valid_gsm(text) else 2
    return tuple(part.bytes // per_unit for part in smsutil.split(text).parts)


@pytest.mark.parametrize(("text", "encoding", "units", "sizes"), ROWS)
def test_a_worked_row_counts_as_published(text, encoding, units, sizes):
    counted = count(text)
    assert (counted.encoding, counted.units, counted.sizes) == (encoding, units, sizes)


@pytest.mark.parametrize("text", [row[0] for row in ROWS])
def test_smsutil_cuts_at_the_same_places(text):
    counted = count(text)
    assert tuple(part.content for part in smsutil.split(text).parts) == counted.parts
    assert smsutil.is_valid_gsm(text) == (counted.encoding == "GSM-7")
    assert smsutil_sizes(text) == counted.sizes


@pytest.mark.parametrize(("text", "encoding", "units", "_sizes"), ROWS)
def test_gsm0338_gives_the_same_septets_or_refuses(text, encoding, units, _sizes):
    if encoding == "GSM-7":
        assert len(CODEC.encode(text)[0]) == units
    else:
        with pytest.raises(UnicodeError):
            CODEC.encode(text)


def test_s1_s2_the_alphabets_have_their_published_sizes():
    assert len(BASIC) == 127
    assert "Ç" in BASIC
    assert "ç" not in BASIC
    assert len(EXTENSION) == 10
    assert {c: len(CODEC.encode(c)[0]) for c in BASIC | EXTENSION} == dict.fromkeys(BASIC, 1) | dict.fromkeys(
        EXTENSION, 2
    )


def test_s3_a_part_holds_what_140_octets_hold():
    assert SINGLE == {"GSM-7": 140 * 8 // 7, "UCS-2": 140 // 2}
    assert MULTI == {"GSM-7": (140 - 6) * 8 // 7, "UCS-2": (140 - 6) // 2}


@pytest.mark.parametrize("sign", [*"’‘“”–—…•°→`", "\t", "\u00a0", *"áíóúÁÍÓÚ"])
def test_a_sign_outside_the_alphabet_turns_the_whole_text(sign):
    assert count("plain" + sign).encoding == "UCS-2"


@pytest.mark.parametrize("sign", [*"éÉñÑüÜ¿¡"])
def test_half_of_spanish_is_in_the_alphabet(sign):
    assert count("plain" + sign).encoding == "GSM-7"


@pytest.mark.parametrize(("text", "units"), T_C)
def test_t_c_the_consent_texts_fit_one_segment(text, units):
    counted = count(text)
    assert (counted.encoding, counted.units, counted.number) == ("GSM-7", units, 1)


@given(st.text(alphabet=st.characters(blacklist_characters="\x1b", blacklist_categories=["Cs"]), max_size=400))
def test_any_text_is_cut_as_smsutil_cuts_it(text):
    assert count(text).parts == (tuple(part.content for part in smsutil.split(text).parts) or ("",))


@given(st.text(alphabet="abcé~[€^\n", max_size=700))
def test_long_seven_bit_texts_are_cut_as_smsutil_cuts_them(text):
    assert count(text).parts == (tuple(part.content for part in smsutil.split(text).parts) or ("",))
