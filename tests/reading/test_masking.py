"""Card numbers are masked; numbers that only look long are not."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.reading.words.masking import mask_cards


@pytest.mark.parametrize(
    "number", ["4111 1111 1111 1111", "4111111111111111", "5500-0000-0000-0004", "340000000000009"]
)
def test_a_card_number_keeps_its_last_four_only(number: str) -> None:
    masked = mask_cards(f"my card is {number} exp 12/28")
    digits = [c for c in masked[: masked.index(" exp")] if c.isdigit()]
    assert "".join(digits) == number.replace(" ", "").replace("-", "")[-4:]
    assert masked.endswith("exp 12/28")


@pytest.mark.parametrize(
    "text", ["call +15055550142", "4111 1111 1111 1112", "serial 1234567890123", "87110", "no digits"]
)
def test_other_numbers_stay(text: str) -> None:
    assert mask_cards(text) == text


@given(st.text(max_size=200))
def test_the_length_never_changes(text: str) -> None:
    assert len(mask_cards(text)) == len(text)
