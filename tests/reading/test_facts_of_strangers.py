"""Facts as strangers put them: makers in small letters, numbers in pieces, what happened before, what was tried."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "brand"),
    [
        ("the other one is a pellmarin and it leaks, fridge", "pellmarin"),
        ("washer wont spin, its the oakhavel one", "oakhavel"),
        ("dryer no heat. corvelane i think its spelled", "corvelane"),
        ("a brindelle gas 30in range, burner dead", "brindelle"),
        ("dryer, mostrane electric, 9 yrs", "mostrane"), ("the fridge (Galvine) is warm", "Galvine"),
        ("secadora brindel de gas no calienta", "brindel"), ("la marca creo que es Zolbek, refri no enfria", "Zolbek"),
        ("brand new Tesmark, the dryer wont heat", "Tesmark"), ("do you work on pellquist? washer leaks", "pellquist"),
        ("dishwasher came with the house, a Kestrin. it leaks", "Kestrin"), ("hood by Pellmark rattles", "Pellmark"),
    ],
)  # fmt: skip
def test_a_maker_stands_where_only_a_maker_can(reader: Reader, text: str, brand: str) -> None:
    assert reader.read(text).facts.get("brand") == brand


@pytest.mark.parametrize(
    "text",
    [
        "my finicky gas dryer quit", "its the leftmost one, the burner on the stove", "freezer, compresser i think",
        "dryer is a goner i think", "su refri grandote de 20 pies", "estufa prestada de gas no prende",
        "my trusty gas range quit",
        "the upstairs gas dryer squeals", "do you work on frigerators? it leaks",
    ],
)  # fmt: skip
def test_odd_words_beside_a_machine_are_no_makers(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("washer leaks, about two years and six months", "age_years", 2.5),
        ("washer wont drain, registered 4/2/23", "age_years", 3),
        ("the oven is as old as the house, 1990", "age_years", 36), ("compactor stuck. 2001 or so", "age_years", 25),
        ("no son 14 años son 4, la lavadora", "age_years", 4), ("dryer quit. mine is 9, hers is newer", "age_years", 9),
        ("fridge warm, model DV-220 X. thanks", "model", "DV-220 X"),
        ("ser# 4417 B 02, washer dead", "serial", "4417 B 02"),
        ("dryer, Pellmark PD6 no wait PD7-HP", "model", "PD7-HP"), ("washer screen says Er FF", "code", "ER FF"),
        ("dishwasher display flashes 88", "code", "88"), ("dryer. zorbane electric 12 yrs, no heat", "fuel", "electric"),
        ("mi lavadora de carga de enfrente gotea", "variant", "front_load"),
        ("la frisa acostada no enfria", "variant", "chest"),
        ("our freezer, the stand up one, is warm", "variant", "upright"),
        ("not a day goes by the washer dont trip", "pattern", "always"),
        ("no hay dia que no gotee la lavadora", "pattern", "always"),
        ("washer wont start, other times it does", "pattern", "sometimes"),
    ],
)  # fmt: skip
def test_what_the_machine_is_and_how_it_fails(reader: Reader, text: str, name: str, value: object) -> None:
    assert reader.read(text, this_year=2026).facts.get(name) == value


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("es mi abuela, tiene 88 años y su refri no enfria", "age_years"),
        ("outlet looks brand new, fridge dead", "age_years"),
        ("it failed 3/3/24 and again, dryer", "age_years"), ("in apt 12 B, washer dead", "model"),
        ("Tenant in 6C, fridge warm", "code"),
        ("hers is an E4 thing, my washer shows nothing", "code"), ("same soap we always use, dishwasher leaks", "pattern"),
        ("de repente ya no prendio la lavadora", "pattern"),
        ("the fridge was fine, roads flooded in the storm, is he coming", "after"),
        ("i've cooked since i was ten, oven wont heat", "since"),
        ("my power has been out two days, when is my appt", "since"),
        ("havent used the washer since because it scares me, it leaks", "since"),
        ("gracias por lo de ayer, todo bien", "since"),
        ("my feet are killing me, ice maker makes one block", "tried"), ("the probe jack is dead, wall oven", "tried"),
        ("my sister reset the breaker on hers, my oven is dead", "tried"),
        ("spilled a pitcher and wiped it, freezer sweats", "tried"),
    ],
)  # fmt: skip
def test_what_is_said_of_something_else_is_no_fact(reader: Reader, text: str, name: str) -> None:
    assert name not in reader.read(text, this_year=2026).facts


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("le puse a limpiarse solo al horno y ya no abre", "self_clean"),
        ("since we slid the stove out it wont light", "moved"),
        ("had a guy come out and look, fridge still warm", "repair"),
        ("well that lasted three days, washer leaks again", "repair"),
        ("since the guys delivered it the washer shakes", "installed"),
        ("power on our block was out all night, fridge dead", "power_outage"),
        ("le movieron a la tuberia y ya no llega agua a la lavadora", "plumbing_work"),
        ("por la nevada no prende la estufa", "storm"),
    ],
)  # fmt: skip
def test_what_happened_before(reader: Reader, text: str, after: str) -> None:
    assert after in str(reader.read(text).facts.get("after"))


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("sorry i missed the tech, fridge still warm", "repair"), ("chimney guy came by, oven is dead", "repair"),
        ("la lavadora huele a rayos", "storm"), ("she lost her garage, my dryer quits", "power_outage"),
        ("i moved here from ohio, oven door fell off", "moved"),
    ],
)  # fmt: skip
def test_what_happened_to_others(reader: Reader, text: str, after: str) -> None:
    assert after not in str(reader.read(text).facts.get("after"))


@pytest.mark.parametrize(
    ("text", "tried"),
    [
        ("i boiled the filters and the hood still smells", "cleaned_filter"),
        ("ya limpie el lint trap y no seca", "cleaned_filter"),
        ("le saque la pelusa al tubo y la secadora sigue igual", "cleaned_vent"),
        ("no matter how many lemons i grind it stinks", "other"),
        ("le baje la pastilla y la volvi a subir, nada, horno", "reset_breaker"),
        ("i set the fridge colder, still warm", "other"),
        ("le heche vinagre a la lavadora y sigue oliendo", "other"),
        ("fridge bulb wont light even with a new one", "other"),
        ("breaker panel is a mess. i flipped the right one off and on, dryer dead", "reset_breaker"),
    ],
)  # fmt: skip
def test_what_was_tried(reader: Reader, text: str, tried: str) -> None:
    assert tried in str(reader.read(text).facts.get("tried"))


@pytest.mark.parametrize(
    "text",
    [
        "washer wont drain, its been doing that since", "tuesday is when the fridge stopped cooling",
        "no enfria el refri desde eso",
        "el jueves fue cuando dejo de enfriar el refri", "the fridge hasnt made ice in weeks",
        "dishwasher wont drain, from several weeks",
        "oven stopped working right after the power came back on", "burner clicks even when its off since i spilled soup",
    ],
)  # fmt: skip
def test_when_it_began(reader: Reader, text: str) -> None:
    assert reader.read(text).facts.get("since")


@pytest.mark.parametrize(
    ("kind", "about", "text", "name", "value"),
    [
        ("age", "wall_oven", "the house is 30 but the machine like 6", "age_years", 6),
        ("model", "dryer", "KD 4400 ELW1", "model", "KD 4400 ELW1"),
        ("serial", "washer", "SN 8K2207714", "serial", "8K2207714"), ("code", "dishwasher", "una F y un 3", "code", "F3"),
        ("fuel", "dryer", "one of those 4 prong plugs", "fuel", "electric"),
        ("fuel", "range", "the house has gas, no idea", "fuel", None),
        ("variant", "freezer", "you lift the lid", "variant", "chest"),
        ("model", "microwave", "120V 60Hz 11.5A", "model", None),
    ],
)  # fmt: skip
def test_what_was_asked_for(reader: Reader, kind: str, about: str, text: str, name: str, value: object) -> None:
    assert reader.read(text, asked=Asked(kind, about), about=about, this_year=2026).facts.get(name) == value
