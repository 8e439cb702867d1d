"""What is said to work beside a fault, and replies in other words than yes and no."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

NOISE = Asked("yes_no", appliance="washer", code="noise")
GAS = Asked("yes_no", appliance="range", code="gas_smell")
TWO_DAYS = Asked("offer", offers=("Tue 10-12", "Thu 1-3"), choices=(Choice("a", "Tue 10-12"), Choice("b", "Thu 1-3")))


def kind(reader: Reader, text: str, asked: Asked) -> str | None:
    answer = reader.read(text, asked=asked, about=asked.appliance).answer
    return answer and answer.kind


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("every single load", "yes"), ("only when it fills", "yes"), ("todas las veces", "yes"), ("asina mero es", "yes"),
        ("sometimes, not always", "yes"), ("it rattles the wall so yes", "yes"), ("sosegada desde ayer, asi que no", "no"),
        ("not one peep", "no"), ("besides the kids no", "no"), ("it quit doing that", "no"), ("calladita", "no"),
        ("i'd have to listen for it", None), ("never paid attention", "dont_know"), ("no estoy ahorita en casa", "dont_know"),
        ("gotta run, will text u tonight", None), ("de la de siempre", None),
    ],
)  # fmt: skip
def test_a_reply_in_other_words(reader: Reader, text: str, expected: str | None) -> None:
    assert kind(reader, text, NOISE) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("i dont but my daughter does", "yes"), ("yo no, pero mi suegra dice que sí", "yes"), ("just a trace", "yes"),
        ("a hint maybe?", "yes"), ("i dont and my daughter doesnt", "no"), ("nadie, ni mi suegra", None),
    ],
)  # fmt: skip
def test_what_somebody_else_smells_is_a_yes(reader: Reader, text: str, expected: str | None) -> None:
    assert kind(reader, text, GAS) == expected


@pytest.mark.parametrize(
    "asked",
    [Asked("brand", appliance="freezer"), Asked("model", appliance="freezer"), Asked("serial", appliance="freezer")],
)
@pytest.mark.parametrize(
    "text", ["no sticker anywhere", "painted over", "ya se le despintó", "no trae placa",
     "ill look for it tonight", "mañana le digo"]
)  # fmt: skip
def test_what_is_not_written_is_not_known(reader: Reader, text: str, asked: Asked) -> None:
    assert kind(reader, text, asked) == "dont_know"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("older than my kids", "dont_know"), ("la dieron usada", "dont_know"), ("came with the apartment", "dont_know"),
        ("came with the house, about 12 years", "value"), ("no idea, maybe 9 years", "value"),
    ],
)  # fmt: skip
def test_an_age_nobody_knows(reader: Reader, text: str, expected: str) -> None:
    assert kind(reader, text, Asked("age", appliance="freezer")) == expected


@pytest.mark.parametrize(
    ("text", "index"),
    [
        ("2nd one, i will be out in the yard so just holler", 1), ("jueves porque el martes trabajo de noche", 1),
        ("thursday, tues the dog has the vet", 1), ("tuesday no, thursday yes", 1),
    ],
)  # fmt: skip
def test_which_of_two_windows(reader: Reader, text: str, index: int) -> None:
    answer = reader.read(text, asked=TWO_DAYS).answer
    assert answer is not None
    assert answer.index == index


@pytest.mark.parametrize(
    ("machine", "text", "denied"),
    [
        ("trash_compactor", "it stinks but it squashes the trash fine", "jammed"),
        ("disposal", "gotea por abajo pero muele bien", "jammed"),
        ("range", "oven door is cracked, nice blue flames up top", "weak_flame"),
        ("range", "no prende el horno, prenden las cuatro de arriba", "burner_dead"),
        ("refrigerator", "milk is warm, popsicles are still hard as rocks", "warm_freezer"),
        ("refrigerator", "el refri tibio pero la carne sigue dura", "warm_freezer"),
        ("wall_oven", "door squeaks. it bakes nice and even", "temp_off"),
        ("dryer", "tumbles and tumbles but the air is cold", "no_tumble"),
        ("dryer", "i wont say it doesnt heat, it just takes forever", "no_heat"),
        ("refrigerator", "no es que no enfríe, es que hace mucho ruido", "not_cooling"),
        ("dishwasher", "push start and nothing, the display does light up", "dead"),
    ],
)
def test_a_function_that_works_is_denied(reader: Reader, machine: str, text: str, denied: str) -> None:
    assert denied in {f.code for f in reader.read(text, about=machine).denied}


@pytest.mark.parametrize(
    ("machine", "text", "code"),
    [
        ("refrigerator", "no ice no water at the door", "no_water"),
        ("refrigerator", "no sé qué tiene pero no enfría", "not_cooling"),
        ("dryer", "there isnt a day it doesnt trip the breaker", "trips_breaker"),
        ("range_hood", "runs no problem its the light thats burnt out", "light_out"),
        ("washer", "no es el motor, es la tapa que no cierra", "door_fault"),
    ],
)  # fmt: skip
def test_what_is_told_behind_a_denial_stands(reader: Reader, machine: str, text: str, code: str) -> None:
    reading = reader.read(text, about=machine)
    assert code in {f.code for f in reading.symptoms}
    assert code not in {f.code for f in reading.denied}


@pytest.mark.parametrize(
    ("machine", "text", "code"),
    [
        ("freezer", "it is dead, not a hum", "noise"), ("refrigerator", "dispenser is dry, no water", "leak"),
        ("range", "una hornilla no prende, las otras prenden", "dead"),
        ("dryer", "it starts and then quits after a minute", "no_start"),
    ],
)  # fmt: skip
def test_the_faults_own_words_deny_nothing(reader: Reader, machine: str, text: str, code: str) -> None:
    assert code not in {f.code for f in reader.read(text, about=machine).denied}
