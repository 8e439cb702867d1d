"""Plain talk of hoses, cords, flames and names raises no danger; the same words told in earnest do."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Brandon Sparks", "name"),
        ("its Linda Burns", "name"),
        ("Marisela Fuego, con F", "name"),
        ("ana llamas", "name"),
        ("silver hose going out the wall", "variant"),
        ("LE with the little lock lit up", "code"),
        ("the plug and breaker are ok. still black screen", "check_result"),
    ],
)
def test_an_answer_is_what_was_asked_for(reader: Reader, text: str, asked: str) -> None:
    assert reader.read(text, asked=Asked(asked)).hazards == ()


@pytest.mark.parametrize(
    ("text", "asked", "code"),
    [
        ("Sparks", "name", "sparks"),
        ("blue sparks", "name", "sparks"),
        ("see smoke", "name", "smoke"),
        ("Ana Reyes. sparks came out just now", "name", "sparks"),
        ("hay chispas", "name", "sparks"),
        ("its Dunmarr and it was smoking when i pulled it out", "brand", "smoke"),
        ("the range is gas. i smell it even when everything is off", "fuel", "gas_smell"),
    ],
)
def test_a_danger_in_an_answer_is_one(reader: Reader, text: str, asked: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text, asked=Asked(asked)).hazards}


@pytest.mark.parametrize(
    "text",
    [
        "hot setting on the washer runs cold. hot water everywhere else in the house",
        "defrost drain was plugged i poured warm water in it",
        "dog barks like the house is on fire but shes harmless",
        "dishwasher is a smoking deal i got from a friend",
        "fire ants in the laundry room, and the washer wont spin",
        "carbon alarm shows 0, we got one for the inspection",
        "my laptop charger gets hot. the microwave plate wont turn is all",
        "plastic smell first time i ran the new dishwasher",
        "huele a hule nuevo el lavaplatos, tiene una semana",
        "parpadea siete veces la lucecita azul y luego descansa",
        "la puerta del horno no cierra, queda un dedo abierta",
        "una llantita del refri se quebro y no lo puedo jalar",
        "el tanquecito de la secadora dice lleno y esta vacio",
        "como limpio los quemadores de la estufa de gas? la llama sale bien",
        "the dishwasher door nearly broke my toe when it fell open",
    ],
)
def test_plain_talk_is_no_danger(reader: Reader, text: str) -> None:
    assert reader.read(text).hazards == ()


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("water is pouring out and its everywhere and wont stop", "flooding"),
        ("its pouring water onto the floor nonstop", "flooding"),
        ("the oven is on fire", "fire"),
        ("dishwasher is smoking from the front", "smoke"),
        ("carbon monoxide alarm reads 90 and keeps going off", "carbon_monoxide"),
        ("the dryer plug gets so hot i cant touch it", "hot_wiring"),
        ("new dishwasher and i smell burning plastic", "burning_smell"),
        ("sale una lucecita azul del enchufe cuando la conecto", "sparks"),
        ("se abrio el dedo con la puerta y le sale mucha sangre", "injury"),
        ("me dio toque la lavadora", "shock"),
        ("huele a gas la estufa?? sale del quemador", "gas_smell"),
    ],
)
def test_the_same_words_in_earnest_are(reader: Reader, text: str, code: str) -> None:
    assert code in {hazard.code for hazard in reader.read(text).hazards}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("sink backs up since the new disposal", "no_drain"),
        ("kitchen sink is backing up ever since they put in a new disposal", "no_drain"),
        ("sink is slow since the new disposal", "slow_drain"),
        ("desde que pusieron el triturador nuevo se tapa el fregadero", "no_drain"),
    ],
)
def test_under_a_sink_the_new_disposal_is_the_machine(reader: Reader, text: str, code: str) -> None:
    found = reader.read(text)
    assert ("disposal", code) in {(s.appliance, s.code) for s in found.symptoms}
    assert "new_disposal" in found.facts["after"]


def test_beside_another_machine_the_new_disposal_is_only_what_came_before(reader: Reader) -> None:
    found = reader.read("dishwasher won't drain since the new disposal")
    assert found.appliances == ("dishwasher",)
