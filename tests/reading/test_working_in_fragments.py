"""What works, told in fragments and in one breath: “Calienta. Gira.”, “light comes on fan blows”, “glass ok”."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("Secadora electrica. Calienta. Gira. Tres ciclos para unas toallas. Filtro limpio.", {"no_heat", "no_tumble"}),
        ("Range hood. Lights work. Buttons work. Fan does nothing on any speed.", {"light_out", "controls_fault"}),
        ("our ice maker makes good clear ice but the water wont drain", {"bad_ice"}),
        ("Ice maker. Ice is clear. But water keeps trickling in the tray.", {"bad_ice"}),
        ("la maquina de hielo gotea por abajo. el hielo sale muy clarito", {"bad_ice"}),
        ("Electric cooktop. Small rear burner stays on with the knob off. Glass ok.", {"broken_glass"}),
        ("Parrilla de induccion. Vidrio entero. No calienta ninguna.", {"broken_glass"}),
        ("chest freezer is loud but everything is frozen and no ice buildup", {"not_cooling", "frost"}),
        ("el congelador hace ruido pero no tiene hielo de mas", {"frost"}),
        ("wine cooler stuck at 66, fan is going, door seals tight", {"fan_dead", "door_fault"}),
        ("el refri no enfria abajo, se oye el abanico y prende el foco", {"fan_dead", "light_out"}),
        ("my washer lights up and the lid locks but the start button wont do anything", {"door_fault"}),
        ("disposal hums, and it wont budge it isnt leaking or anything", {"leak"}),
        ("mi dishwasher gotea por la puerta y los trastes salen limpios ya limpie el filtro", {"poor_clean"}),
        (
            "microwave plate spins light comes on fan blows but the coffee is stone cold",
            {"turntable_stuck", "light_out"},
        ),
        ("wall oven door wont stay shut but it bakes right on temp", {"temp_off"}),
    ],
)
def test_what_works_is_denied(text: str, codes: set[str], reader: Reader) -> None:
    read = reader.read(text)
    assert codes <= {found.code for found in read.denied}
    assert codes.isdisjoint(found.code for found in read.symptoms)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the washer door is locked and wont open", "door_fault"),
        ("front load door locked shut with my clothes in it", "door_fault"),
        ("the ice is cloudy and the ice is not clear anymore", "bad_ice"),
        ("la puerta no sella bien", "door_fault"),
        ("glass top is not ok, it cracked last night", "broken_glass"),
        ("i dont think it isnt leaking", "leak"),
        ("the freezer is full of ice buildup", "frost"),
    ],
)
def test_what_fails_is_not(text: str, code: str, reader: Reader) -> None:
    read = reader.read(text)
    assert code in {found.code for found in read.symptoms}
    assert code not in {found.code for found in read.denied}


def test_an_article_leads_on_to_the_next_thing_that_works(reader: Reader) -> None:
    read = reader.read("dryer turns on it gets hot the light comes on in there but the drum dont turn no more")
    assert {"no_heat", "light_out"} <= {found.code for found in read.denied}


def test_other_burners_that_fail_too_are_not_denied(reader: Reader) -> None:
    read = reader.read("left burner is dead and the other two burners dont work either")
    assert "burner_dead" in {found.code for found in read.symptoms}


def test_both_sides_cold_is_no_fault(reader: Reader) -> None:
    read = reader.read("Fridge hums loud, never shuts off. Both sides cold tho.")
    assert "not_cooling" in {found.code for found in read.denied}
    warm = reader.read("my fridge, both sides not cold since last night")
    assert "not_cooling" in {found.code for found in warm.symptoms}
