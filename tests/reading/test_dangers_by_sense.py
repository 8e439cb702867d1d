"""Dangers told by what is seen, heard, smelled or felt, at which part and with what effect; and what only sounds like one."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader

TOLD = [
    ("gas_smell", "that funk they add so you notice is in my kitchen, wall oven wont catch"),
    ("gas_smell", "we crack the windows because the range leaks a little i think"),
    ("gas_smell", "did a bubble test on the flex line behind the dryer and it foamed right up"),
    ("gas_smell", "el horno echa tantito gas aunque este todo cerrado"),
    ("fire", "popcorn in the microwave and the whole thing went up"),
    ("fire", "le avente sal a la hornilla porque ardia"),
    ("carbon_monoxide", "we were all groggy this morning, the range was left on"),
    ("carbon_monoxide", "todos amanecimos zonzos, el horno se quedo prendido"),
    ("injury", "my left hand is under a bag of frozen peas, the oven door dropped on it"),
    ("injury", "se me fueron las cejas cuando prendi el horno"),
    ("water_near_power", "neighbors downstairs say water comes through their light"),
    ("water_near_power", "ice maker line sprays the power cord"),
    ("water_near_power", "el agua corre derechito al enchufe"),
    ("shock", "felt a zip up my arm from the freezer"),
    ("shock", "toque la tarja y el lavavajillas y senti un jalon"),
    ("smoke", "fanning the detector every time the dryer runs"),
    ("smoke", "sale una nube gris del motor"),
    ("hot_wiring", "the breaker for the range, you cant keep a finger on it"),
    ("hot_wiring", "la clavija quedo hecha chicle"),
    ("sparks", "saw blue light jump between the prongs"),
    ("sparks", "brinca una lucecita del contacto cuando la conecto"),
    ("burning_smell", "smells like a soldering iron behind the panel"),
    ("burning_smell", "huele a balata la lavadora cuando centrifuga"),
    ("refrigerant_leak", "jabbed the frost with a fork and it went tsss"),
    ("refrigerant_leak", "escupio gas el congelador cuando lo perfore"),
    ("flooding", "el agua me llega al tobillo"),
]

HARMLESS = [
    "me quemo las pestañas estudiando, vengan tarde, es el lavaplatos",
    "house smells like fried fish since the hood quit pulling",
    "el jabon queda hecho plasta en el cajon de la lavadora",
    "please dont hold it against me. washer lid switch broke off",
    "the dishwasher leaves bits of onion on the plates",
    "worried the dryer lint could catch so i cleaned the duct",
]


@pytest.mark.parametrize(("code", "text"), TOLD)
def test_danger_is_heard(code: str, text: str) -> None:
    assert code in {hazard.code for hazard in demo_reader().read(text).hazards}


@pytest.mark.parametrize("text", HARMLESS)
def test_no_danger_is_heard(text: str) -> None:
    assert not demo_reader().read(text).hazards
