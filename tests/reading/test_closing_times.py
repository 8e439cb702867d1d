"""Times a crowded text closes with, or leaves open: they ask for a visit; what happened at a time does not."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("Glass cooktop cracked corner to corner. Price for new glass? Sat or Sun.", "Sat or Sun"),
        ("Range. Oven door glass shattered last night. How much? Sometime next week.", "next week"),
        ("Microwave beeps and keeps running. Did it again today. Come Monday?", "Monday"),
        ("hood lights quit come around back the front door sticks anytime monday", "monday"),
        ("compactor grinds since last trash day manager pays i have two cats so knock dont ring thursday late", "thursday"),
        ("oven wont heat the landlord is paying and my roommate is home till one so mornings", "till one so mornings"),
        ("freezer is thawing ice cream is soup today or tomorrow whatever you got", "today or tomorrow"),
        ("the washer wont spin i get off at two so anytime after that", "at two"),
        ("disposal just hums my mother in law is at the house all day tomorrow she can let you in", "tomorrow"),
        ("upper oven throws F3 and wont heat and i cook for church on sunday so before then please", "sunday"),
        ("Horno de pared. No calienta. Kestrelle, 6 años. Entre semana en la mañana.", "Entre semana en la mañana"),
        ("la estufa no prende desde la semana pasada viernes en la tarde esta bien", "tarde"),
        ("secadora avienta puro aire frio yo salgo a las 3 del trabajo ya despues cualquier dia", "a las 3"),
        ("fridge leaves a puddle in front can you send somebody this afternoon", "afternoon"),
        ("microwave door wont latch its six years old off work after 330 most days", "after 330"),
        ("burners no prenden since my birthday 2207 Camino Trebol i am home after 4", "after 4"),
    ],
)  # fmt: skip
def test_a_closing_time_asks_for_a_visit(reader: Reader, text: str, wish: str) -> None:
    read = reader.read(text)
    assert read.facts.get("wish") == wish
    assert "book" in read.intents


@pytest.mark.parametrize(
    "text",
    [
        "freezer iced up thursday late at night",
        "la lavadora se paro el jueves",
        "el horno no prende en la mañana",
        "it leaks mostly in the mornings so i put towels down",
        "my washer got worse this afternoon and somebody slipped",
        "the dryer shuts off after 30 minutes so i dry twice",
        "how much extra for a saturday",
    ],
)
def test_a_time_of_the_story_is_no_wish(reader: Reader, text: str) -> None:
    assert "wish" not in reader.read(text).facts


def test_a_day_that_does_not_suit_beside_a_complaint_moves_no_visit(reader: Reader) -> None:
    read = reader.read("Campana. Ventilador no jala. Hace una semana. El miercoles no puedo, otro dia si.")
    assert "book" in read.intents
    assert "reschedule" not in read.intents
    assert "reschedule" in reader.read("no puedo el miercoles, me pasan la cita a otro dia").intents


def test_any_day_leaves_the_time_open(reader: Reader) -> None:
    assert "book" in reader.read("Dryer squeals. Still squeals. Key under the pot. Any day.").intents
    assert "book" not in reader.read("the dryer stops any day i run two loads").intents
