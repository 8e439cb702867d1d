"""Long and crowded texts: several machines, what works beside what fails, what was done to the breaker."""

from __future__ import annotations

import pytest

from service.reading.model import Reading
from service.reading.reader import Reader


def _denied(read: Reading) -> set[str]:
    return {found.code for found in read.denied}


def _told(read: Reading) -> set[str]:
    return {found.code for found in read.symptoms}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (
            "ok so my washer. i think its the pump but im no expert. it fills, washes, then sits there full of gray water "
            "and i scooped it out with a pot two times now, front loader maybe eight years old",
            "no_agitate",
        ),
        (
            "the microwave over my stove sounds like a jet since the weekend, it used to be so quiet. heats ok, turns ok, "
            "lamp ok. eight years old and im home after four",
            "light_out",
        ),
        (
            "i am the landlord and the tenant sent me a video, dishwasher makes a grinding sound like gravel. Fills fine. "
            "bought it used so no idea how old, she works nights so come after two",
            "no_fill",
        ),
        (
            "buenas, la lavadora brinca bien feo cuando exprime y se camina hasta la puerta. llena bien. le puse tapetes de "
            "hule y ni asi se queda quieta, tiene como seis años y es de carga frontal",
            "no_fill",
        ),
    ],
)
def test_what_works_in_a_word_or_two_is_not_drowned_by_a_long_text(reader: Reader, text: str, code: str) -> None:
    assert code in _denied(reader.read(text))


def test_what_is_said_of_a_pause_is_still_no_denial(reader: Reader) -> None:
    text = "se va la luz de media casa cada que la frisa arranca"
    assert "no_start" not in _denied(reader.read(text))


@pytest.mark.parametrize(
    "text",
    [
        "my dryer stacked on the washer leaves the towels wet unless I run it twice",
        "the dryer rips my shirts. dryer not washer because i hung one up to test",
        "washer and dryer came with the house. washer has been a champ. dryer shuts off after 15 min every single time",
        "la secadora va encima de la lavadora y ya no seca",
        "if i run the washer and the dryer at the same time lights dim. but the DRYER now smells musty",
    ],
)
def test_a_machine_only_named_beside_is_not_the_one(reader: Reader, text: str) -> None:
    read = reader.read(text)
    assert read.appliances == ("dryer",)
    assert {found.appliance for found in read.symptoms} == {"dryer"}


@pytest.mark.parametrize(
    ("text", "machines"),
    [
        ("hood over the stove is loud and doesnt suck. mesh filters been thru the dishwasher", ("range_hood",)),
        (
            "wine fridge light flickers then goes off. happens when the dryer is on?? maybe coincidence",
            ("beverage_cooler",),
        ),
        ("la lavadora brinca cuando la secadora esta prendida", ("washer",)),
        ("Dishwasher smells bad. Tried the baking soda thing", ("dishwasher",)),
        ("cooktop is cracked, my wife cooked on the camp stove", ("cooktop",)),
        ("none of the dishwasher buttons do anything since the storm. fridge and stove survived", ("dishwasher",)),
        ("when I run the microwave and the dryer my fridge clicks", ("refrigerator",)),
        ("my freezer. the upright one, not the one with the fridge. it beeps all night", ("freezer",)),
        ("lave los filtros en el lavaplatos y la campana sigue sin jalar", ("range_hood",)),
        # ... and these are the ones that fail
        ("washer is fine. when the dryer runs, it squeals", ("dryer",)),
        ("the breaker trips when the dryer is running", ("dryer",)),
        ("the washer leaks and when the dryer is running it squeals", ("washer", "dryer")),
        ("dryer is on the fritz and the washer leaks", ("dryer", "washer")),
    ],
)
def test_machines_named_as_place_occasion_or_survivor(reader: Reader, text: str, machines: tuple[str, ...]) -> None:
    assert reader.read(text).appliances == machines


@pytest.mark.parametrize(
    "text",
    [
        "dryer dead completely after the lightning. breaker looks ok i flipped it anyway",
        "hood fan wont shut off. tripped the breaker myself to sleep last nite and when its back on its blowing",
        "range clock is blank, popped the breaker for a min. 10 yrs",
        "wall oven keeps on heating after i hit off. had to throw the breaker off and on",
        "washer is dead. i flipped the breaker off and on",
        "ya le bajé al breaker y la lavadora sigue igual",
    ],
)
def test_a_breaker_switched_by_hand_does_not_trip(reader: Reader, text: str) -> None:
    assert "trips_breaker" not in _told(reader.read(text))


@pytest.mark.parametrize(
    "text",
    [
        "the dryer popped the breaker",
        "dryer tripped the breaker twice last night",
        "every load the breaker flips, its the dryer",
        "dryer stopped and tripped the breaker. i flipped it back and it tripped again",
        "i start the dryer and we lose the breaker, it pops every time",
    ],
)
def test_a_breaker_that_goes_by_itself_trips(reader: Reader, text: str) -> None:
    assert "trips_breaker" in _told(reader.read(text))


def test_two_short_sentences_tell_together_what_neither_tells(reader: Reader) -> None:
    read = reader.read(
        "The wine cooler reads 55 but a thermometer in it says 66. It also rattles. Started after the remodel when they shoved "
        "it back in. It is three years old. Could someone come next week, mornings preferred?"
    )
    assert _told(read) == {"temp_off", "noise"}


def test_going_again_after_a_rest_is_no_happy_end_where_somebody_is_wanted(reader: Reader) -> None:
    read = reader.read(
        "dryer shuts off fifteen minutes in every single time, wait half an hour and it goes again. "
        "need it fixed before the wedding"
    )
    assert "stops_midcycle" in _told(read)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("wine fridge set at 55 reads 66. fan in the back is spinning", "fan_dead"),
        ("range hood works on high only, low does nothing, the lite is fine", "light_out"),
        ("range pilot for the oven wont stay lit. stovetop pilots are ok", "burner_dead"),
        ("compactor crunches like gravel. it does crush and the drawer opens and shuts good", "door_fault"),
        ("mi lavaplatos saca su agua muy bien, pero huele feo", "no_drain"),
        ("chest freezer trips the GFI. food is ok so far", "not_cooling"),
        ("hood dropped a screw and the metal flap fell down. still blows", "fan_dead"),
        ("the oven light is burned out. bakes same as always. its a wall oven", "no_heat"),
        ("our fridge gives water but no ice", "no_water"),
    ],
)
def test_functions_praised_in_passing(reader: Reader, text: str, code: str) -> None:
    assert code in _denied(reader.read(text))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("fan in the back is not spinning on the wine fridge", "fan_dead"),
        ("the lite on my hood is out", "light_out"),
        ("food in the chest freezer is not ok", "not_cooling"),
        ("it gives water all over the floor, the fridge", "no_water"),
    ],
)
def test_what_only_sounds_like_praise(reader: Reader, text: str, code: str) -> None:
    assert code not in _denied(reader.read(text))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the dishwasher lights are on all at once and none of the buttons do anything", "controls_fault"),
        ("fridge has a baby lock thats stuck on, kids pulled on it", "controls_fault"),
        ("lavadora, ningún botón le responde", "controls_fault"),
        ("dishwasher sounds like gravel, then stops draining half way", "slow_drain"),
        ("microwave sparks, there was no metal in it, inside paint is peeling in the back corner", "broken_part"),
    ],
)
def test_faults_told_among_others(reader: Reader, text: str, code: str) -> None:
    assert code in _told(reader.read(text))


def test_a_list_of_what_is_not_so_goes_on_behind_its_commas(reader: Reader) -> None:
    read = reader.read("fridge is warm. no leaks, no smell, no ice on the back wall")
    assert {"leak", "frost"}.isdisjoint(_told(read))
