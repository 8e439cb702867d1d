"""What is said to work beside a fault, and what only sounds like a leak, a smell or a fault of another machine."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("my dryer heats but it takes four loads of time to dry", "dryer.no_heat"),
        ("la secadora si calienta pero tarda tres tandas en secar la ropa", "dryer.no_heat"),
        ("dryer spins and spins but everything is cold", "dryer.no_tumble"),
        ("el micro da vueltas y da vueltas el plato y la sopa sale fria", "microwave.turntable_stuck"),
        ("mi campana prende y no jala el vapor", "range_hood.fan_dead"),
        ("hood comes on fine but the smoke stays in the kitchen", "range_hood.fan_dead"),
        ("the fridge isn't cold at all. I can hear the fan, it has power", "refrigerator.fan_dead"),
        ("ice machine cubes taste like metal. plenty of them though", "ice_maker.no_ice"),
        ("la flama de la estufa se ve azulita y bonita, es la puerta del horno que no cierra", "range.weak_flame"),
        ("my stove, the burners all of them work good, oven is dead cold", "range.burner_dead"),
        ("my upright freezer beeps all night. the temperature is perfect", "freezer.not_cooling"),
        ("la vinera truena, de temperatura anda bien", "beverage_cooler.temp_off"),
    ],
)
def test_what_works_is_denied(reader: Reader, text: str, denied: str) -> None:
    assert denied in [f"{found.appliance}.{found.code}" for found in reader.read(text).denied]


@pytest.mark.parametrize(
    "text",
    [
        "the flame on my stove is not blue",
        "fan in the hood quit, I can't hear the fan",
        "hood won't come on",
        "fridge is fine now",
    ],
)
def test_nothing_is_denied(reader: Reader, text: str) -> None:
    assert not reader.read(text).denied


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("it just wont turn the plate", ["microwave.turntable_stuck"]),
        ("I smell like a campfire and my dryer wont tumble", ["dryer.no_tumble"]),
        ("oily spot where the wine cooler sits, kind of a paint smell and it hisses", []),
        ("my dryer runs cold", ["dryer.no_heat"]),
        ("wall oven is out of commission", ["wall_oven.vague"]),
        ("la secadora anda dando guerra", ["dryer.vague"]),
        ("garburator hums and wont spin", ["disposal.jammed"]),
    ],
)
def test_what_is_told(reader: Reader, text: str, told: list[str]) -> None:
    assert [f"{found.appliance}.{found.code}" for found in reader.read(text).symptoms] == told
