"""Streets without a kind and apartments before the house; what only looks like one is none."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader

TOLD = (
    ("apt 12, 211 Girard se", "211 Girard se apt 12"),
    ("apt 12 at 211 Girard", "211 Girard apt 12"),
    ("unit b, 77 montano", "77 montano unit b"),
    ("depto 3, 410 Solano", "410 Solano depto 3"),
    ("im in apt 7 at 1200 Lomas Blvd NE", "1200 Lomas Blvd NE apt 7"),
    ("Kayleigh 19, 211 Girard apt 4", "211 Girard apt 4"),
    ("Abe 55 Solano", "55 Solano"),
    ("710 Unser", "710 Unser"),
    ("600 Montano Apt B", "600 Montano Apt B"),
    ("Rudy 1818 Coors", "1818 Coors"),
    ("710 unser, 87114", "710 unser"),
    ("vivo en 402 candelaria depto 9", "402 candelaria depto 9"),
)
NONE = (
    "20 Minutes",
    "10 Monday",
    "2019 Tervane",
    "about 45 Fahrenheit",
    "12 gallon unit 3 years old",
    "it takes 90 minutes a load",
    "error 55 shows",
    "9 30 Tuesday",
    "unit 3 is leaking",
    "the unit is 12 years old",
)


@pytest.mark.parametrize("kind", ["observation", "address", "appliance"])
@pytest.mark.parametrize(("words", "street"), TOLD)
def test_a_street_told_barely_is_an_address_whatever_is_asked(
    reader: Reader, words: str, street: str, kind: str
) -> None:
    assert reader.read(words, asked=Asked(kind, appliance="washer")).facts.get("address") == street


@pytest.mark.parametrize("words", NONE)
def test_counts_times_and_machines_are_no_address(reader: Reader, words: str) -> None:
    assert "address" not in reader.read(words, asked=Asked("observation", appliance="washer")).facts


def test_a_model_number_is_no_street(reader: Reader) -> None:
    assert "address" not in reader.read("710 Unser", asked=Asked("model", appliance="washer")).facts


@pytest.mark.parametrize(
    ("words", "name"), [("Rudy 1818 Coors", "Rudy"), ("Kayleigh 19, 211 Girard apt 4", "Kayleigh")]
)
def test_the_name_before_it_is_kept(reader: Reader, words: str, name: str) -> None:
    assert reader.read(words, asked=Asked("observation", appliance="washer")).facts.get("name") == name
