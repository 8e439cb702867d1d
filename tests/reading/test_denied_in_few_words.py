"""Dangers denied in a word or two: a bare "no smell", what is named first and denied behind, and what only sounds so."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def read(reader: Reader, text: str) -> tuple[set[str], set[str]]:
    heard = reader.read(text)
    return {h.code for h in heard.hazards}, {h.code for h in heard.denied_hazards}


@pytest.mark.parametrize(
    ("text", "not_so"),
    [
        ("gas dryer wont heat, no smell", "gas_smell"),
        ("igniter on the gas stove keeps clicking, no smell tho", "gas_smell"),
        ("one burner on my range wont light with a match either. i dont smell anything", "gas_smell"),
        ("mi estufa de gas tarda en prender, olor no hay", "gas_smell"),
        ("la estufa tiene piloto y no calienta el horno, no se le huele nada", "gas_smell"),
        ("es de gas la secadora, no prende, sin olor", "gas_smell"),
        ("dishwasher dead, no smoke no olor", "burning_smell"),
        ("el micro se apago solo. ni huele ni echa humo", "burning_smell"),
        ("secadora electrica no calienta, olor ninguno", "burning_smell"),
        ("disposal is dead. no smell at all", "burning_smell"),
        ("induction top wont see the pan, not hot, no smell", "burning_smell"),
        ("fridge hums. no hissing, no smell", "refrigerant_leak"),
        ("el congelador no silba, no huele a nada, nomas no enfria", "refrigerant_leak"),
    ],
)
def test_a_bare_smell_is_denied_of_what_the_machine_would_smell(reader: Reader, text: str, not_so: str) -> None:
    raised, denied = read(reader, text)
    assert not raised
    assert denied & {"gas_smell", "burning_smell", "refrigerant_leak"} == {not_so}
    assert "odor" not in {f.code for f in reader.read(text).denied}


@pytest.mark.parametrize(
    "text",
    [
        "compactor doesnt smell and doesnt jam, the drawer is cracked",
        "washer doesnt leak or smell just shakes",
        "no huele mal el refri pero no enfria",
        "ice is clear, no smell, it just makes very little",
        "range hood is loud, it dont smell or nothing",
        "sink gunk back in the dishwasher. no stink no leak",
    ],
)
def test_a_machine_that_does_not_stink_denies_no_danger(reader: Reader, text: str) -> None:
    assert read(reader, text) == (set(), set())


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("my mom says huele a gas por la estufa, i dont smell nada", "gas_smell"),
        ("no smell but smoke comes from the back of the dryer", "smoke"),
        (
            "the detector for the stuff you cant smell is screaming with the gas range on, carbon monoxide one",
            "carbon_monoxide",
        ),
        ("no olor normal, huele a quemado la secadora", "burning_smell"),
        ("no huele a quemado es a gas", "gas_smell"),
        ("no es vapor es humo, sale del panel del lavaplatos", "smoke"),
        ("its not steam its smoke coming from the control panel", "smoke"),
        ("sale humo no sale agua", "smoke"),
        ("echa chispas no hay luz", "sparks"),
        ("carbon monoxide alarm wont be quiet", "carbon_monoxide"),
        (
            "the carbon monoxide thing hasnt made a peep. headache tho, both of us, ever since we baked",
            "carbon_monoxide",
        ),
    ],
)
def test_what_is_told_beside_a_no_stays(reader: Reader, text: str, danger: str) -> None:
    assert danger in read(reader, text)[0]


@pytest.mark.parametrize(
    ("text", "not_so"),
    [
        ("el triturador se atoro, humo no hay", "smoke"),
        ("nomas no calienta el micro, chispas no echa", "sparks"),
        ("dice mi hermano que toques no da, nomas no exprime la lavadora", "shock"),
        ("la secadora ya no da vueltas, lumbre no se ve", "fire"),
        ("a mi vecina le da toques su lavadora, la mia no da", "shock"),
        ("my sisters microwave was sparking, mine doesnt, it just hums", "sparks"),
        ("our old stove leaked gas, this one doesnt", "gas_smell"),
        ("salio humo del lavaplatos pero era puro vapor", "smoke"),
        ("smoke came out of the oven but it was just steam from the turkey", "smoke"),
        ("it had a burning smell last month, you guys changed the belt and there's been none since", "burning_smell"),
        ("co alarm has been quiet, burner flame is yellow", "carbon_monoxide"),
        ("the oven door fell on her toy, kid is fine", "injury"),
        ("se cayo la puerta del horno junto al niño, el niño esta bien", "injury"),
        ("no ha olido a quemado la secadora", "burning_smell"),
        ("el cable del refri no se calienta", "hot_wiring"),
        ("outlet behind the washer is dry, it drips in front", "water_near_power"),
    ],
)
def test_it_is_denied_behind_its_name_or_by_what_it_was(reader: Reader, text: str, not_so: str) -> None:
    raised, denied = read(reader, text)
    assert not_so in denied
    assert not_so not in raised


@pytest.mark.parametrize(
    "text",
    [
        "front burner on the range has no spark, i use a match",
        "ni chispa da el encendedor de la parrilla, la prendo con cerillo",
        "el quemador grande no agarra lumbre, los otros si",
        "power burner quit sparking, it lights with the long lighter, that clicker isnt sparking",
        "the oven gives nada, ni tibio se pone",
        "clothes come out hot like normal, nothing scorched",
    ],
)
def test_a_burner_that_does_not_light_denies_nothing(reader: Reader, text: str) -> None:
    assert read(reader, text) == (set(), set())


def test_sparks_denied_of_anything_else_are_denied(reader: Reader) -> None:
    assert "sparks" in read(reader, "microwave dead, no spark no smoke")[1]
    assert "sparks" in read(reader, "outlet by the stove never sparked, burner is dead")[1]
    assert "sparks" in read(reader, "no sparks no smoke the burner just wont heat")[1]
