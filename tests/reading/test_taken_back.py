"""Which machines a text takes out of the complaint, and which alone are meant."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "taken", "alone"),
    [
        ("no the dryer is fine its just the washer", ("dryer",), ("washer",)),
        ("la secadora no, nada mas la lavadora", ("dryer",), ("washer",)),
        ("dryer's good, washer leaks", ("dryer",), ()),
        ("the washer only please", (), ("washer",)),
        ("it wont heat but the dryer works fine", (), ()),
        ("no heat but the dryer works fine", (), ()),
        ("the dryer is fine but it takes two cycles", (), ()),
        ("the dryer drum is fine", (), ()),
        ("is the dryer fine?", (), ()),
        ("not just the dryer, the washer too", (), ()),
        ("just the washer and dryer", (), ()),
        ("the dryer is fine but i smell gas", (), ()),
    ],
)
def test_taken_back_or_not(reader: Reader, text: str, taken: tuple[str, ...], alone: tuple[str, ...]) -> None:
    read = reader.read(text, about="washer")
    assert (read.taken_back, read.meant_alone) == (taken, alone)


def test_a_fault_told_of_the_one_named_behind_is_its_own(reader: Reader) -> None:
    read = reader.read("dryer's good, washer leaks")
    assert [(f.appliance, f.code) for f in read.symptoms] == [("washer", "leak")]


def test_a_part_of_the_machine_is_no_machine_taken_back(reader: Reader) -> None:
    read = reader.read("no wait freezer is ok", about="refrigerator")
    assert read.taken_back == ()
    assert [(f.appliance, f.code) for f in read.denied] == [("refrigerator", "warm_freezer")]


@pytest.mark.parametrize(
    ("text", "machine"),
    [
        ("tengo problemas con la lavadora", "washer"),
        ("problemas con la máquina de hielo", "ice_maker"),
        ("having problems with the dryer", "dryer"),
        ("hay un problema con mi refri", "refrigerator"),
    ],
)
def test_trouble_with_a_machine_takes_nothing_back(reader: Reader, text: str, machine: str) -> None:
    reading = reader.read(text)
    assert [(f.appliance, f.code) for f in reading.symptoms] == [(machine, "vague")]
    assert not reading.taken_back


def test_no_trouble_with_it_does(reader: Reader) -> None:
    assert reader.read("no tengo problemas con la secadora, nomas la lavadora").taken_back == ("dryer",)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("trash compactor works only if i hold the drawer shut with my foot", ("trash_compactor", "door_fault")),
        ("every last thing on this fridge works, excepting the lamp over the dispenser", ("refrigerator", "light_out")),
    ],
)
def test_what_all_of_the_words_tell_stands(reader: Reader, text: str, told: tuple[str, str]) -> None:
    assert told in {(f.appliance, f.code) for f in reader.read(text).symptoms}
