"""Ways of telling a fault, or none, that strangers took: another's machine, what is not so, the rest of a list."""

from __future__ import annotations

import pytest

from service.reading.faults.stated import Statements
from service.reading.model import Asked, Found
from service.reading.opinion.leaning import BESIDES, SURE, told_besides
from service.reading.opinion.second_opinion import Opinion
from service.reading.reader import Reader


def told(reader: Reader, text: str, asked: Asked | None = None) -> set[str]:
    return {f"{found.appliance}:{found.code}" for found in reader.read(text, asked=asked).symptoms}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("my chest freezer runs but nothing in there is frozen", "freezer:not_cooling"),
        ("el refri prende pero nada se enfría", "refrigerator:not_cooling"),
        ("en el congelador ya nada se congela", "freezer:not_cooling"),
        ("the ignitors on my cooktop keep on ticking", "cooktop:clicks_nonstop"),
        ("blouses come out of the washer with tiny snags", "washer:damages_load"),
        ("la secadora, se me quemó una camiseta", "dryer:damages_load"),
        ("you gotta slam the microwave door twice", "microwave:door_fault"),
        ("al micro hay que azotarle la puerta", "microwave:door_fault"),
        ("my dryer heats for a few minutes then blows cold", "dryer:no_heat"),
        ("la secadora calienta un ratito y luego se enfría", "dryer:no_heat"),
        ("lights work on the hood but the fan won't", "range_hood:fan_dead"),
        ("en la campana la luz sí prende pero el ventilador no", "range_hood:fan_dead"),
        ("some buttons on the oven work and others dont", "range:controls_fault"),
        ("en la lavadora unos botones jalan y otros no", "washer:controls_fault"),
        ("la lavadora tiene agua y el agua sale por debajo de la puerta", "washer:leak"),
        ("mi estufa eléctrica tiene una hornilla muerta", "range:burner_dead"),
        ("dishwasher leaves about an inch of gray water in the bottom", "dishwasher:slow_drain"),
        ("al lavaplatos le quedan dos dedos de agua", "dishwasher:slow_drain"),
    ],
)
def test_a_fault_is_heard(reader: Reader, text: str, code: str) -> None:
    assert code in told(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the fridge is fine, the sides feel a little warm", "refrigerator:not_cooling"),
        ("el compresor del refri se siente tibio", "refrigerator:not_cooling"),
        ("i reset the breaker and the dryer still squeals", "dryer:trips_breaker"),
        ("the hood light wont turn off", "range_hood:light_out"),
        ("quit blowing up my phone", "unknown:fan_dead"),
        ("the oven is set for friday, please knock really loud", "unknown:noise"),
        ("eggs in the fridge got cracked on the way home", "refrigerator:broken_part"),
        ("no tengo que pagar yo, paga el seguro", "unknown:door_fault"),
        ("no puedo el lunes, trabajo doble", "unknown:vague"),
        ("no es que esté muerta la secadora, es que no calienta", "dryer:dead"),
        ("no es que tire agua la lavadora, es que no exprime", "washer:leak"),
    ],
)
def test_what_only_sounds_like_it_is_not(reader: Reader, text: str, code: str) -> None:
    assert code not in told(reader, text)


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("my neighbor's dryer leaks all over lol mine just squeals", {"dryer:noise"}),
        ("the neighbors fridge leaks, mine doesn't get cold", {"refrigerator:not_cooling"}),
        ("a la vecina le gotea la lavadora a mi no me exprime", {"washer:no_spin"}),
    ],
)
def test_ones_own_machine_is_told_apart_from_a_neighbors(reader: Reader, text: str, heard: set[str]) -> None:
    assert told(reader, text) == heard


@pytest.mark.parametrize(
    ("text", "danger", "heard"),
    [
        ("no just smells like dinner", "burning_smell", set()),
        ("no, i shut it off", "shock", set()),
        ("no i shut it off, but now it wont drain", "shock", {"washer:no_drain"}),
        ("no but the drum stinks like mildew", "burning_smell", {"washer:odor"}),
    ],
)
def test_a_word_of_an_answer_about_a_danger_is_no_fault(
    reader: Reader, text: str, danger: str, heard: set[str]
) -> None:
    assert told(reader, text, Asked("yes_no", "washer", danger)) == heard


@pytest.mark.parametrize(
    ("margin", "likeliest", "taken"),
    [
        (BESIDES + 0.05, True, True),
        (BESIDES - 0.05, True, False),
        (BESIDES + 0.05, False, False),
        (SURE + 0.05, False, True),
    ],
)
def test_beside_a_heard_fault_only_what_is_told_plainly_is_taken(margin: float, likeliest: bool, taken: bool) -> None:
    heard = Statements((Found("washer", "leak", 0.9, "leaks", 0, 5, "a.rule"),), (), (), (), ())
    opinion = Opinion("noise" if likeliest else "leak", {"noise": margin, "leak": 0.9 if not likeliest else -0.5})
    after = told_besides(opinion, heard, "washer", "it leaks and such", {})
    assert ("noise" in {found.code for found in after.symptoms}) == taken
