"""What was tried, told in one breath with the fault, in fragments, or of a part that is a filter by another name."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("el plato del micro ya no gira le lave las rueditas y no gira", "other"),
        ("la campana no jala le desengrase los filtros con agua hirviendo y sigue sin jalar", "cleaned_filter"),
        ("la secadora echa aire frio no hace ruido ni nada limpie el ducto y sigue fria", "cleaned_vent"),
        ("el congelador se llena de hielo a cada rato lo descongele dos veces y otra vez lo mismo", "other"),
        ("ice maker leaks a little every night i tightened the water line it still leaks", "checked_hose"),
        ("fridge is warm i unplugged it an hour and cleaned the back and its still warm", "other"),
        ("Front load washer. Smells like a swamp. Cleaned the trap. No better.", "cleaned_filter"),
        ("hood drips grease i ran the filters thru the dishwasher and it still drips", "cleaned_filter"),
        ("la campana gotea grasa, meti los filtros al lavaplatos y sigue goteando", "cleaned_filter"),
        ("Dishwasher lights up. Hit start, nothing. Breaker off/on, still nothing.", "reset_breaker"),
        ("Horno no calienta, sale E7. Baje el breaker, otra vez E7.", "reset_breaker"),
        ("Compactor drawer won't latch. Cleaned the track, bent the catch a little. No good.", "other"),
        ("wall oven wont heat i killed the breaker for five minutes it came back with F3 again", "reset_breaker"),
        ("Wall oven runs cold. Calibrated it, still cold.", "other"),
    ],
)
def test_what_was_tried_is_heard_and_did_not_help(reader: Reader, text: str, tried: str) -> None:
    """A denial or a small word of the fault told before it takes nothing from what was done."""
    reading = reader.read(text)
    assert tried in reading.facts["tried"]
    assert "not_fixed" in reading.intents


@pytest.mark.parametrize(
    "text",
    [
        "la lavadora no tira el agua, no le he limpiado el filtro",
        "dishwasher wont drain and i havent even cleaned the filter yet",
        "dryer is slow, never got the vent cleaned",
        "every time i cleaned the filter the washer leaked",
        "no gotea ni tantito, lo seque ayer y sigue seco",
        "the dryer is no good at drying",
        "kitchen sink trap leaks, the disposal is fine",
    ],
)
def test_what_was_not_done_against_the_fault_is_not_tried(reader: Reader, text: str) -> None:
    """Denied, a habit, a thing wiped dry, and no good at it: nothing was tried."""
    assert "tried" not in reader.read(text).facts
