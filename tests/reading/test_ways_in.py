"""How to get in, as people tell it in passing: who meets one, which door, what lies on the way, what to call out."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


@pytest.mark.parametrize(
    "text",
    [
        "dishwasher wont drain. my cousin can open up the gate for you",
        "fridge warm, we are always around so any time",
        "dryer squeals. there's always somebody here at the shop",
        "my father in law is there all day, washer wont spin",
        "a nurse is here around the clock so just show up",
        "my aunt is home with the baby all day",
        "oven is dead, she's in til 4 most days",
        "the back door by the trash cans stays unlocked",
        "range wont light. the gate by the mailbox is padlocked, honk",
        "ice maker quit. rear entrance please",
        "i have to meet you at the guard gate, disposal hums",
        "realtor will meet you there, stove is dead",
        "i have keys for the whole building so stop by the main office. dryer 3 no heat",
        "ask for Ruben at the counter, cooler is at 60",
        "drive around back, the driveway is torn up",
        "please latch the pasture gate, the horses. stove wont light",
        "washer leaks, wheelchair ramp is on the left side",
        "oven wont heat, street parking only",
        "steps are narrow and steep, freezer in the basement",
        "you will need four wheel drive after the last mailbox",
        "knock on the kitchen window, im out back. dryer no heat",
        "dishwasher dead, text when you're ten minutes out",
        "call ahead please, fridge is warm",
        "can the tech call me before he comes",
        "buzz Marta at the gate",
        "i'll be out in the barn so holler",
        "we'll crate the dogs",
        "la lavadora no exprime, mis papas estan siempre en la casa",
        "siempre hay alguien en la casa",
        "el refri no enfria, pregunten por doña Chayo",
        "pase directo, la puerta esta sin llave",
        "toquen por la ventana de la cocina",
        "cierren bien el portón por los chivos",
        "llámenme antes de llegar por favor, no sirve la secadora",
        "que me hablen antes",
        "marquen 4410 en el porton",
        "la entrada es por atras, lavadora tira agua",
        "el perro ladra pero no muerde",
    ],
)
def test_a_way_in_is_heard(text: str) -> None:
    assert demo_reader().read(text).facts.get("access")


@pytest.mark.parametrize(
    "text",
    [
        "washer door is locked and wont open",
        "the oven door stays open a crack",
        "freezer door wont stay open or closed",
        "water comes in through the back door of the dishwasher",
        "the gate valve under the sink is stuck open",
        "key on the control panel is stuck",
        "dryer buzzer at the end wont shut off",
        "there's a loud knock and then a bang in the washer",
        "i knocked on the machine and it started",
        "it rings when done, drum wont turn",
        "she called first thing this morning, washer leaks",
        "who do i call first about the gas",
        "mom here, my dryer is dead",
        "the freezer is in the barn and quit cooling",
        "my towels smell like wet dog inside the washer",
        "i'll be home wednesday, dryer no heat",
        "we're home on the weekend only, fridge is loud",
        "i work from home and the washer is too loud",
        "ask for a discount",
        "estoy en casa los sabados",
        "ahorita no estoy en la casa",
        "el refri pita como que la puerta esta abierta",
        "la puerta de enfrente de la lavadora no abre",
        "entra agua por la puerta de la lavadora",
        "siempre esta haciendo ruido la secadora",
        "el perro se comio el cable de la lavadora",
    ],
)
def test_what_only_sounds_like_one_is_not(text: str) -> None:
    assert "access" not in demo_reader().read(text).facts
