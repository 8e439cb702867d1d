"""Danger words said of things, people and places that are no machine of ours; and dangers told beside such things."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader

HARMLESS = [
    "the smell downstairs is burning pipe flux, a guy soldering. my washer wont fill",
    "they are paving our street so it all smells burnt. the oven hinge broke",
    "están impermeabilizando el techo y huele a quemado. el refri no enfría",
    "huele a quemado afuera por los incendios del bosque. la secadora tarda mucho",
    "wildfire up the ridge and the house smells like a campfire. fridge hums",
    "my phone charger sparked, threw it out. the microwave plate does not spin",
    "el ventilador del techo echa chispas, ya viene el electricista. la lavaplatos no prende",
    "mi esposo es soldador y salen chispas en la cochera, no se asusten",
    "got zapped by the electric fence at the farm lol. washer wont spin",
    "i got a shock from the carpet and the doorknob lol. fridge light is out",
    "me dio toques la cerca del rancho jaja. la lavadora no exprime",
    "la cobija me da toques de estática al doblarla, qué suavizante uso",
    "wool blankets zap me with static when i fold them, dryer runs fine",
    "that invoice really shocked us. dryer again lol",
    "my bill this month, wow, it shocked me. is it the old freezer",
    "la tele sacó humo y se murió, ustedes no arreglan teles verdad? el refri hace ruido",
    "grandpa smokes like a chimney, the fridge gasket is yellow",
    "mi tío fuma y la casa huele a humo. la lavadora no exprime",
    "when i fry fish the whole house fills with smoke, the hood doesnt pull",
    "smoked a turkey in the oven with liquid smoke. the probe jack doesnt read",
    "he swears its smoke but its just steam off the dishwasher vent",
    "dice que es humo pero es vapor, la lavadora no exprime",
    "garage smells like gas because of my boat. the freezer out there stopped freezing",
    "work at the gas station so i smell of gas all day",
    "estoy en la gasolinera y huelo a gas jaja, llego en 10",
    "fuga de gas en la escuela de mis hijos, podemos cambiar la cita",
    "she said it smelled like gas and it was the trash. range door is loose",
    "tenant said it flooded, it was just the dogs bowl. ice maker quit",
    "dice que se inundó y era que se le volteó la cubeta. la secadora no calienta",
    "basement floods when it rains. anyway the dryer squeaks",
    "the co detector said low battery so i swapped it, dishwasher door wont latch",
    "le puse pila nueva al detector de monóxido y ya no chilla, es la secadora que no gira",
    "on fire with finals this week lol, washer wont rinse",
    "the fire department is next door for a cat lol. still coming at 3",
    "the spark on the burner clicks and it lights fine, the oven door is loose",
    "I cut my foot on a lego lol, the fridge light is out",
    "my ego got bruised fixing it. it still wont spin",
    "no injuries unless you count my pride. hood light is out",
    "the school had a gas leak so im home with the kids, come whenever",
    "my truck reeks of gas so i'll be outside. the dryer wont heat",
    "they're burning the ditches around here so it smells like smoke. dryer takes 2 cycles",
    "hair dryer smoked and died lol, not yours to fix. dishwasher leaves spots",
    "my inbox got flooded, did you send the quote",
    "spicy food has me breathing fire lol, the fridge water tastes weird",
    "mi perro se llama Humo, está amarrado. la estufa no prende",
    "cut my thumb chopping onions, typing slow. microwave door wont close",
    "my roommate is a paramedic, call after his shift",
]


@pytest.mark.parametrize("text", HARMLESS)
def test_raises_nothing(text: str) -> None:
    assert [hazard.code for hazard in demo_reader().read(text).hazards] == []


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("smells like burning tires when the washer spins", "burning_smell"),
        ("huele a quemado como chapopote la lavadora", "burning_smell"),
        ("the breaker tripped, tv died and now theres smoke behind the washer", "smoke"),
        ("la tele se fue y sale humo de atrás", "smoke"),
        ("smoke all over the ceiling in the kitchen", "smoke"),
        ("the whole neighborhood can see smoke coming out of my house", "smoke"),
        ("nadie fuma y huele a humo la casa", "smoke"),
        ("my wife smoked the motor trying to mix, now the washer smokes", "smoke"),
        ("its smoke not steam coming from the dishwasher", "smoke"),
        ("our neighbors had a fire and ours is smoking now", "smoke"),
        ("im a welder so i know sparks when i see them, the dryer is throwing them", "sparks"),
        ("there are sparks like welding in the microwave", "sparks"),
        ("vi chispas atrás del refri, se fue la luz y la tele", "sparks"),
        ("sparks everywhere, a fireworks show", "sparks"),
        ("got a shock off the washer standing on the carpet", "shock"),
        ("thought it was static from the blankets but the dryer door zaps me too", "shock"),
        ("the washer shocked me and so did the bill", "shock"),
        ("got shocked by the stove, how much to fix", "shock"),
        ("i smell gas in the house, we are sitting in the car", "gas_smell"),
        ("smells like gas because the cat stepped on the stove knob", "gas_smell"),
        ("i smell like gas in my kitchen, not at a gas station lol", "gas_smell"),
        ("we smell gas and the kids are at school", "gas_smell"),
        ("water everywhere, its running under the kids room", "flooding"),
        ("basement flooded from the washer and its raining too", "flooding"),
        ("changed the battery in the co alarm and its still beeping", "carbon_monoxide"),
        ("el detector de monóxido suena, le cambié la pila y sigue sonando", "carbon_monoxide"),
        ("the dryer is on fire with homework papers inside", "fire"),
        ("grease burned my hand at the stove making soup", "injury"),
        ("the paramedics are here", "injury"),
        ("Hola me llamo Rosa y Humo sale del micro", "smoke"),
        ("kids are at school, gas leak at the stove", "gas_smell"),
        ("in the truck now, house smells like gas", "gas_smell"),
        ("burned my hand chopping onions next to the burner", "injury"),
    ],
)
def test_a_danger_beside_such_things_stays(text: str, code: str) -> None:
    assert code in [hazard.code for hazard in demo_reader().read(text).hazards]
