"""Faults that were mended or went by themselves, and machines cleared of what was found near them."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def _denied(reader: Reader, text: str) -> list[str]:
    return [f"{found.appliance}.{found.code}" for found in reader.read(text).denied]


def _told(reader: Reader, text: str) -> list[str]:
    return [f"{found.appliance}.{found.code}" for found in reader.read(text).symptoms]


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("you guys fixed the leak, now the dishwasher wont start", "dishwasher.leak"),
        ("my husband fixed the squeak, now the dryer wont heat", "dryer.noise"),
        ("le quitaron el olor a la lavadora pero ahora no drena", "washer.odor"),
        ("se arregló sola la gotera del lavaplatos, ahora no seca los trastes", "dishwasher.leak"),
        ("se quitó solo el ruido de la secadora y ahora no calienta", "dryer.noise"),
        ("it was leaking, it is no longer leaking, now my washer wont spin", "washer.leak"),
        ("antes goteaba la lavadora, ya no gotea, pero no exprime", "washer.leak"),
    ],
)
def test_what_was_mended_is_denied(reader: Reader, text: str, denied: str) -> None:
    assert denied in _denied(reader, text)
    assert denied not in _told(reader, text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("you fixed the leak in march and the washer is leaking again", "washer.leak"),
        ("no arreglaron el ruido de la lavadora", "washer.noise"),
        ("nobody ever fixed the noise in my dryer", "dryer.noise"),
        ("washer leaks, need the leak fixed", "washer.leak"),
        ("me arreglaron la fuga de la lavadora y sigue tirando agua", "washer.leak"),
    ],
)
def test_what_was_not_mended_for_good_is_told(reader: Reader, text: str, told: str) -> None:
    assert told in _told(reader, text)


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("the puddle was the cats water bowl. nothing wrong with the dishwasher", "dishwasher.leak"),
        ("that stink turned out to be a dead mouse, it was never the disposal", "disposal.odor"),
        ("el charco era de la cubeta, no del refri", "refrigerator.leak"),
        ("the noise was the neighbors drum set not the dryer", "dryer.noise"),
        ("la peste era de unas papas podridas, el refri no huele", "refrigerator.odor"),
    ],
)
def test_a_machine_is_cleared(reader: Reader, text: str, denied: str) -> None:
    reading = reader.read(text)
    assert denied in [f"{found.appliance}.{found.code}" for found in reading.denied]
    assert not reading.symptoms
    assert "report_problem" not in reading.intents


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("the smell was the dog but the washer still stinks too", "washer.odor"),
        ("water on the floor was the washer not the dishwasher", "washer.leak"),
        ("el ruido es la bomba, no la puerta de la lavadora", "washer.noise"),
        ("the water is coming from the dishwasher door, not the hose", "dishwasher.leak"),
    ],
)
def test_a_machine_is_not_cleared(reader: Reader, text: str, told: str) -> None:
    assert told in _told(reader, text)


@pytest.mark.parametrize(
    ("text", "denied", "absent"),
    [
        ("hood fan quit, light works", "range_hood.light_out", "range_hood.light_out"),
        ("my washer doesnt leak it rattles", "washer.leak", "washer.leak"),
        ("hers leaks. my washer doesnt leak, it rattles", "washer.leak", "washer.leak"),
        ("el refri no descansa, la comida sta bien fria", "refrigerator.not_cooling", "refrigerator.not_cooling"),
        ("no hay luz en la campana pero si jala, se oye", "range_hood.weak_suction", "range_hood.weak_suction"),
        (
            "no ice for a week. water comes out the door fine, its the fridge",
            "refrigerator.no_water",
            "refrigerator.no_water",
        ),
        ("mi horno ya calienta parejo, el foco no prende", "range.temp_off", "range.temp_off"),
        ("microwave fan is out, still cooks", "microwave.no_heat", "microwave.no_heat"),
    ],
)
def test_what_works_beside_is_no_fault(reader: Reader, text: str, denied: str, absent: str) -> None:
    assert denied in _denied(reader, text)
    assert absent not in _told(reader, text)


@pytest.mark.parametrize(
    "text",
    [
        "fridge wont start, no smoke no smell, just dead",
        "el refri no prende, sin humo ni olor",
        "el triturador nomas zumba. no huele ni humea",
    ],
)
def test_no_smell_beside_no_smoke_is_that_of_burning(reader: Reader, text: str) -> None:
    reading = reader.read(text)
    assert {"smoke", "burning_smell"} <= {found.code for found in reading.denied_hazards}
    assert "odor" not in {found.code for found in reading.denied}


@pytest.mark.parametrize("text", ["compactor goes down but not up, no weird smells", "cooktop clicks, no smell of gas"])
def test_other_smells_denied_are_not_that_of_burning(reader: Reader, text: str) -> None:
    assert "burning_smell" not in {found.code for found in reader.read(text).denied_hazards}
