"""Signed links: they open one thing of one shop until they expire, and nothing else."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.access import links

SECRET = "k" * 32
NOW = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)
LATER = NOW + timedelta(days=1)


def test_a_link_opens_what_it_was_made_for() -> None:
    token = links.sign(SECRET, "sheet", "demo", "v1", LATER)
    assert links.read(SECRET, "sheet", token, NOW) == links.Link("sheet", "demo", "v1", LATER)


def test_a_link_is_the_same_whenever_it_is_made() -> None:
    assert links.sign(SECRET, "sheet", "demo", "v1", LATER) == links.sign(SECRET, "sheet", "demo", "v1", LATER)


def test_a_link_is_over_at_its_moment() -> None:
    token = links.sign(SECRET, "sheet", "demo", "v1", LATER)
    assert links.read(SECRET, "sheet", token, LATER) == links.Expired("demo")


def test_a_link_for_one_purpose_opens_nothing_of_another() -> None:
    token = links.sign(SECRET, "calendar", "demo", "v1", LATER)
    assert links.read(SECRET, "sheet", token, NOW) is None


def test_another_secret_opens_nothing() -> None:
    token = links.sign("x" * 32, "sheet", "demo", "v1", LATER)
    assert links.read(SECRET, "sheet", token, NOW) is None


def test_a_short_secret_signs_nothing() -> None:
    with pytest.raises(ValueError, match="32 characters"):
        links.sign("short", "sheet", "demo", "v1", LATER)


def test_a_mark_has_at_least_128_bits() -> None:
    """Source X9."""
    assert links._MARK_BYTES * 8 >= 128


@given(st.integers(min_value=0), st.characters(codec="ascii", categories=("L", "N")))
def test_a_link_with_any_character_changed_opens_nothing(place: int, other: str) -> None:
    token = links.sign(SECRET, "sheet", "demo", "visit-7", LATER)
    place %= len(token) - 1  # the last character carries bits that are not part of the message
    if token[place] != other:
        assert links.read(SECRET, "sheet", token[:place] + other + token[place + 1 :], NOW) is None


@given(st.text())
def test_no_text_at_all_makes_reading_fail(token: str) -> None:
    assert links.read(SECRET, "sheet", token, NOW) is None
