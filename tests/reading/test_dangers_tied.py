"""
Dangers of current, water and wounds are told by what makes them so: not by everyday words, nor as a name, a fear, a general
question, or what befell somebody elsewhere or long ago.
"""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

EVERYDAY = (
    "checked the plug and the clothes are still wet after two cycles",
    "the spray arm is jammed and dishes come out dirty",
    "im doing dishes by hand and im stuck without it",
    "the leveling leg is stuck and the washer rocks",
    "he burned through two belts already on this dryer",
    "the handle piece came off in my hand",
    "wont burn on the back left eye of the stove",
    "there's a hum in my fridge that wont quit",
    "when i open the door it kicks back on and gets loud",
    "breaker pops every time i plug in the freezer",
    "a white flashing light on the front and it wont start",
    "i flip the switch and it just keeps buzzing, disposal wont turn",
    "we had lightning the other night and it has been dead since",
    "there is a blue light flashing on the panel",
    "no water comes out of the dispenser, light is on",
    "the water heater is electric if that matters, dishwasher wont fill",
    "i had to plug in the toaster to test it, the outlet is good",
    "the outlet works, the dryer never gets warm",
    "the cord is black and about 4 feet long",
    "turn the knob to hot and it still washes cold",
    "you can drive right up to the door, gate is open",
    "we moved down the street, new address coming",
    "the vent hose came off the back of the dryer again",
    "fridge in our lake house kitchen wont cool",
    "the call dropped on me earlier, dryer still squeals",
    "would it hurt the washer to run it with one bad foot",
    "how much to top off freon on a fridge from 2004",
    "water hammer in the line every time the washer fills",
    "the dispenser used to gush now it trickles",
    "fridge handle is greasy from the kids and one hinge is loose",
    "la secadora la enchufe y calienta poquito",
    "cambié el breaker y la estufa calienta a ratos",
    "el brazo de abajo está atorado y no lava bien",
    "al abrir la puerta avienta agua al piso",
    "se ven las luces prendidas pero no enfría",
    "la quemadura en la barra la hizo la sartén, lo que falla es el reloj",
    "la llave del cuarto de lavado se rompió, ahí se la dejo con el vecino",
    "se me derramó aceite en el refri y ya lo limpié, lo que quiero es que revisen la luz",
    "corté el tubo del agua para mover la lavadora y ahora no llena",
    "me pegó la risa con su mensaje, la secadora ya jaló",
    "el botón de agua caliente no jala",
    "le prende la luz del agua pero no sale",
    "he's in stitches every time it squeals, anyways belt is shot i think",
    "i'd give my right arm for a working dryer",
)

NOT_AT_HAND = (
    "Mrs. Adela Sparks here, the fridge side is warm",
    "my name is Tim Burns, dryer squeals",
    "gate code 4411, dog is Sparky and he is loud but sweet",
    "im afraid it will shock somebody, it hasnt yet, the handle is just loose",
    "me da miedo que saque chispas un día, hasta ahorita nada",
    "tengo miedo de que me vaya a dar toques, por eso no la he prendido",
    "my wife worries it could flood someday so she wants the hoses looked at",
    "can a microwave spark if the plate is metal rimmed",
    "can you get shocked from a dryer with a two prong adapter",
    "do dishwashers flood a lot after ten years? asking before i buy",
    "es cierto que los microondas echan chispas con papel aluminio",
    "what if it starts leaking on the outlet while we are gone, is there a shutoff",
    "my cousin got zapped by hers, mine just hums",
    "a mi vecina se le inundó la cocina, la mía está seca, solo no desagua",
    "coworkers fridge sparked last week, ours is only loud",
    "burned my arm on the campfire so i type slow, washer wont drain",
    "me corté rasurándome en el gimnasio jaja perdón, la secadora no prende",
    "i cut my thumb two months ago, all healed, thats why i waited to call about the stove knob",
    "i was in the ER all night, i work there, and came home to a fridge that beeps",
    "got shocked at work yesterday by a forklift charger lol but home now, washer is out of balance",
    "the quote shocked me but ok, come fix the dryer",
    "my electric bill zapped my savings, dryer takes 4 cycles",
    "me dio el toque de gracia el recibo, la secadora gasta mucho",
    "the electrician rewired that hot outlet back in march, now the dryer just squeaks",
    "the outlet sparked two years ago and an electrician replaced it, today the washer is just noisy",
    "washer walks and bangs, no sparks no shocks no water anywhere",
    "spilled soup by the cord last year, dried and nothing ever happened, now it just wont make ice",
    "the ceiling light in the laundry works, water comes out of the hose fine, washer wont spin",
    "do not need an ambulance lol just a new belt",
)

TOLD = (
    ("the plug on my dryer is hot and kind of brown", "hot_wiring"),
    ("the cord to my space freezer gets really hot", "hot_wiring"),
    ("my stove knob gets so hot i cant turn it", "hot_wiring"),
    ("se calienta mucho el enchufe de la secadora", "hot_wiring"),
    ("la clavija está negra y huele feo", "hot_wiring"),
    ("the light switch for the disposal gets hot", "hot_wiring"),
    ("i cut my finger on the broken glass tray", "injury"),
    ("my hand got stuck in the disposal for a minute and its swollen", "injury"),
    ("the door fell on my foot and its purple", "injury"),
    ("mi niño se quemó la mano con la puerta del horno", "injury"),
    ("grandma slipped in the puddle and hurt her hip", "injury"),
    ("somebody got burned by the steam", "injury"),
    ("i got a zap from the washer lid", "shock"),
    ("da toques cuando la toco descalza", "shock"),
    ("there is a hum in my fingers when i rest them on the panel", "shock"),
    ("i saw a flash behind the stove and heard a pop", "sparks"),
    ("it looks like the 4th of july in the microwave", "sparks"),
    ("salen chispas del enchufe", "sparks"),
    ("avienta lucecitas el microondas", "sparks"),
    ("water is running toward the power strip", "water_near_power"),
    ("the outlet behind the washer is wet", "water_near_power"),
    ("el agua ya llega al enchufe", "water_near_power"),
    ("hay un charco junto a la extensión", "water_near_power"),
    ("water is dripping through the kitchen light", "water_near_power"),
    ("cae agua en el cable", "water_near_power"),
    ("its gushing from the back of the fridge", "flooding"),
    ("se está inundando la cocina", "flooding"),
    ("hose burst behind the washer, water everywhere", "flooding"),
    ("fridge is leaking freon i can smell it", "refrigerant_leak"),
    ("le piqué al tubo del congelador con el cuchillo y salió gas", "refrigerant_leak"),
    ("im afraid it will shock me again, it got me twice", "shock"),
    ("it hasnt shocked my wife but it shocked me this morning", "shock"),
    ("me da miedo porque me dio un toque ayer", "shock"),
    ("what if its the outlet? its sparking when i plug in the dryer", "sparks"),
    ("can you come today, a spark jumped out of the plug", "sparks"),
    ("is it normal that my microwave sparks", "sparks"),
    ("worried because the plug is hot and turning brown", "hot_wiring"),
    ("my sister says its fine but the outlet behind my dryer is too hot to touch", "hot_wiring"),
    ("my neighbor shut the valve for me but there is water around the outlet", "water_near_power"),
    ("im scared, the kitchen is flooding and the valve wont turn", "flooding"),
    ("i cut my hand bad on the rack two hours ago, still bleeding", "injury"),
    ("my neighbor cut two fingers in my disposal", "injury"),
    ("at work the fryer is fine but the ice machine lid fell on my foot, it is swollen", "injury"),
    ("at work the ice machine gives me a tingle when i touch it", "shock"),
    ("Sparks came out of the plug", "sparks"),
    ("SPARKS FROM THE OUTLET", "sparks"),
    ("nothing works and the cord is hot", "hot_wiring"),
    ("im worried, i poked the freezer wall with a knife and it hisses", "refrigerant_leak"),
)


@pytest.mark.parametrize("text", EVERYDAY)
def test_everyday_words_of_a_fault_raise_no_danger(reader: Reader, text: str) -> None:
    assert [found.code for found in reader.hazards(text)] == []


@pytest.mark.parametrize("text", NOT_AT_HAND)
def test_what_is_not_at_hand_raises_no_danger(reader: Reader, text: str) -> None:
    assert [found.code for found in reader.hazards(text)] == []


@pytest.mark.parametrize(("text", "code"), TOLD)
def test_what_is_told_so_or_so_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in {found.code for found in reader.hazards(text)}


@pytest.mark.parametrize(
    ("text", "urgency"),
    [
        ("my apartment is number 87, the one on the left", ""),
        ("my toddler broke the knob off", ""),
        ("all the plates are still dripping when i take them out", ""),
        ("im 87 and i cant carry laundry anywhere", "vulnerable_person"),
        ("mi papá tiene 84 y vive solo", "vulnerable_person"),
        ("its still leaking, there is a pan under it", "active_leak"),
    ],
)
def test_numbers_children_and_wet_plates_are_no_urgency(reader: Reader, text: str, urgency: str) -> None:
    assert list(reader.read(text).urgency) == ([urgency] if urgency else [])


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("scared itll shock me. it hasnt", "shock"),
        ("nobody bleeding, the glass is swept up", "injury"),
        ("its under control, i shut the valve, no more water coming", "flooding"),
        ("nothing hissing back there, the top is just warm", "refrigerant_leak"),
        ("no shocks since the electrician came", "shock"),
    ],
)
def test_more_ways_to_deny(reader: Reader, text: str, code: str) -> None:
    reading = reader.read(text)
    assert reading.hazards == ()
    assert code in [found.code for found in reading.denied_hazards]
