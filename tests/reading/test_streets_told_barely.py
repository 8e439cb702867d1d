"""Streets without a kind and apartments before the house; what only looks like one is none."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader

TOLD = (
    ("apt 12, 211 Garrow se", "211 Garrow se apt 12"),
    ("apt 12 at 211 Garrow", "211 Garrow apt 12"),
    ("unit b, 77 montano", "77 montano unit b"),
    ("depto 3, 410 Sorano", "410 Sorano depto 3"),
    ("im in apt 7 at 1200 Lomas Blvd NE", "1200 Lomas Blvd NE apt 7"),
    ("Kayleigh 19, 211 Garrow apt 4", "211 Garrow apt 4"),
    ("Abe 55 Sorano", "55 Sorano"),
    ("710 Ulmer", "710 Ulmer"),
    ("600 Montuno Apt B", "600 Montuno Apt B"),
    ("Rudy 1818 Calder", "1818 Calder"),
    ("710 ulmer, 87114", "710 ulmer"),
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
    "stops about 10 min into the towels",
    "jumps so hard. 1400 block unit 5",
    "3 units 3 problems. unit 1 wont drain",
    "no paved road, 4 wheel drive only",
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
    assert "address" not in reader.read("710 Ulmer", asked=Asked("model", appliance="washer")).facts


@pytest.mark.parametrize(
    ("words", "name"), [("Rudy 1818 Calder", "Rudy"), ("Kayleigh 19, 211 Garrow apt 4", "Kayleigh")]
)
def test_the_name_before_it_is_kept(reader: Reader, words: str, name: str) -> None:
    assert reader.read(words, asked=Asked("observation", appliance="washer")).facts.get("name") == name


@pytest.mark.parametrize(
    "words",
    ["1423 Mesa St NE, Albuquerque NM 87110", "Wrong Dave", "wrong about the brand btw its Quillmark not Tolvane"],
)
def test_towns_others_and_brands_are_nobodys_name(reader: Reader, words: str) -> None:
    assert "name" not in reader.read(words).facts


def test_the_complex_before_a_street_is_no_part_of_its_unit(reader: Reader) -> None:
    told = reader.read("The Meadows Apartments 2300 Carwell Blvd NE #114, 87110").facts
    assert told.get("address") == "2300 Carwell Blvd NE #114"
