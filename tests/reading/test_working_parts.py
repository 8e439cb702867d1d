"""What is told to work: parts praised, functions stated beside others, and what a negation does not reach."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def heard(reader: Reader, text: str) -> tuple[set[str], set[str]]:
    reading = reader.read(text)
    return {f.code for f in reading.symptoms}, {f.code for f in reading.denied}


@pytest.mark.parametrize(
    ("text", "not_so"),
    [
        ("range hood, both lights ok and the fan too", {"light_out", "fan_dead"}),
        ("hood lights are good and so is the fan, a button fell off", {"light_out", "fan_dead"}),
        ("clock and light on the stove work, oven stays cold", {"controls_fault", "light_out"}),
        ("nothing wrong with the fan on my hood, the light is out", {"fan_dead"}),
        ("la campana: el foco funciona, el ventilador no", {"light_out"}),
        ("el extractor de la cocina no prende el abanico, la luz si", {"light_out"}),
        ("fridge isnt cold. freezer is", {"warm_freezer"}),
        ("my stove, oven fine, front two burners no heat", {"no_heat"}),
        ("las hornillas de la estufa jalan bien, el horno no calienta", {"burner_dead"}),
        ("el refri no da agua, el hielo si cae", {"no_ice"}),
        ("fridge water from the door is fine, no ice", {"no_water"}),
        ("compactador no baja, el foquito si prende", {"dead"}),
        ("the top burners on my stove all light, oven wont heat", {"burner_dead"}),
    ],
)
def test_a_part_that_is_praised_does_not_fail(reader: Reader, text: str, not_so: set[str]) -> None:
    assert not_so <= heard(reader, text)[1]


@pytest.mark.parametrize(
    "text",
    [
        "the microwave sparks with a normal plate",
        "el micro saca chispas con un plato normal",
        "my cooktop flame is really low",
        "la flama de mi estufa sale bien bajita",
        "the hood fan works only on high",
        "hood buttons work when they feel like it",
        "water got behind the buttons on the range where the clock is",
        "when the light on my hood works it flickers",
        "turn the hood fan on and it smells",
    ],
)
def test_a_part_that_is_only_named_is_not_praised(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert {f.code for f in reading.denied} & {
        "turntable_stuck",
        "weak_flame",
        "fan_dead",
        "controls_fault",
        "light_out",
    } == set()


@pytest.mark.parametrize(
    ("text", "so", "not_so"),
    [
        ("dryer drum turns no heat", {"no_heat"}, {"no_tumble"}),
        ("washer fills drains but no spin", {"no_spin"}, {"no_fill", "no_drain"}),
        ("micro turns on plate spins food stays cold", {"no_heat"}, {"dead", "turntable_stuck"}),
        ("dryer heats, drum doesnt turn", {"no_tumble"}, {"no_heat"}),
        ("dryer spins no, heats yes", {"no_tumble"}, {"no_heat"}),
        ("la secadora gira si, calienta no", {"no_heat"}, {"no_tumble"}),
        ("la secadora no calienta, gira eso si", {"no_heat"}, {"no_tumble"}),
        ("the washer is spinning again", set(), {"no_spin"}),
        ("my dishwasher is draining now", set(), {"no_drain"}),
        ("el refri ya volvio a enfriar", set(), {"not_cooling"}),
        ("washer fills up and then it just sits there", {"no_start"}, {"no_fill"}),
        ("microwave wont heat anything, turns and lights up", {"no_heat"}, {"turntable_stuck"}),
        ("nothing wrong with the spin on my washer, it wont drain", {"no_drain"}, {"no_spin"}),
    ],
)
def test_functions_stated_beside_what_fails(reader: Reader, text: str, so: set[str], not_so: set[str]) -> None:
    present, denied = heard(reader, text)
    assert not_so <= denied
    assert so <= present or so == {"no_start"}


@pytest.mark.parametrize(
    "text",
    [
        "my washer fills and fills",
        "the washer drains, slowly",
        "my washer drains but really slow",
        "the washer spins until it gets hot and quits",
        "the dryer just spins",
        "the washer spins no more",
    ],
)
def test_what_works_badly_or_too_much_is_not_told_to_work(reader: Reader, text: str) -> None:
    assert heard(reader, text)[1] & {"no_fill", "no_drain", "no_spin", "no_tumble"} == set()


@pytest.mark.parametrize(
    ("text", "so", "not_so"),
    [
        ("no sir my dishwasher doesnt leak", set(), {"leak"}),
        ("no maam the dishwasher does not leak", set(), {"leak"}),
        ("i dont think my dishwasher isnt leaking", {"leak"}, set()),
        ("la lavadora no exprime y gotea", {"no_spin", "leak"}, set()),
        ("no me gusta es que los vasos salen sucios del lavaplatos", {"poor_clean"}, set()),
        ("fridge: no leak, light out", {"light_out"}, {"leak"}),
        ("the disposal used to leak and that has quit on its own, now it hums", {"jammed"}, {"leak"}),
        ("la secadora antes rechinaba pero eso ya no, ahora no calienta", {"no_heat"}, {"noise"}),
        ("my washer was leaking but it stopped", set(), {"leak"}),
        ("my washer was leaking but it stopped when i shut the water", {"leak"}, set()),
        ("my sisters washer leaks, mine wont spin", {"no_spin"}, set()),
        ("freezer part of the fridge is soft but the milk is cold", {"warm_freezer"}, {"warm_fridge"}),
    ],
)
def test_a_negation_ends_where_something_else_begins(reader: Reader, text: str, so: set[str], not_so: set[str]) -> None:
    present, denied = heard(reader, text)
    assert so <= present
    assert not_so <= denied
    assert not (present & denied)


def test_a_smell_denied_to_a_hazard_question_is_no_symptom_denied(reader: Reader) -> None:
    from service.reading.model import Asked

    asked = Asked("yes_no", appliance="dryer", code="burning_smell")
    assert reader.read("nah no smell at all", asked=asked).denied == ()
    assert [f.code for f in reader.read("no smell at all", about="dryer").denied] == ["odor"]
