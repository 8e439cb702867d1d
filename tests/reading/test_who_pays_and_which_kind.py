"""Who pays, which kind of machine it is and what it burns, as told in passing."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("payer", "landlord", "el dueño de aqui dice que el paga, la lavadora no exprime"),
        ("payer", "landlord", "el que paga es el señor de las rentas, no enfria el refri"),
        ("payer", "landlord", "la casera es la que responde por eso, la estufa no prende"),
        ("payer", "landlord", "the owner del edificio paga las reparaciones, no jala el micro"),
        ("payer", "landlord", "I am the landlord, unit 3 dryer has no heat. Invoice to me."),
        ("payer", "owner", "county owns it and pays, the ice maker quit"),
        ("payer", "owner", "the city owns it and the city pays, freezer is warm"),
        ("payer", "owner", "the program wont cover it, I do, dishwasher wont drain"),
        ("variant", "upright", "freezer in the garage, an upright Quillmark, door pops open"),
        ("variant", "upright", "the congelador parado de la cochera no enfria"),
        ("variant", "chest", "my congelador chest hace ruido"),
        ("variant", "chest", "its the freezer chest in the shed, all soft"),
        ("variant", "built_in", "the builtin microwave is loud"),
        ("variant", "countertop", "el microondas es de mostrador y saca chispas"),
        ("variant", "over_the_range", "el micro no calienta, es de los que van arriba de la estufa"),
        ("variant", "top_load", "la lavadora no lava, el palo de en medio no se mueve"),
        ("fuel", "gas", "la estufa es Quillmark de gas, el horno no calienta parejo"),
        ("fuel", "gas", "los quemadores de gas no prenden, la estufa tiene reloj"),
        ("fuel", "electric", "el horno empotrado eléctrico no calienta"),
        ("fuel", "electric", "electric condenser dryer takes three cycles"),
    ],
)
def test_it_is_heard(name: str, value: str, text: str) -> None:
    assert demo_reader().read(text).facts.get(name) == value


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("payer", "lease says landlord covers appliances so idk who you bill, washer bangs"),
        ("payer", "landlord said covered, who do you bill"),
        ("payer", "tiene 4 años, en garantia ya no esta, no seca el lavatrastes"),
        ("payer", "i cant get the cover off the hood light"),
        ("variant", "we moved the freezer and kept it upright the whole way, now its warm"),
        ("variant", "the freezer stood upright overnight and still wont start"),
        ("variant", "el congelador se quedo parado, no hace ruido"),
        ("fuel", "se prende la estufa pero hay olor a gas"),
    ],
)
def test_what_only_sounds_like_it_is_not(name: str, text: str) -> None:
    assert name not in demo_reader().read(text).facts
