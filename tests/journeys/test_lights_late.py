"""Gas that lights late in an oven: nobody uses it, nobody is sent to the burner caps, and it is an oven that does not heat."""

from __future__ import annotations

import pytest

from tests.journeys.line import told


@pytest.mark.parametrize(
    "texts",
    [
        ("Oven wont heat, broiler works. gas oven", "glows orange but no flame for like 2 min then whoosh"),
        ("gas oven wont heat", "takes forever to light then a big whoosh"),
        ("gas oven takes forever to light then a big poof",),
        ("my gas oven clicks for a minute and finally lights with a whoosh",),
        ("horno de gas no calienta", "se pone rojo y como a los dos minutos prende de golpe"),
        ("mi horno de gas tarda un rato y luego prende con un tronido",),
        ("el horno de gas no calienta bien", "tarda en prender y suena un golpe, un tronido"),
    ],
)
def test_an_oven_that_lights_late_is_not_used_and_is_no_burner(texts: tuple[str, ...]) -> None:
    line = told(*texts)

    assert line.ticket.stop_use == "igniter_glow"
    assert line.ticket.symptoms.get("no_heat")
    assert not line.ticket.symptoms.get("burner_dead")
    assert not line.ticket.checks


def test_a_flash_stays_the_danger_it_is() -> None:
    line = told("el horno de gas tarda en prender y hace flamazo")

    assert "fire" in line.ticket.hazards
    assert line.replies[0].kind == "danger"


@pytest.mark.parametrize(
    "texts",
    [
        ("gas oven wont heat", "it glows but never lights"),
        ("oven wont heat", "no whoosh, it just stays dark"),
        ("my gas burner takes a while to light then a pop",),
        ("dishwasher leaks", "it takes 2 minutes then whoosh the water comes"),
    ],
)
def test_what_lights_not_at_all_or_on_top_is_no_oven_that_lights_late(texts: tuple[str, ...]) -> None:
    assert told(*texts).ticket.observations.get("igniter_glow") != "late"
