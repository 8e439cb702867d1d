"""Faults of another machine, of another day or only asked about; and those told beside them that are."""

from __future__ import annotations

import pytest

from service.reading.bulk import read_line
from service.reading.model import Reading
from service.reading.reader import Reader


def _told(read: Reading) -> set[str]:
    return {f"{found.appliance} {found.code}" for found in read.symptoms}


def _denied(read: Reading) -> set[str]:
    return {f"{found.appliance} {found.code}" for found in read.denied}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("water under the fridge but its coming from the dishwasher", "dishwasher leak"),
        ("el charco esta abajo de la estufa pero sale del lavaplatos", "dishwasher leak"),
        ("water behind the fridge and its leaking from the ice maker line", "refrigerator leak"),
        ("the dishwasher leaves a puddle under the stove every time", "dishwasher leak"),
        ("puddle in front of the washer every time", "washer leak"),
    ],
)
def test_water_is_told_of_where_it_comes_from(reader: Reader, text: str, told: str) -> None:
    assert _told(reader.read(text)) == {told}


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("smell in the washer was a dead mouse behind it, cancel the visit please", {"washer odor"}),
        ("la fuga era de la llave del fregadero, el lavaplatos nada que ver", {"dishwasher leak"}),
        ("bad smell turned out to be the trash can, it was never the disposal", {"disposal odor"}),
        ("cancele lo del viernes, el charco del piso era del garrafon, no de la lavadora", {"washer leak"}),
    ],
)
def test_what_another_thing_did_is_denied(reader: Reader, text: str, denied: set[str]) -> None:
    read = reader.read(text)
    assert _told(read) == set()
    assert _denied(read) == denied


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("cancel tuesday, the washer still leaks but i have to work, ill call next week", "washer leak"),
        ("i hit cancel and the oven keeps heating, it wont turn off", "range wont_stop"),
        ("washer has nothing to do with the roof leak, its just not agitating", "washer no_agitate"),
        ("is it normal for the dryer to get this hot", "dryer overheat"),
        ("it was never this loud before, the dryer", "dryer noise"),
        ("you fixed the leak but its leaking again, dishwasher", "dishwasher leak"),
        ("se me descompuso la lavadora", "washer vague"),
        ("lo que si es que la secadora no calienta", "dryer no_heat"),
        ("my sister in law has one too, hers squeals. my dryer just wont heat", "dryer no_heat"),
    ],
)
def test_what_sounds_so_and_is_a_complaint(reader: Reader, text: str, told: str) -> None:
    assert _told(reader.read(text)) == {told}


@pytest.mark.parametrize(
    "text",
    [
        "is it normal for the washer to hum when it fills",
        "es normal que truene el refri en la noche?",
        "do you fix water heaters? mine is leaking",
        "arreglan boilers? el mio hace ruido y no calienta",
        "se me descompuso la troca y no puedo el martes",
        "stopped cooling back then, the fridge, been fine ever since",
        "thanks, the fridge is cold and the ice is back",
        "la campana sigue jalando muy bien, gracias",
    ],
)
def test_what_is_asked_or_long_over_is_no_complaint(reader: Reader, text: str) -> None:
    assert _told(reader.read(text)) == set()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("range hood fan stopped, light works", {"range_hood fan_dead"}),
        ("ice maker in my fridge wont quit making ice", {"refrigerator overfill"}),
        ("el refri no para de hacer hielo", {"refrigerator overfill"}),
        ("ice maker in the fridge wont make ice", {"refrigerator no_ice"}),
        ("burner on the left wont quit clicking", {"range clicks_nonstop"}),
        ("burner on the left wont light", {"range burner_dead"}),
        ("tengo un problema con la lavadora, llena y llena de agua", {"washer overfill"}),
        ("la lavadora tiene problemas para llenar", {"washer no_fill"}),
        ("Washer: wont spin. Dryer: squeals.", {"washer no_spin", "dryer noise"}),
        ("you guys fixed the leak, but now the washer wont spin", {"washer no_spin"}),
        ("dryer hums but the drum wont turn", {"dryer no_tumble"}),
        ("dryer hums real loud", {"dryer noise"}),
        ("no prende la secadora, le pico al boton y nada, ni luz", {"dryer dead"}),
        ("freezer has a sheet of ice on the bottom", {"freezer frost"}),
    ],
)
def test_one_fault_is_told(reader: Reader, text: str, told: set[str]) -> None:
    assert _told(reader.read(text)) == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("same thing", {"noise"}),
        ("did that, no change", {"noise"}),
        ("did that, now it leaks too", {"leak"}),
        ("that fixed it, quiet now", set()),
    ],
)
def test_a_check_that_did_not_help_leaves_the_fault(reader: Reader, text: str, told: set[str]) -> None:
    line = {"id": "1", "text": text, "asked": "check_result", "about": {"appliance": "dishwasher", "code": "noise"}}
    assert {found["code"] for found in read_line(reader, line)["symptoms"]} == told
