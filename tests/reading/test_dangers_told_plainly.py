"""Dangers told plainly in turns of phrase of their own, and what only sounds like them."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("dryer is on propane and the back of it smells of it", "gas_smell"),
        ("the stove is propane and the kitchen reeks of it", "gas_smell"),
        ("gas company came and said nothing but i smell it again", "gas_smell"),
        ("the microwave was fuming out the back", "smoke"),
        ("dishwasher puffing out of the control panel", "smoke"),
        ("con el agua a los tobillos aqui en la lavanderia", "flooding"),
        ("water is up to my ankles in the laundry room", "flooding"),
        ("freezer is dripping right on its own plug", "water_near_power"),
        ("el refri gotea encima de su enchufe", "water_near_power"),
        ("me avento la secadora cuando la toque", "shock"),
        ("a mi hijo lo avento la lavadora", "shock"),
        ("i open the washer with a rag, it nips me", "shock"),
        ("la perilla del horno esta como brasa", "hot_wiring"),
        ("knob on the range gets hot as an iron", "hot_wiring"),
        ("el vapor me pelo la mano al abrir el lavaplatos", "injury"),
        ("i feel kinda drunk when i cook on the gas range", "carbon_monoxide"),
        ("andamos como borrachos sin tomar en esa cocina", "carbon_monoxide"),
        ("el chispero no para y avienta chispas por la perilla", "sparks"),
        ("el encendedor echa chispas por el cable", "sparks"),
        ("al extractor le sale humito por el foco sin estar guisando", "smoke"),
        ("the hood is dead and nobody is cooking but smoke comes out of it", "smoke"),
        ("the microwave at work caught fire, come quick", "fire"),
        ("the office fridge is smoking and the one at home too", "smoke"),
        ("grill is fine but smoke out back of the dryer", "smoke"),
        ("bacon smoke and electrical smoke from the hood motor", "smoke"),
        ("smoke comes out of the dishwasher vent, thats just steam right?", "smoke"),
        ("extension cord is soft and warm, food going soft", "hot_wiring"),
    ],
)
def test_a_danger_told_plainly_is_heard(reader: Reader, text: str, danger: str) -> None:
    assert danger in {hazard.code for hazard in reader.read(text).hazards}


@pytest.mark.parametrize(
    "text",
    [
        "Hola. La parrilla de gas de la isla no prende",
        "hola el horno de gas no calienta",
        "im flooded with laundry, washer lights up but wont start",
        "estoy inundada de ropa sucia, la lavadora no prende",
        "me duele la cabeza de oir rechinar la secadora electrica",
        "that squeal is giving me a headache, dryer squeals all day",
        "el foco del horno trono cuando lo prendi y quedo sin luz",
        "tengo que apagarle a la lumbre de los frijoles, a que hora llegan",
        "hood fan quit. smoke alarm yells every time he makes bacon",
        "vent fan stops. bacon smoke goes straight to the ceiling",
        "oven died mid turkey, we finished it on the grill, lots of smoke out there",
        "el encendedor truena solo, chispea aunque todo este cerrado",
        "the microwave at work caught fire lol. how much is one put in at my place",
        "el micro de mi trabajo echa chispas pero ese no, el de mi casa no abre",
        "the burner knob came off in my hand and now i cant turn that one on",
        "unplugged it first so no i did not get shocked, my wife already asked",
        "me avento la lavadora el agua por la puerta",
    ],
)
def test_what_only_sounds_so_is_none_of_these(reader: Reader, text: str) -> None:
    assert not reader.read(text).hazards
