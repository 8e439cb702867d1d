"""Dangers told without their names: by a tag, the body, the look of a plug, a hiss; and the harmless that sounds so."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


def hazards(text: str) -> list[str]:
    return [found.code for found in demo_reader().read(text).hazards]


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("gas_smell", "gas company put a red tag on my range"),
        ("gas_smell", "the gas guy came and shut the valve to the dryer"),
        ("gas_smell", "los del gas me cerraron la llave, dicen q es la estufa"),
        ("gas_smell", "nos cortaron el gas por la fuga de la estufa"),
        ("gas_smell", "his sniffer went crazy by the range"),
        ("gas_smell", "suena el detector de gas"),
        ("gas_smell", "the flex line foams up when you spray it with soap"),
        ("gas_smell", "le puse jabon a la manguera y salen burbujas"),
        ("gas_smell", "se quedo la perilla abierta toda la noche sin lumbre"),
        ("gas_smell", "se oye un ssss atras de la estufa"),
        ("fire", "fwoosh when i lit it, hair on my arm is gone"),
        ("fire", "the burner singed my bangs"),
        ("fire", "hubo q echarle agua porque se prendio"),
        ("fire", "tiny campfire in the oven, its out"),
        ("fire", "los bomberos sacaron la secadora al patio"),
        ("fire", "apague con el extinguidor"),
        ("injury", "se me quemaron las pestañas al prender el horno"),
        ("injury", "se me clavo un vidrio"),
        ("smoke", "something wispy coming from the vent of the microwave"),
        ("smoke", "thought it was steam but it stinks, out of the buttons"),
        ("smoke", "sale como neblina por atras de la secadora"),
        ("smoke", "me lloran los ojos de lo que sale del horno"),
        ("burning_smell", "smells like burnt toast and nobody cooked"),
        ("burning_smell", "i figured somebody was grilling, nope, my dryer"),
        ("hot_wiring", "prong came out black"),
        ("hot_wiring", "cord is chewed down to bare wire"),
        ("hot_wiring", "los ratones se comieron el cable y se ve pelado"),
        ("hot_wiring", "donde conecto la lavadora esta todo negrito"),
        ("hot_wiring", "hirviendo el cordon de la secadora"),
        ("sparks", "heard a crackle then the whole kitchen went dark"),
        ("sparks", "pum y se apago todo"),
        ("sparks", "the outlet snaps at me"),
        ("shock", "hair on my arm stood up when i leaned on the stove"),
        ("shock", "felt it clear up to my shoulder when i flipped the switch, hands wet"),
        ("hot_wiring", "the receptacle is kinda brown around the top slot"),
        ("hot_wiring", "one burnt prong on the plug"),
        ("smoke", "bluish, comes out of the back then stops"),
        ("flooding", "el charco ya llegó a la sala"),
        ("shock", "the washer pinches me when my hands are wet"),
        ("shock", "el perro chillo cuando toco el refri con la nariz"),
        ("carbon_monoxide", "my bird died in the kitchen, i was running the oven"),
        ("carbon_monoxide", "se murio el canario y la estufa estaba prendida"),
        ("carbon_monoxide", "we feel better when we go outside, worse when the oven is on"),
        ("carbon_monoxide", "la alarma que no es de humo suena 4 veces"),
        ("flooding", "carpet squelches all down the hall"),
        ("flooding", "towels arent keeping up"),
        ("flooding", "no doy abasto con las toallas"),
        ("flooding", "water all over and it wont stop"),
        ("flooding", "me esta cayendo agua al vecino de abajo"),
        ("flooding", "its dripping onto my downstairs neighbors bed"),
        ("water_near_power", "el foco del techo esta goteando agua"),
        ("water_near_power", "the leak sprayed the breaker box"),
        ("refrigerant_leak", "estaba picando el hielo y hizo fsssss"),
        ("refrigerant_leak", "made a hole in the freezer wall and air came out"),
    ],
)
def test_told_without_its_name(code: str, text: str) -> None:
    assert code in hazards(text)


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("gas_smell", "got my stove on red tag clearance, the knob fell off"),
        ("gas_smell", "gas company shut our meter off for the bill, paid it now, how do i relight the oven"),
        ("gas_smell", "los del gas me cerraron la llave por no pagar, ya pague, no prende el piloto"),
        ("gas_smell", "prendo la perilla y no hay flama"),
        ("fire", "me quemo las pestañas estudiando y la lavadora no exprime"),
        ("fire", "the fire truck toy got stuck in the dryer drum"),
        ("carbon_monoxide", "a dead bird in the vent of my range hood"),
        ("carbon_monoxide", "i feel better if you come after lunch"),
        ("smoke", "a wisp of steam curls out of the oven vent when i roast, normal right"),
        ("shock", "my cat bites me when my hands are wet lol. washer drain slow"),
        ("hot_wiring", "copper line behind the fridge is bent"),
        ("sparks", "se fue la luz en la colonia y el refri ya no enfria"),
        ("hot_wiring", "the plate is brown, the glass one in the microwave"),
        ("shock", "i felt it vibrate up to the second floor"),
        ("flooding", "el agua no sale, el técnico ya va en la sala"),
        ("flooding", "water stands in the washer and wont drain"),
        ("flooding", "dryer cant keep up with all these towels"),
        ("flooding", "al vecino se le inundo la casa, yo nomas quiero que me arreglen la secadora"),
        ("injury", "el enchufe quema la mano"),
        ("water_near_power", "the light in the fridge is on, its leaking water on the floor"),
    ],
)
def test_only_sounds_like_it(code: str, text: str) -> None:
    assert code not in hazards(text)
