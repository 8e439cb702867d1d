"""Reasons to be seen sooner: food and medicine that spoil, people who cannot wait, water that comes now."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("food_at_risk", "freezer died and the deer meat is getting soft"),
        ("food_at_risk", "chest freezer off, half a hog in there going soft"),
        ("food_at_risk", "our salmon is thawing, garage freezer quit"),
        ("food_at_risk", "popsicles turned to juice overnight"),
        ("food_at_risk", "everything up top went to mush in the freezer"),
        ("food_at_risk", "the steaks are sweating, freezer reads 30"),
        ("food_at_risk", "spoiled all my chicken, fridge at 55"),
        ("food_at_risk", "se fue el congelador y las paletas ya se derritieron"),
        ("food_at_risk", "la carne ya está soltando sangre, el congelador no enfría"),
        ("food_at_risk", "tengo la leche materna en el refri y está tibio"),
        ("food_at_risk", "se me va a descongelar el venado"),
        ("medicine_at_risk", "fridge is dead, put the insulin vials in a cooler"),
        ("medicine_at_risk", "i moved the meds to an ice chest, fridge is at 60"),
        ("medicine_at_risk", "ahí tengo las vacunas de los perros y el refri no prende"),
        ("medicine_at_risk", "guardo la insulina de mi esposo adentro y no enfria"),
        ("vulnerable_person", "i am blind and the oven beeps nonstop"),
        ("vulnerable_person", "my dad has dementia and the stove knob broke"),
        ("vulnerable_person", "wife just had a c-section, washer is dead"),
        ("vulnerable_person", "my husband had a stroke, the dryer is dead"),
        ("vulnerable_person", "mom of twins here, washer wont drain"),
        ("vulnerable_person", "our twins are 5 weeks old and the dryer quit"),
        ("vulnerable_person", "soy ciego y la lavadora no avisa"),
        ("vulnerable_person", "mi papá tiene parkinson, la estufa no prende"),
        ("vulnerable_person", "tengo gemelos de dos meses y la lavadora no jala"),
        ("vulnerable_person", "mis papas ya estan grandes y el refri no enfria"),
        ("active_leak", "ice machine leaks, got a cookie sheet under it"),
        ("active_leak", "dishwasher drips, tupperware under there for now"),
        ("active_leak", "water is trickling out right now from the fridge"),
        ("active_leak", "washer leaks, i have it caught in a roasting pan"),
        ("active_leak", "disposal drips, towels for now"),
        ("active_leak", "gotea el triturador, le puse un trapo"),
        ("active_leak", "la maquina de hielo está tirando poquita agua"),
    ],
)
def test_a_reason_to_hurry_is_heard(code: str, text: str) -> None:
    assert code in demo_reader().read(text).urgency


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("food_at_risk", "i defrosted the freezer and it still clunks"),
        ("food_at_risk", "the oven leaves the turkey soft"),
        ("food_at_risk", "the food isnt getting warm in the microwave"),
        ("food_at_risk", "not losing food, just noisy freezer"),
        ("food_at_risk", "dryer room smells like rotten eggs gone bad"),
        ("food_at_risk", "estuve descongelando el refri y ahora truena"),
        ("food_at_risk", "freezer didnt thaw, its only loud"),
        ("medicine_at_risk", "fridge is warm, no medicine in it"),
        ("medicine_at_risk", "el refri no enfria, no tengo medicinas ahi"),
        ("vulnerable_person", "the baby lock is stuck on the fridge"),
        ("vulnerable_person", "do you have a senior discount"),
        ("vulnerable_person", "send a senior technician please"),
        ("vulnerable_person", "the washer is old, ya esta viejita la lavadora"),
        ("vulnerable_person", "my tattoo gun had a baby with it"),
        ("vulnerable_person", "my dad is mad about the dryer"),
        ("vulnerable_person", "hay descuento para los de la tercera edad?"),
        ("active_leak", "grease keeps dripping off the hood"),
        ("active_leak", "dishes are still dripping at the end"),
        ("active_leak", "roof leak, bucket under it. washer wont spin"),
        ("active_leak", "ya no gotea la lavadora pero truena"),
        ("active_leak", "los trastes siguen saliendo sucios"),
        ("active_leak", "la ropa sigue saliendo con jabon"),
        ("active_leak", "puse la charola de abajo en el horno"),
        ("active_leak", "la campana gotea grasa"),
        ("active_leak", "it was dripping from the hose before, dry now"),
    ],
)
def test_what_only_sounds_like_one_is_none(code: str, text: str) -> None:
    assert code not in demo_reader().read(text).urgency
