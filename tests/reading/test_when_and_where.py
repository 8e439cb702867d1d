"""The time asked for apart from the story, who pays, ways in, names and addresses: own wordings of both kinds, told and not."""

from __future__ import annotations

from typing import Any

import pytest

from service.reading.bulk import read_line
from service.reading.reader import Reader
from tests.reading.score import YEAR, demo_reader

OFFERS = ["Tue 1 Dec 8 to 10 am", "Tue 1 Dec 1 to 3 pm", "Thu 3 Dec 8 to 10 am"]


@pytest.fixture(scope="module")
def reader() -> Reader:
    return demo_reader()


def read(reader: Reader, text: str, asked: str = "") -> dict[str, Any]:
    line: dict[str, Any] = {"id": "1", "text": text} | ({"asked": asked} if asked else {})
    return read_line(reader, line | ({"offers": OFFERS} if asked == "offer" else {}), this_year=YEAR)


@pytest.mark.parametrize(
    ("text", "days_in", "days_out"),
    [
        ("can you move my friday appointment to tuesday", ["tue"], ["fri"]),
        ("pueden cambiar mi cita del lunes para el miercoles", ["wed"], ["mon"]),
        ("move it from thursday to friday after 2", ["fri"], ["thu"]),
        ("need to push wednesdays 10am visit to next week", [], []),
        ("i need an appointment for friday, dryer is dead", ["fri"], []),
        ("quiero una cita el martes, la estufa no prende", ["tue"], []),
        ("i had a rough monday. can u come friday, dryer dead", ["fri"], []),
        ("your guy was here monday. can we do it again thursday, still leaking", ["thu"], []),
        ("im free monday and tuesday. could you come one of those days? fridge is warm", ["mon", "tue"], []),
        ("Mon-Wed we are on shift, can you come friday, dryer dead", ["fri"], ["mon", "tue", "wed"]),
        ("de lunes a miercoles no puedo, vengan el viernes", ["fri"], ["mon", "tue", "wed"]),
        ("entre semana no puedo, vengan el sabado", ["sat"], ["mon", "tue", "wed", "thu", "fri"]),
        ("out of town until monday, please book me after that", ["mon", "tue", "wed", "thu"], []),
        ("inspection is tuesday so any other day please, can you come", [], ["tue"]),
    ],
)
def test_the_days_asked_for(reader: Reader, text: str, days_in: list[str], days_out: list[str]) -> None:
    found = read(reader, text)
    assert found["facts"].get("wish")
    assert (found["wish"]["days_in"], found["wish"]["days_out"]) == (days_in, days_out)


@pytest.mark.parametrize(
    ("text", "start", "end", "part"),
    [
        ("trabajo hasta las 4, pueden venir despues? la lavadora no tira el agua", "16:00", None, None),
        ("i get off at 3 on weekdays, can you come then, dishwasher leaks", "15:00", None, None),
        ("no vengan despues de las 5 porfa, pueden venir el martes?", None, "17:00", None),
        ("tuesday works but not after 2 please book it, fridge warm", None, "14:00", None),
        ("antes de las 9 no puedo, vengan el lunes", "09:00", None, None),
        ("vengan el lunes, despues de las 3 ya no puedo", None, "15:00", None),
        ("come thursday after the 4 please, oven is dead", "16:00", None, None),
        ("can someone come early saturday? oven wont heat", None, None, "morning"),
        ("temprano el miercoles me queda bien, pueden venir?", None, None, "morning"),
        ("any chance of early next week? oven wont heat", None, None, None),
        ("can you fix my 2 pm appt, make it friday", None, None, None),
    ],
)
def test_the_hours_asked_for(reader: Reader, text: str, start: str | None, end: str | None, part: str | None) -> None:
    wish = read(reader, text)["wish"]
    assert (wish["start"], wish["end"], wish["part"]) == (start, end, part)


@pytest.mark.parametrize(
    "text", ["can it be any sooner, baby here and no washer", "se puede mas pronto? no tengo refri"]
)
def test_sooner_is_as_soon_as_can_be(reader: Reader, text: str) -> None:
    assert read(reader, text)["wish"]["soonest"]


@pytest.mark.parametrize(
    "text",
    [
        "exam at 8, washer is full of water and locked",
        "company coming friday and the dishwasher wont drain",
        "tengo la barbacoa el domingo y no enfria el refri",
        "rolls are due tomorrow and the oven wont heat",
        "dryer shuts off after 10 secs",
        "9/10 for your guy, but the ice maker quit again",
        "the fan runs til noon and then it quits",
        "I do know its Monday, the dryer is still dead",
        "call my cell 505-555-0142 after 5, the dryer is dead",
        "cuanto cobran, en cuanto me sale la visita",
        "fourth towel ripped this week by that washer",
    ],
)
def test_a_time_of_the_story_is_no_wish(reader: Reader, text: str) -> None:
    found = read(reader, text)
    assert "wish" not in found["facts"]
    assert "book" not in found["intents"]


@pytest.mark.parametrize(
    ("text", "index"),
    [
        ("el martes en la mañanita me queda", 0),
        ("tuesday in the morning works", 0),
        ("tuesday afternoon", 1),
        ("the late one tuesday", 1),
        ("el jueves porque el martes fumigan", 2),
        ("thursday because tuesday i have dialysis", 2),
    ],
)
def test_a_window_told_by_day_and_part(reader: Reader, text: str, index: int) -> None:
    found = read(reader, text, "offer")
    assert (found["answer"]["kind"], found["answer"]["index"]) == ("choice", index)
    assert "wish" not in found["facts"]


def test_a_window_that_was_not_offered_is_not_taken(reader: Reader) -> None:
    assert read(reader, "tuesday evening is all i can do", "offer")["answer"]["kind"] == "value"


@pytest.mark.parametrize(
    ("text", "asked", "payer"),
    [
        ("landlord is, call her first", "payer", "landlord"),
        ("the maker should, its only 4 months", "payer", "maker_warranty"),
        ("claim is approved with our adjuster already", "payer", "insurance"),
        ("el seguro ya aprobo", "payer", "insurance"),
        ("thats on the owner, i just rent", "payer", "landlord"),
        ("not the landlord, me", "payer", "tenant"),
        ("no se, mi casero o yo", "payer", None),
        ("rento y el señor Baltodano dice que el paga, no enfria el refri", "", "landlord"),
        ("need a quote for the insurance, range burned up last month", "", "insurance"),
        ("we got a home plan with Sunhearth, fridge warm", "", "home_warranty"),
        ("rental house, landlord says send him the bill. oven is dead", "", "landlord"),
        ("my landlord told me to text you, dryer is dead", "", None),
        ("does my home warranty cover it or do i have to pay", "", None),
        ("el seguro lo cubre o lo tengo que pagar yo, la lavadora gotea", "", None),
        ("who owns the shop? i want to talk to him", "", None),
        ("burned the toast, thats on me lol. oven wont heat tho", "", None),
        ("roommates need to settle this, do you fix dryers", "", None),
    ],
)
def test_who_pays(reader: Reader, text: str, asked: str, payer: str | None) -> None:
    assert read(reader, text, asked)["facts"].get("payer") == payer


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("my daughter Lourdes will be there, not me", True),
        ("she'll be the one home", True),
        ("home most evenings, dishwasher leaks", True),
        ("mi abuela siempre esta en casa", True),
        ("toque recio porfa, no oigo", True),
        ("la puerta de la cochera esta abierta", True),
        ("three steps up and no rail", True),
        ("la puerta del refri esta abierta siempre", False),
        ("me dio un toque fuerte la estufa", False),
        ("el niño dejó la llave abierta y se inundó", False),
        ("my mom is here crying, the oven is smoking", False),
        ("grita la lavadora cuando exprime", False),
    ],
)
def test_ways_in(reader: Reader, text: str, told: bool) -> None:
    assert ("access" in read(reader, text)["facts"]) == told


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Good evening, Dr. Amparo Quint. my oven door is cracked", "Amparo Quint"),
        ("dryer dead, thank you so much, Delbert Quint", "Delbert Quint"),
        ("its still Marla lol fridge is warm again", "Marla"),
        ("dryer is dead. Teodoro is the name", "Teodoro"),
        ("Maintenance here. unit 4 dishwasher leaks", None),
        ("the dog's name is Biscuit and the washer leaks", None),
        ("What is the name of your tech", None),
    ],
)
def test_names(reader: Reader, text: str, name: str | None) -> None:
    assert read(reader, text)["facts"].get("name") == name


@pytest.mark.parametrize(
    ("text", "asked", "address"),
    [
        ("12-B Alameda Verde Ct, dryer dead", "", "12-B Alameda Verde Ct"),
        ("Address 1420 E Saguaro. the fridge is warm", "", "1420 E Saguaro"),
        ("lot 3 Cielo Grande Estates, washer leaks", "", "lot 3 Cielo Grande Estates"),
        ("unit 6, 410 Pinon. watch for the dog", "address", "410 Pinon unit 6"),
        ("no hay numero, es pasando el puente", "address", "no hay numero, es pasando el puente"),
        ("why do you need it", "address", None),
        ("it has run for 77 old loads", "", None),
    ],
)
def test_addresses(reader: Reader, text: str, asked: str, address: str | None) -> None:
    assert read(reader, text, asked)["facts"].get("address") == address


def test_a_zip_that_stands_alone_in_a_text(reader: Reader) -> None:
    assert read(reader, "fridge dead. 87047. please come")["facts"].get("postal_code") == "87047"
