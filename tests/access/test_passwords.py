"""Passwords: what may be used, and how it is kept."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.access.passwords import PasswordRefused, Passwords, refuse_weak

CHEAP = Passwords(memory_kib=64, passes=1, lanes=1)


def test_fourteen_characters_are_too_few_and_fifteen_enough() -> None:
    with pytest.raises(PasswordRefused, match="15 characters"):
        refuse_weak("hjemfraqwlopmz")
    refuse_weak("hjemfraqwlopmzt")


def test_sixty_four_characters_spaces_and_unicode_are_taken() -> None:
    refuse_weak("ñandú corriendo bajo la lluvia en la plaza vieja de un pueblo 99")


def test_no_kind_of_character_is_demanded() -> None:
    refuse_weak("quietlamphorsebutter")


@pytest.mark.parametrize(
    "easy",
    [
        "passwordpassword",
        "correct horse battery staple",
        "aaaaaaaaaaaaaaaaaa",
        "abcabcabcabcabcabc",
        "1234567890123456",
        "qwertyuiopasdfghjkl",
        "abcdefghijklmnopqrs",
    ],
)
def test_what_everybody_would_guess_is_refused(easy: str) -> None:
    with pytest.raises(PasswordRefused, match="easy to guess"):
        refuse_weak(easy)


def test_a_password_built_from_the_login_is_refused() -> None:
    with pytest.raises(PasswordRefused, match="login"):
        refuse_weak("olivebaca.office.2026", "olivebaca.office")


def test_a_hash_is_argon2id_with_at_least_the_published_cost() -> None:
    """Source X1: m of 19456 KiB or more, t of 2 or more."""
    kept = Passwords().hash("hjemfraqwlopmzt")
    kind, memory_and_passes = kept.split("$")[1], dict(p.split("=") for p in kept.split("$")[3].split(","))
    assert kind == "argon2id"
    assert int(memory_and_passes["m"]) >= 19456
    assert int(memory_and_passes["t"]) >= 2


def test_the_same_password_is_kept_differently_each_time() -> None:
    assert CHEAP.hash("teal kettle under nine maps") != CHEAP.hash("teal kettle under nine maps")


@given(st.text(min_size=15, max_size=40))
def test_only_the_password_itself_matches(password: str) -> None:
    kept = CHEAP.hash(password)
    assert CHEAP.matches(password, kept)
    assert not CHEAP.matches(password + "x", kept)


def test_nobody_s_password_never_matches() -> None:
    assert not CHEAP.matches("nobody has this password", None)
