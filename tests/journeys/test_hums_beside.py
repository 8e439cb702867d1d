"""What a machine sounds like beside its fault is no new noise; a noise that is the complaint stays one."""

from __future__ import annotations

import pytest

from tests.journeys.line import told


@pytest.mark.parametrize(
    ("texts", "fault", "seen"),
    [
        (("hi my washer wont drain", "its a norvell", "it just hums"), "no_drain", ("drain_sound", "hums")),
        (("washer wont spin", "87108", "it just hums"), "no_spin", ("drive_sound", "hums")),
        (("its not cooling", "fridge", "light on, hums"), "not_cooling", ("compressor_sound", "hum")),
        (("washer wont drain, it buzzes",), "no_drain", ("drain_sound", "hums")),
        (("dryer wont start", "it buzzes when i push start"), "no_start", ("start_sound", "hums")),
        (("washer wont spin", "grinding noise too"), "no_spin", ("drive_sound", "grinds")),
        (("fridge warm", "a loud buzzing noise"), "not_cooling", ("compressor_sound", "loud")),
        (("mi refri no enfria", "zumba normal"), "not_cooling", ("compressor_sound", "hum")),
        (("mi lavadora no desagua", "nomas se oye un zumbido"), "no_drain", ("drain_sound", "hums")),
        (("la secadora no arranca", "solo hace clic"), "no_start", ("start_sound", "clicks")),
        (("la lavadora no exprime", "zumba nada mas"), "no_spin", ("drive_sound", "hums")),
        (("mi congelador no enfria", "87108", "hace clic y zumba"), "not_cooling", ("compressor_sound", "click")),
    ],
)
def test_a_hum_beside_a_fault_is_what_it_sounds_like(texts: tuple[str, ...], fault: str, seen: tuple[str, str]) -> None:
    """The fault stays the complaint, the sound answers what is asked of it, and nobody asks after it again."""
    line = told(*texts)

    assert {code for code, so in line.ticket.symptoms.items() if so} == {fault}
    assert line.ticket.observations[seen[0]] == seen[1]


@pytest.mark.parametrize(
    "texts", [("dryer wont heat", "hums normally"), ("washer leaks", "87108", "and it buzzes"),
     ("no enfria mi refri", "zumba como siempre")]
)  # fmt: skip
def test_a_usual_sound_is_taken_note_of_and_no_complaint(texts: tuple[str, ...]) -> None:
    """It is understood, and changes nothing."""
    line = told(*texts)

    assert not line.ticket.symptoms.get("noise")
    assert "could not make that out" not in line.said


@pytest.mark.parametrize("text", ["fridge hums normal", "mi refri zumba normal", "the fridge hums like always"])
def test_a_hum_that_is_normal_is_no_complaint_at_all(text: str) -> None:
    assert not told(text).ticket.symptoms.get("noise")


@pytest.mark.parametrize(
    "texts",
    [
        ("fridge hums so loud",),
        ("my dryer has started making a buzzing noise",),
        ("la lavadora zumba muy fuerte",),
        ("dishwasher leaks", "87108", "it also makes a loud new humming noise"),
        ("lavadora tira agua", "87108", "y ademas hace un zumbido muy fuerte"),
        ("my fridge isn't humming normal, it buzzes loud",),
    ],
)
def test_a_noise_that_is_the_complaint_stays_one(texts: tuple[str, ...]) -> None:
    assert told(*texts).ticket.symptoms.get("noise")
