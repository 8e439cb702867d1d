"""Which machine a danger is told of, where a text names several."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "code", "machine"),
    [
        ("washer leaks a little and i see smoke coming from the dryer", "smoke", "dryer"),
        ("the dryer is smoking and the washer leaks", "smoke", "dryer"),
        ("la lavadora tira agua y la secadora huele a quemado", "burning_smell", "dryer"),
        ("dishwasher wont drain and the microwave? it sparks", "sparks", "microwave"),
        ("got shocked touching the fridge, and the range clock is off", "shock", "refrigerator"),
        ("my dryer squeaks. the fridge cord is melted at the outlet", "hot_wiring", "refrigerator"),
    ],
)
def test_a_danger_goes_to_its_own_machine(reader: Reader, text: str, code: str, machine: str) -> None:
    assert [(h.code, h.appliance) for h in reader.read(text).hazards] == [(code, machine)]


@pytest.mark.parametrize("text", ["smoke from the dryer", "i smell gas", "sparks!! and the dryer stopped"])
def test_of_one_machine_or_none_nothing_is_said(reader: Reader, text: str) -> None:
    assert [h.appliance for h in reader.read(text).hazards] == [None]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Washer leaks and my gas stove burner flame is orange", ("range", "weak_flame")),
        ("Washer leaks and the gas dryer squeals", ("washer", "leak")),
    ],
)
def test_a_leak_and_a_gas_machine_are_no_leak_of_gas(reader: Reader, text: str, told: tuple[str, str]) -> None:
    reading = reader.read(text)
    assert not reading.hazards
    assert told in {(f.appliance, f.code) for f in reading.symptoms}


@pytest.mark.parametrize("text", ["my washer leaks and i smell gas by the stove", "gas leak at my stove"])
def test_a_smell_of_gas_beside_a_leak_is_one(reader: Reader, text: str) -> None:
    assert "gas_smell" in {h.code for h in reader.read(text).hazards}
