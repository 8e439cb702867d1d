"""Dangers that are over, only told of, or what a machine does as it should; and those that only sound alike and are at hand."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader

NONE_AT_HAND = [
    "cut my pinky on a broken fence so bear with my typing, the dryer wont heat",
    "me corte el dedo picando cebolla, perdon la tardanza. el refri no enfria",
    "my son broke his arm playing soccer so can we move the washer visit to friday",
    "husband burned his hand on the bbq grill last night, im typing for him. dishwasher wont latch",
    "se me machuco el dedo con la puerta del carro, no puedo escribir bien. la estufa no prende un quemador",
    "i burned my neck with the curling iron lol anyway the freezer wont close",
    "smashed my thumb with a hammer yesterday, cant do the filter",
    "se me quemo el arroz por estar hablando con ustedes jaja, la estufa jala bien",
    "me pego un toque la cerca electrica del vecino, ja. el lavaplatos no drena",
    "the truck battery zapped my husband, hes fine. the oven light is out",
    "sticker shock when i saw the quote, wow. is the fridge fixable",
    "my hand cramps from typing, sorry. washer wont drain",
    "in shock over my dad passing, please move the dryer visit",
    "saw on the news a washer exploded and hurt a lady, mine just hums",
    "en el noticiero dijeron que una secadora se incendio, la mia nomas no gira",
    "i had a dream the dryer was on fire lol. it just squeaks",
    "soñe que salia humo del refri, pero no, nomas no enfria",
    "the family across the street had a fire in their garage, we are fine. can you still come for the dryer",
    "la señora de enfrente tuvo lumbre en su cocina anoche, uff. lo mio es el horno q no calienta",
    "my cousin's dryer caught fire last week, mine just takes two cycles",
    "a mi comadre le dio toques su lavadora, la mia no, nomas no exprime",
    "you asked about smoke. none. it just wont start",
    "me preguntaron por humo, nada de eso, nomas no prende",
    "burner flames are tiny on all four since the new tank",
    "las flamas de la estufa salen bajitas, azules pero chiquitas",
    "been putting out fires all day at the office, sorry. the ice maker leaks",
    "ando apagando fuegos todo el dia en la chamba jaja, luego les marco",
    "water from the dispenser runs fine but no ice",
    "washer keeps filling until i close the faucet",
    "la lavadora no para de llenarse hasta que cierro la llave",
    "glass on the stove cracked, looks like lightning",
    "hubo truenos y se fue la luz, ahora la estufa parpadea",
    "cold smoke looking fog rolls out of the freezer when i open it",
    "first time using the new oven, smells a bit like the manual said it would. the clock wont set",
    "the burning smell you came for in may is gone since, thank you. now the door squeaks",
    "el olor a quemado que vinieron a arreglar en mayo ya no volvio. ahora la puerta rechina",
    "our old dryer smoked so it went to the dump, this new one just wont start",
    "limpie con cloro y por eso huele a quimico junto al refri, lo que no sirve es la luz",
    "just smells like onions, im frying onions",
    "they are burning leaves in the field next door so yes theres smoke. dishwasher is the problem",
    "el humo es de la quema del rancho, la estufa no tiene nada que ver. la luz del horno no sirve",
    "the co alarm chirps every minute but its just the low battery. fridge is warm",
    "el detector de monoxido chilla cada minuto, es la pila vieja, ya mero la cambio. la lavadora no gira",
    "lavadora no exprime, nada de humo ni nada de olor a gas",
    "nada de chispas solo no prende",
    "quite la alarma de humo pa pintar, no porque haya humo. el horno no prende",
    "i took the smoke alarm down to paint, not because of smoke. oven wont light",
    "mi esposa echa lumbre de coraje porque no llegan",
    "ando echando humo del coraje, tercera vez que me cancelan",
    "im so mad theres smoke coming out of my ears, third no show",
    "traigo dolor de cabeza de tanto trabajo, el refri no enfria",
    "headache from the kids all day, anyway oven is off by 50",
    "smokin deal on that fridge but it wont cool",
]

AT_HAND = [
    ("cut my finger on the dishwasher rack reaching for a can of beans", "injury"),
    ("sliced my thumb on the metal edge inside the dryer drum, needs stitches", "injury"),
    ("me corte la mano con el vidrio del horno", "injury"),
    ("my kid burned her hand on the oven door after soccer practice", "injury"),
    ("se me quemo la mano con la parrilla de la estufa", "injury"),
    ("fell off the ladder behind the fridge, leg is cut bad", "injury"),
    ("the freezer lid slammed on my finger, its purple", "injury"),
    ("me dio un toque la lavadora cuando la toque", "shock"),
    ("the fridge handle gave me a zap like the fence does", "shock"),
    ("got zapped by the dryer, not static", "shock"),
    ("me dan calambres en la pierna cada que toco la secadora", "shock"),
    ("woke up from a dream and the dryer was on fire for real", "fire"),
    ("i saw on the news about CO and now my detector is going off", "carbon_monoxide"),
    ("a mi comadre le dio toques su lavadora y la mia tambien", "shock"),
    ("you asked about sparks. yes from the plug", "sparks"),
    ("you asked about smoke, not sure but it looks hazy behind the dryer", "smoke"),
    ("flames coming out of the back of the stove", "fire"),
    ("flames in the oven, big ones", "fire"),
    ("hay llamas atras de la estufa", "fire"),
    ("we put out two fires in the dryer this week", "fire"),
    ("water wont stop, its all over the floor until i get the valve shut", "flooding"),
    ("there was a flash like lightning from the outlet and the glass cracked", "sparks"),
    ("tronó el contacto y se fue la luz", "sparks"),
    ("theres a cold fog and also smoke behind the freezer motor", "smoke"),
    ("new oven smells like burning plastic even after the first burn off", "burning_smell"),
    ("you came for the burning smell in may and its back", "burning_smell"),
    ("you guys fixed the sparks last spring and it sparks again", "sparks"),
    ("our old dryer smoked so it went to the dump, this new one smokes too", "smoke"),
    (
        "chemical smell and a hiss behind the fridge, i cleaned with bleach yesterday but this is different",
        "refrigerant_leak",
    ),
    ("fridge hissing like a snake and chemical smell", "refrigerant_leak"),
    ("im frying fish and smell burning wires behind the stove", "burning_smell"),
    ("clothes out of the dryer smell like a campfire", "burning_smell"),
    ("smoke out of the dryer, nothing to do with the neighbors burning trash", "smoke"),
    ("huele a quemado y no tiene nada que ver con la comida", "burning_smell"),
    ("co detector chirped for a battery, i changed it and now it beeps nonstop", "carbon_monoxide"),
    ("cambie las pilas del detector de monoxido y ahora suena seguido", "carbon_monoxide"),
    ("new batteries in the co detector and it still beeps", "carbon_monoxide"),
    ("the CO alarm is a steady tone not a chirp, batteries are new", "carbon_monoxide"),
    ("no calienta nada, de repente sale humo por atras", "smoke"),
    ("no me ayudo nada y de la nada fuego en el horno", "fire"),
    ("que coraje, la secadora echa chispas", "sparks"),
    ("estoy furiosa, la estufa saca humo otra vez", "smoke"),
    ("dolor de cabeza desde que prendi la estufa de gas", "carbon_monoxide"),
    ("we all get a headache when the gas oven is on, thought it was from work", "carbon_monoxide"),
    ("outlet is smoking hot and smoking", "smoke"),
]


@pytest.mark.parametrize("text", NONE_AT_HAND)
def test_no_danger_at_hand(text: str) -> None:
    assert demo_reader().read(text).hazards == ()


@pytest.mark.parametrize(("text", "danger"), AT_HAND)
def test_danger_at_hand(text: str, danger: str) -> None:
    assert danger in {hazard.code for hazard in demo_reader().read(text).hazards}
