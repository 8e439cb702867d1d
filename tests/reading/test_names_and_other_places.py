"""Danger words that are names, told of other places, asked of any machine or long mended; and the dangers in such words."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader

HARMLESS = (
    "chispa es la gata, no la dejen salir. la secadora no calienta",
    "humo y lumbre son mis perros, los amarro antes que lleguen",
    "our cats Ember and Smoke hide from strangers. freezer door wont seal",
    "Flash and Smokey are the dogs, both friendly. the ice maker quit",
    "Sparky the beagle will be in the crate, fridge is in the garage",
    "Chispa es la marca del suavizante, la lavadora no lo agarra",
    "the washer is a Cindrel Spark 200, white, lid wont lock",
    "took the dryer to Smoky Hollow lane, second house. drum dont turn",
    "Gas leak scare on Alder St so traffic is bad. washer visit still at 2?",
    "there was a fire two blocks over and the power blinked, my oven clock is 12:00",
    "transformer down the road blew and threw sparks, power is back, oven clock blinks",
    "the sprinkler guy hit the line so the yard is mud. fridge drawer cracked",
    "its branding week so the whole place stinks of burnt hair. barn freezer has ice",
    "I smell like a bonfire, we had one. dryer light is out",
    "i cut my thumb on a tuna can yesterday so i type slow. dryer drum squeals",
    "me corté el dedo picando cebolla no con la lavadora jaja. no cierra la tapa",
    "sliced my finger cutting limes so no i cant move the fridge for you",
    "me quemé con el café esta mañana, por eso no contesté. sí, a las 3",
    "toddler dumped the dog bowl, water everywhere, mopped. the washer wont drain",
    "can a microwave spark if my kid leaves a spoon in it? just asking before she does",
    "if this thing so much as smokes once im tossing it. right now it just wont start",
    "antes del recall echaba humo, ya le pusieron la pieza hace un año. hoy marca F21",
    "it smoked once in 2019 and they put a new motor. today it only hums",
    "es normal que chispee al prender la hornilla? prende bien luego luego",
    "los chispazos de la estufa son normales verdad? hace tac tac y prende",
    "co alarm was beeping, changed the battery and its quiet. still need the range knob",
    "she texted that the kitchen was on fire, thats slang. dishwasher is the one out",
    "mi patrona echa humo, ya van dos veces que no vienen. el horno no cierra",
    "el horno calienta como infierno, así le gusta a mi papá. la puerta no cierra",
    "the knob is so hot, no wait thats the sun. it spins loose",
)

DANGERS = (
    ("Smokey is the dog and no joke theres smoke from the dryer", "smoke"),
    ("la perra se llama Chispa pero las chispas son del micro", "sparks"),
    ("My Dryer Sparks When I Start it", "sparks"),
    ("my dog is scared, Smoke in the laundry", "smoke"),
    ("the dryer is on fire, thats no joke", "fire"),
    ("my daughter said the kitchen was on fire, i thought it was slang", "fire"),
    ("can a dryer catch fire? mine just did", "fire"),
    ("if it catches fire again im throwing it out", "fire"),
    ("saw a video where microwaves spark and mine does exactly that", "sparks"),
    ("new carbon monoxide detector and it reads 70", "carbon_monoxide"),
    ("used to smell gas before they moved the meter and now it smells again", "gas_smell"),
    ("antes del recall echaba humo y ahorita otra vez", "smoke"),
    ("it smoked once in 2019. today it does the same", "smoke"),
    ("lightning hit the pole and sparks came out of the fridge", "sparks"),
    ("the pole blew and sparks flew out the back", "sparks"),
    ("smells like a campfire in the laundry when it runs", "burning_smell"),
    ("i smell like a campfire smell by the dryer", "burning_smell"),
    ("pushing the fridge off the truck we hit the line and it hisses", "refrigerant_leak"),
    ("cut my hand on the fridge drawer getting a can of tuna", "injury"),
    ("me corté con la secadora, no con un cuchillo", "injury"),
    ("my kid dumped water in the washer and now water everywhere from it", "flooding"),
    ("es normal que salgan chispas de atrás de la estufa? prende bien", "sparks"),
    ("fire in the kitchen on Alder st", "fire"),
    ("changed the battery in the co alarm and its still going", "carbon_monoxide"),
    ("the plug is hot and the sun is not on it", "hot_wiring"),
)


@pytest.mark.parametrize("text", HARMLESS)
def test_what_is_named_so_or_told_of_elsewhere_raises_none(reader: Reader, text: str) -> None:
    assert not reader.read(text).hazards


@pytest.mark.parametrize(("text", "code"), DANGERS)
def test_a_danger_in_such_words_stays(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text).hazards}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("no nothing tingly when i touch it. just dead", "shock"),
        ("touched it barefoot and nope felt nothing", "shock"),
        ("felt the cord and the plug, both cool. still dead", "hot_wiring"),
        ("no sale humo ni huele a nada raro", "burning_smell"),
    ],
)
def test_what_was_not_felt_is_denied(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text).denied_hazards}
