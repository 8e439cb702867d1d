"""Smoke, fire and smells of something else than a machine, or of no matter; and true dangers beside the same words."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

HARMLESS = (
    "theres smoke drifting in from the campfire at the park, anyway my fridge is warm",
    "house reeks of smoke because my brother was frying fish, the hood fan is dead",
    "smoke in the house is from my sons vape, dont worry. dryer wont heat",
    "incense smoke all over sorry if i cough on the phone, need the ice maker fixed",
    "grandma lights candles so it always smells burnt in here lol, the freezer door wont seal",
    "the burning smell outside is the farmer burning his field. dishwasher leaks",
    "smelled smoke this morning and turned out to be a controlled burn. my fridge question still stands",
    "hubby grills on the patio so its smoky out there, unit to fix is the beverage cooler",
    "brakes were smoking on the pass so im late, the microwave plate wont spin",
    "my scrubs smell of smoke from the fire pit, washer wont start tho",
    "hay humo en la calle por el incendio del cerro, todavia viene el tecnico a ver la lavadora?",
    "huele a quemado porque mi suegra esta tatemando chiles, el horno esta bien, la lavadora no jala",
    "la casa huele a quemado por las veladoras de mi abuela, el congelador tiene hielo",
    "mi vecino quema basura cada tarde y se llena de humo el patio, la mia solo tarda mucho",
    "el humo se mete por la ventana, bueno el lavaplatos no enjuaga",
    "the vape my kid uses set off the smoke alarm. oven shows F1",
    "we tested the smoke alarm this morning so ignore the racket. range burner wont light",
    "probamos la alarma de humo y por eso tanto ruido, lo del refri sigue igual",
    "the carbon monoxide detector came with the house and i have never heard it, is that ok? the oven is slow",
    "what happens if a fridge catches fire, asking for a friend lol",
    "heard those ovens were recalled for smoking, mine is ok but the light is out",
    "es cierto que los refris se incendian? vi un video, el mio solo hace ruido",
    "si a alguien le huele a gas a quien le llama? es pura curiosidad",
    "my last stove caught fire, this one just has a loose knob",
    "oven smoked when we ran the self clean in april, that's over, now the lock is stuck",
    "there was a gas leak at our old house, here the burner is just weak",
    "the group chat is on fire about who broke the washer lol it wont spin",
    "smoke break at 3 so call me after. my washer is stuck",
    "fire dept came for a burnt pizza, all good, but the oven door is stuck",
    "we had a patient with CO poisoning, not me. my burner wont heat",
    "me duele la cabeza de tanto ruido que hace la secadora",
    "sale vapor que parece humo cuando abro el congelador, es el frio nomas. no cierra la puerta",
    "huele a gas cada que come frijoles mi marido jaja, el lavaplatos no cierra",
    "la de gas, we got propane",
)

DENIED = (
    ("the gas smell was the dog lol. my range clock is off", "gas_smell"),
    ("el olor a gas era un zorrillo, es la luz de la cocina", "gas_smell"),
    ("the only gas smell in here is my husband after chili", "gas_smell"),
    ("turns out the burning smell was my roommate's curling iron. cancel please", "burning_smell"),
    ("dijeron que era fuga de gas, no es fuga, es la perilla", "gas_smell"),
    ("no prende el panel, humo no echa", "smoke"),
)

DANGERS = (
    ("yesterday was the neighbors bbq but today the smoke is from my dryer", "smoke"),
    ("i had candles lit but the smoke is coming out of the dishwasher", "smoke"),
    ("i was cooking bacon when smoke came out the back of the stove", "smoke"),
    ("smoke alarm goes off every time the dryer runs", "smoke"),
    ("no smoke unless you count what comes off the plug", "smoke"),
    ("el humo no es del vecino es de mi secadora", "smoke"),
    ("se quemo la tortilla pero el humo viene del motor de la campana", "smoke"),
    ("el compactor de basura esta echando humo", "smoke"),
    ("wine cooler smells hot and smoke comes from the bottom grill", "smoke"),
    ("the candle tipped and the curtain by the stove is on fire", "fire"),
    ("my dryer caught fire in march and it caught fire again today", "fire"),
    ("there was a fire at my house last night in the laundry room", "fire"),
    ("my brother says the washer is on fire", "fire"),
    ("it smells like burnt popcorn but we didnt make any", "burning_smell"),
    ("i thought it was a roast down the street but no its the washer, smells like burnt rubber", "burning_smell"),
    ("more like when a fuse cooks", "burning_smell"),
    ("smell of burning hair from the dryer", "burning_smell"),
    ("first i thought it was the dog but the gas smell is by the stove", "gas_smell"),
    ("comi frijoles jaja pero de veras huele a gas la estufa", "gas_smell"),
    ("not sure if its the trash, smells like gas by the oven", "gas_smell"),
    ("no we feel fine just sleepy and heads pounding", "carbon_monoxide"),
    ("my co detector wont shut up when i bake in the stove", "carbon_monoxide"),
    ("el detector de monoxido no se calla y la secadora de gas esta prendida", "carbon_monoxide"),
)


@pytest.mark.parametrize("text", HARMLESS)
def test_what_comes_from_no_machine_raises_nothing(reader: Reader, text: str) -> None:
    assert not reader.read(text).hazards


@pytest.mark.parametrize(("text", "code"), DENIED)
def test_what_it_was_instead_denies_it(reader: Reader, text: str, code: str) -> None:
    read = reader.read(text)
    assert code not in {hazard.code for hazard in read.hazards}
    assert code in {hazard.code for hazard in read.denied_hazards}


@pytest.mark.parametrize(("text", "code"), DANGERS)
def test_a_danger_beside_the_same_words_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text).hazards}
