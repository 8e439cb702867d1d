"""Danger words of people, names, weather, kitchens and near misses, each beside the same words told of a machine."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def _codes(reader: Reader, text: str) -> set[str]:
    return {found.code for found in reader.hazards(text)}


@pytest.mark.parametrize(
    "text",
    [
        "mi cuñada echa chispas porque nadie le contesta",
        "mi patrona anda echando humo, la estufa no le prende",
        "echan lumbre mis suegros porque no viene el de la lavadora",
        "el landlord esta que echa chispas, no se vacia el lavaplatos",
        "tiene chispa el joven que nos atendio",
        "chispas entre mi hermana y su novio, oiga y el refri",
        "sparks flew when my sister met the tech",
        "my daughter drew flames all over the dishwasher door",
        "mi nieto pinto humo en la pared con crayola",
        "my desk is on fire with work, come friday for the washer",
        "mi prima anda on fire vendiendo tamales",
    ],
)
def test_of_tempers_wit_and_drawings(reader: Reader, text: str) -> None:
    assert not _codes(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("mi cuñada dice que echa chispas la lavadora", "sparks"),
        ("a mi patrona le echa chispas el contacto", "sparks"),
        ("mi secadora vieja echa lumbre porque tiene pelusa", "fire"),
        ("echa humo la estufa porque se tiro aceite", "smoke"),
        ("trae chispas el cable del refri", "sparks"),
        ("chispas entre la clavija y la pared", "sparks"),
        ("sparks flew out when my sister started the dryer", "sparks"),
        ("we drew the range out and flames came up", "fire"),
        ("its on fire with the laundry in it", "fire"),
        ("anda on fire la secadora", "fire"),
    ],
)
def test_of_machines_all_the_same(reader: Reader, text: str, code: str) -> None:
    assert code in _codes(reader, text)


@pytest.mark.parametrize(
    "text",
    [
        "nearly sliced my thumb on that shelf, it needs new trim",
        "casi me quemo la mano con la charola, la puerta del horno no sube",
        "theres blood in the freezer from the venison, how do i clean it",
        "se descongelo la res y hay sangre en el cajon del refri",
        "Chispita la perra sale si dejan abierto",
        "Sparks. Norma Sparks, for the washer",
        "anda chispeando afuera, traiga impermeable",
        "la chispa de la hornilla no se calla",
        "mi estufa chispea clic clic clic sin parar",
        "las empanadas se me achicharran por abajo",
        "prendimos copal y ese era el humo, la campana bien",
        "we had a campfire, thats the smoke, anyway the fridge is loud",
        "la cobija me da toques, la secadora anda bien",
        "grandpa smokes beside the dryer",
        "the knob is back and the flames look even",
        "pushed the test button on the carbon monoxide alarm, it beeped like it should",
        "does the oven smoke on self clean? never used it",
        "si le pongo papel aluminio saca chispas o no? antes de usarlo pregunto",
        "my fingers tingle, its carpal tunnel, so the drawer is hard to pull",
        "se me durmio la mano de tanto marcarles, la lavadora no exprime",
    ],
)
def test_near_misses_names_and_kitchens(reader: Reader, text: str) -> None:
    assert not _codes(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("nearly sliced my thumb off on that shelf", "injury"),
        ("casi me quemo toda la mano y traigo ampolla", "injury"),
        ("almost every finger got cut on the glass", "injury"),
        ("cutting the venison on the freezer, i am bleeding bad", "injury"),
        ("saque la carne y me sale sangre del dedo", "injury"),
        ("Sparks from the washer plug", "sparks"),
        ("esta chispeando el cable de afuera", "sparks"),
        ("la chispa del enchufe de la parrilla no se calla", "sparks"),
        ("la estufa chispea por atras, clic clic", "sparks"),
        ("se achicharro el cable haciendo pan", "burning_smell"),
        ("prendimos velas y el humo es de la secadora", "smoke"),
        ("we grilled outside, thats the dryer and the smoke is from it", "smoke"),
        ("la cobija no, la secadora me da toques", "shock"),
        ("the dryer smokes beside the cord", "smoke"),
        ("the flames are out the back of the stove", "fire"),
        ("pushed the test button on the carbon monoxide alarm and it wont stop beeping", "carbon_monoxide"),
        ("does it smoke like that? it did last night, havent run it since", "smoke"),
        ("el horno echa humo y no lo he usado desde ayer", "smoke"),
        ("se me durmio la mano cuando agarre la manija de la lavadora", "shock"),
        ("my fingers tingle from touching the fridge, not carpal tunnel", "shock"),
    ],
)
def test_the_danger_in_the_same_words(reader: Reader, text: str, code: str) -> None:
    assert code in _codes(reader, text)
