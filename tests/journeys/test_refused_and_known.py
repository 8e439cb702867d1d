"""A refusal is taken; a fuel, an oven or a fault that is told is not asked after again; nobody is fished for faults at once."""

from __future__ import annotations

import pytest

from tests.journeys.line import told


@pytest.mark.parametrize(
    "texts",
    [
        ("fridge not cooling, ice on back wall", "87108", "u gonna make me defrost it? no"),
        ("fridge not cooling, ice on back wall", "87108", "im not defrosting it"),
        ("fridge not cooling, ice on back wall", "87108", "no", "im not gonna wait 4 hours"),
        ("mi refri no enfria", "87108", "no voy a descongelarlo"),
        ("mi refri no enfria", "87108", "me van a poner a descongelarlo? no"),
    ],
)
def test_who_refuses_one_long_check_is_sent_no_other(texts: tuple[str, ...]) -> None:
    line = told(*texts)
    rules = line.rulebook.appliances["refrigerator"]
    long = {check.id for check in rules.checks.values() if check.wait_h >= 1}

    assert long <= set(line.ticket.declined)
    assert not any(result == "offered" for check, result in line.ticket.checks.items() if check in long)
    assert "defrost_helped" not in line.ticket.observations or len(texts) == 4


@pytest.mark.parametrize(
    "text",
    ["cant check, at work", "at work rn", "can't look right now im not home", "no puedo revisar, ando en el trabajo"],
)
def test_who_is_away_is_sent_no_check(text: str) -> None:
    line = told("fridge not cooling", "frost on the back", text, "87108")

    assert not line.ticket.checks
    assert line.state.asked is not None
    assert line.state.asked.kind == "address"


@pytest.mark.parametrize(
    "texts", [("my fridge dead af", "like its not even on"), ("mi refri esta muerto", "no prende nada")]
)
def test_a_fault_told_once_more_is_understood(texts: tuple[str, ...]) -> None:
    line = told(*texts)

    assert "could not make that out" not in line.said
    assert "no le entiendo" not in line.said


@pytest.mark.parametrize(
    "text", ["Gas oven Norvell wont heat up", "Oven wont heat, broiler works. gas oven", "mi horno de gas no calienta"]
)
def test_whose_oven_burns_gas_is_offered_no_fuel_to_choose(text: str) -> None:
    line = told(text)

    assert line.state.asked is not None
    assert line.state.asked.code != "element_look"
    assert not {value for value, _ in line.state.asked.choices} & {"none", "gas", "electric", "hidden"}


def test_whose_oven_is_electric_is_not_asked_for_a_flame() -> None:
    line = told("electric oven wont heat", "87108", "both", "dont know", "dont know")

    assert "igniter_glow" not in line.ticket.asked


@pytest.mark.parametrize("text", ["my oven is 50 degrees off", "mi horno no llega a la temperatura"])
def test_who_tells_of_the_oven_is_not_asked_whether_it_is_the_oven(text: str) -> None:
    line = told(text, "87108")

    assert line.ticket.observations["which_part"] == "oven"


def test_a_bare_oven_tells_no_fuel() -> None:
    line = told("microwave plate wont spin also my oven is 50 degrees off", "87108", "yes", "oven")

    ranges = next(t for t in line.state.tickets if t.appliance == "range")
    assert "element_look" not in ranges.observations


@pytest.mark.parametrize("text", ["dryer squeals", "dishes come out dirty", "secadora rechina", "fridge hums so loud"])
def test_the_first_question_fishes_for_no_further_fault(text: str) -> None:
    line = told(text)

    assert line.state.asked is not None
    assert line.state.asked.kind != "yes_no"


@pytest.mark.parametrize(
    ("texts", "kind"),
    [
        (("my washer", "makes clunking when it turns on"), "bang"),
        (("my washer", "it makes a squealing noise"), "squeal"),
        (("mi lavadora", "hace un rechinido muy feo"), "squeal"),
    ],
)
def test_a_sound_told_with_the_fault_is_not_asked_after(texts: tuple[str, ...], kind: str) -> None:
    line = told(*texts)

    assert line.ticket.observations["noise_kind"] == kind
    assert "noise_kind" not in line.ticket.asked
