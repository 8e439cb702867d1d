"""What is said of other things and people, explained, spilled, cut off or only asked is no symptom of a machine."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def told(reader: Reader, text: str) -> set[tuple[str, str]]:
    return {(found.appliance, found.code) for found in reader.read(text).symptoms}


@pytest.mark.parametrize(
    ("text", "symptoms"),
    [
        ("my car leaks oil and won't start, can you guys look at cars?", set()),
        ("my husband is hotter than an oven and twice as loud lol, see you tuesday", set()),
        ("mi jefe truena más que lavadora vieja jaja, ahi los espero el martes", set()),
        ("the smoke detectors here are loud as heck, tested today. the dryer won't heat", {("dryer", "no_heat")}),
        ("my truck shakes and stinks, anyway the washer won't drain", {("washer", "no_drain")}),
        ("la troca no prende, pero hablo por la secadora que no calienta", {("dryer", "no_heat")}),
        ("my phone is dead so call my wife. the freezer is not cold", {("freezer", "not_cooling")}),
    ],
)
def test_other_things_and_people(reader: Reader, text: str, symptoms: set[tuple[str, str]]) -> None:
    assert told(reader, text) == symptoms


@pytest.mark.parametrize(
    ("text", "symptom"),
    [
        ("my dog is scared of the noise the dryer makes", ("dryer", "noise")),
        ("my husband is shocked how loud the washer is", ("washer", "noise")),
        ("mi esposo dice que la lavadora no exprime", ("washer", "no_spin")),
        ("my kids are home and the dishwasher leaks", ("dishwasher", "leak")),
        ("la secadora ya van dos veces que no arranca", ("dryer", "no_start")),
        ("i spilled soap once but the dishwasher still leaks every wash", ("dishwasher", "leak")),
        ("the freezer alarm keeps beeping", ("freezer", "noise")),
    ],
)
def test_people_who_mind_a_machine(reader: Reader, text: str, symptom: tuple[str, str]) -> None:
    assert symptom in told(reader, text)


@pytest.mark.parametrize(
    "text",
    [
        "puddle under the fridge was just my grandson with the dispenser",
        "that noise from the dryer was only my kid's shoes",
        "el charco era nomas mi hijo que tiró la leche enfrente del refri",
        "found a mouse on the coils of the fridge, that was the stink. took him out",
        "I spilled a pitcher of tea in front of the fridge, thats what the puddle was",
        "oven doesn't burn food anymore since you fixed it thank you",
        "no, cierra bien el cajon del compactador, eso no falla",
    ],
)
def test_what_is_explained(reader: Reader, text: str) -> None:
    assert not told(reader, text)


@pytest.mark.parametrize(
    ("text", "vague"),
    [
        ("ballpark on a new pump for a front load washer", False),
        ("how much do you charge to look at a dryer", False),
        ("cuanto cuesta componer un microondas, o sale mas barato otro", False),
        ("cancel thursday, the dishwasher is broken no more", False),
        ("can you stop by for the compactor this afternoon", False),
        ("la campana no sirve, cuanto por venir a revisarla", True),
        ("need my dishwasher looked at", True),
        ("tengo la frisa con problemas", True),
        ("lavadora descompuesta, ocupo que vengan", True),
    ],
)
def test_what_is_only_asked_is_no_complaint(reader: Reader, text: str, vague: bool) -> None:
    assert any(code == "vague" for _, code in told(reader, text)) is vague


@pytest.mark.parametrize(
    ("text", "symptom"),
    [
        ("the dryer heats nothing", ("dryer", "no_heat")),
        ("someone come for the washer its not filling", ("washer", "no_fill")),
        ("washer fills an fills wont quit", ("washer", "overfill")),
        ("breaker tripped once last year, now the dishwasher wont drain", ("dishwasher", "no_drain")),
        ("el asador de la estufa no prende", ("range", "no_heat")),
        ("el extractor casi no jala", ("range_hood", "weak_suction")),
        ("my wall oven clock loses time", ("wall_oven", "controls_fault")),
        ("start button on the microwave needs like 5 pushes", ("microwave", "controls_fault")),
        ("the door of my dishwasher slams down like a ton of bricks", ("dishwasher", "door_fault")),
        ("gas cooktop igniter never stops snapping", ("cooktop", "clicks_nonstop")),
        ("la lavadora hace trac trac trac", ("washer", "noise")),
    ],
)
def test_one_fault_and_no_other(reader: Reader, text: str, symptom: tuple[str, str]) -> None:
    assert told(reader, text) == {symptom}
