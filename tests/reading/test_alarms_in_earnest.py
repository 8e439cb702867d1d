"""An alarm that sounds is a danger whatever was done to its battery; so is what was elsewhere or once, if it is here too."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    "text",
    [
        "co detector going off so i took the battery out",
        "co alarm is going off and reads 70, should i change the battery",
        "co alarm says 85 and i need to change the battery too",
        "carbon monoxide alarm screaming, changed the battery and pressed the test button",
        "co alarm went off so i pressed the button to hush it",
        "carbon monoxide alarm wont be quiet",
        "co alarm went off when i ran the oven, its quiet now that i turned it off",
        "la alarma de monoxido suena y suena, le quite la pila",
        "presione el boton de la alarma de monoxido porque no paraba de sonar",
    ],
)
def test_a_carbon_monoxide_alarm_that_sounds_is_a_danger(reader: Reader, text: str) -> None:
    assert "carbon_monoxide" in {hazard.code for hazard in reader.hazards(text)}


@pytest.mark.parametrize(
    "text",
    [
        "the CO detector says LOW BATT",
        "co detector chirps, needs a battery. dryer wont heat",
        "we tested the co alarm with the button and it works. stove is fine",
        "the co thing goes off when i push the test button, works great",
        "the co detector has been quiet all week",
        "le puse pila nueva al detector de monoxido y ya no chilla",
    ],
)
def test_one_that_wants_a_battery_was_tried_or_is_quiet_is_none(reader: Reader, text: str) -> None:
    assert reader.hazards(text) == ()


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the car smells like gas and so does the stove", "gas_smell"),
        ("it smelled like gas years ago and it does again today", "gas_smell"),
        ("old stove leaked gas and this one does too", "gas_smell"),
        ("can a washer shock you? mine just did", "shock"),
        ("en la escuela de mi hijo hubo fuga y aqui tambien huele a gas", "gas_smell"),
    ],
)
def test_so_elsewhere_or_once_and_here_too_is_a_danger(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.hazards(text)}


@pytest.mark.parametrize(
    "text",
    [
        "my sisters dishwasher caught fire years ago so im jumpy but all mine does is leave the dishes wet at the end",
        "my neighbors dryer caught fire last year so i worry, mine just takes two cycles to dry",
    ],
)
def test_ours_that_does_something_else_is_none(reader: Reader, text: str) -> None:
    assert reader.hazards(text) == ()
