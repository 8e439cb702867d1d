"""Faults told in fragments, the machine first or last, or behind what works; and words that only sound like another fault."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


def told(reader: Reader, text: str) -> set[str]:
    return {f"{found.appliance}:{found.code}" for found in reader.read(text).symptoms}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("drum turns, zero heat, dryer", "dryer:no_heat"),
        ("oven: zero heat. burners ok", "range:no_heat"),
        ("secadora: cero calor, da vueltas", "dryer:no_heat"),
        ("fridge, zero ice since sunday", "refrigerator:no_ice"),
        ("wont latch. heats tho. microwave", "microwave:door_fault"),
        ("Ice maker. fills. no cubes", "ice_maker:no_ice"),
        ("dishwasher on, no water in", "dishwasher:no_fill"),
        ("Dishwasher. Lights on. No water.", "dishwasher:no_fill"),
        ("lavadora prende, sin agua", "washer:no_fill"),
        ("hood fan good, lights over the stove quit", "range_hood:light_out"),
        ("range hood. lights gave out. fan fine", "range_hood:light_out"),
        ("cooktop left front burner cuts out on me, others good", "cooktop:burner_dead"),
        ("stove: right rear quits on me. oven good", "range:burner_dead"),
        ("microwave number pad, bottom row dont do nothin, heats fine", "microwave:controls_fault"),
        ("wall oven. light works. never hits temp", "wall_oven:temp_off"),
        ("compactor ram just sits there", "trash_compactor:jammed"),
        ("Dryer gets nice and hot then quits after 8 min, rumbles too", "dryer:noise"),
        ("el freezer si congela but the fridge part is warm y tira agua", "refrigerator:leak"),
    ],
)
def test_a_fragment_tells_its_fault(reader: Reader, text: str, code: str) -> None:
    assert code in told(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("my dog is loud, call before you knock. washer wont spin", "washer:noise"),
        ("cooktop clicking, knob cracked", "cooktop:broken_glass"),
        ("the pot boiled over and ran down behind the range, its all wet back there", "range:leak"),
        ("the cat knocked the vase over, thats the puddle. my dishwasher wont heat the water", "dishwasher:leak"),
        ("el gato tiró el florero por eso el charco, el lavaplatos no calienta el agua", "dishwasher:leak"),
        ("a flame in the dryer by the screen, it went out by itself", "dryer:stops_midcycle"),
        ("held the microwave door shut till it went dark", "microwave:dead"),
        ("the mop cant keep up with the water under my ice maker", "ice_maker:no_ice"),
        ("freezer set to zero, ice in the tray is fine", "freezer:no_ice"),
        ("range hood. lights gave out. fan fine", "range_hood:fan_dead"),
        ("no water on the floor, dishwasher just squeals", "dishwasher:no_fill"),
        ("dishwasher drains, no water? or is that normal", "dishwasher:no_fill"),
        ("lightning hit the pole, now the microwave buttons ignore me", "microwave:arcing"),
    ],
)
def test_what_only_sounds_like_it_is_none(reader: Reader, text: str, code: str) -> None:
    assert code not in told(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("dryer heats fine until it goes out after ten minutes", "dryer:stops_midcycle"),
        ("the dryer makes a knocking sound", "dryer:noise"),
        ("i knocked the handle, but the dishwasher still leaks every load", "dishwasher:leak"),
        ("my stove quit on me", "range:vague"),
    ],
)
def test_a_fault_beside_such_words_stays(reader: Reader, text: str, code: str) -> None:
    assert code in told(reader, text)
