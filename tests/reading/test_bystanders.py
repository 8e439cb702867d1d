"""Which machine is meant where several are named, what nothing does, and answers that correct the question."""

from __future__ import annotations

import pytest

from service.reading.bulk import read_line
from service.reading.model import Asked
from service.reading.reader import Reader
from tests.reading.score import demo_reader


@pytest.fixture(scope="module")
def reader() -> Reader:
    return demo_reader()


@pytest.mark.parametrize(
    ("text", "machine"),
    [
        ("the dishwasher works great, its the disposal that hums", "disposal"),
        ("stacked set, washer bangs on spin, dryer above is fine", "washer"),
        ("la estufa está bien, la que no enfría es la nevera", "refrigerator"),
        ("not the fridge, it's the washer, it won't drain", "washer"),
        ("washer not dryer sorry", "washer"),
        ("dryer lol no the washer. leaks every time", "washer"),
        ("the washing machine, pardon me, the dryer. no heat", "dryer"),
        ("I wrote dryer and I meant the tall washer. it leaks", "washer"),
        ("whenever we run the disposal the dishwasher backs up", "dishwasher"),
    ],
)
def test_the_machine_that_is_meant(reader: Reader, text: str, machine: str) -> None:
    assert reader.read(text).appliances == (machine,)


@pytest.mark.parametrize(
    "text",
    [
        "my cousin's dryer lasted 20 years, do you work saturdays?",
        "my brother in law has a freezer, what do you charge for a check",
        "a la lavadora de mi hermana le pasaba eso, ¿trabajan los sábados?",
        "you have the wrong person, I own no microwave",
    ],
)
def test_machines_of_others_are_not_listed(reader: Reader, text: str) -> None:
    assert reader.read(text).appliances == ()


@pytest.mark.parametrize(
    ("text", "machines"),
    [
        ("washer leaks and the dryer needs looked at", {"washer", "dryer"}),
        ("can you come check my sister's dryer", {"dryer"}),
        ("my neighbor's dryer burned up, how much to clean the vent on mine", {"dryer"}),
        ("the dryer works but it takes forever and the washer leaks", {"washer", "dryer"}),
        ("fridge is warm. the stove smells like gas", {"refrigerator", "range"}),
    ],
)
def test_machines_of_which_something_is_told_or_wanted_stay(reader: Reader, text: str, machines: set[str]) -> None:
    assert set(reader.read(text).appliances) == machines


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the fridge is on but nothing in it gets cold", "not_cooling"),
        ("our freezer is running and nothing inside stays frozen", "not_cooling"),
        ("the oven lights up but nothing heats", "no_heat"),
    ],
)
def test_what_nothing_does_fails(reader: Reader, text: str, code: str) -> None:
    reading = reader.read(text)
    assert code in {f.code for f in reading.symptoms}
    assert code not in {f.code for f in reading.denied}


def test_nothing_wrong_is_no_fault(reader: Reader) -> None:
    reading = reader.read("nothing else is wrong, the dryer spins fine but no heat")
    assert [f.code for f in reading.symptoms] == ["no_heat"]


@pytest.mark.parametrize(
    ("text", "present", "denied"),
    [
        ("hood lights work fan doesnt", {"fan_dead"}, set()),
        ("la luz de la campana prende el ventilador no", {"fan_dead"}, {"light_out"}),
        ("on the dishwasher some buttons respond and others dont", {"controls_fault"}, set()),
        ("If it leaks again I'll call you. For now the dishwasher is fine", set(), {"leak"}),
        ("if the washer leaks again call me", set(), set()),
        ("la secadora ya calienta otra vez", set(), {"no_heat"}),
    ],
)
def test_of_which_part_and_how_long(reader: Reader, text: str, present: set[str], denied: set[str]) -> None:
    reading = reader.read(text)
    assert present <= {f.code for f in reading.symptoms}
    assert not present & {f.code for f in reading.denied}
    assert denied <= {f.code for f in reading.denied}
    assert not denied & {f.code for f in reading.symptoms}


@pytest.mark.parametrize(
    ("text", "code", "kind"),
    [
        ("yes it heats, it just squeals", "no_heat", "no"),
        ("yep it does turn", "no_tumble", "no"),
        ("no it doesn't turn", "no_tumble", "yes"),
        ("no, it won't heat", "no_heat", "yes"),
        ("no not heating at all", "no_heat", "yes"),
        ("no it tumbles fine", "no_tumble", "no"),
        ("sí calienta", "no_heat", "no"),
        ("it did yesterday. not today", "leak", "no"),
        ("ayer sí, hoy no", "leak", "no"),
        ("no it isn't leaking", "leak", "no"),
    ],
)
def test_yes_and_no_by_what_is_stated(reader: Reader, text: str, code: str, kind: str) -> None:
    answer = reader.read(text, asked=Asked("yes_no", "dryer", code)).answer
    assert answer is not None
    assert answer.kind == kind


def test_a_danger_of_yesterday_is_not_denied(reader: Reader) -> None:
    reading = reader.read("it did yesterday. not today", asked=Asked("yes_no", "range", "gas_smell"))
    assert reading.answer is not None
    assert reading.answer.kind == "yes"


@pytest.mark.parametrize(
    ("asked", "text", "kind"),
    [
        ("check_result", "pushed the red button and it started right up", "fixed"),
        ("check_result", "le piqué al botón y arrancó", "fixed"),
        ("check_result", "ya lo hice y sigue igualito", "not_fixed"),
        ("check_result", "it came on for a second then died", "not_fixed"),
        ("code", "no code, just the clock flashing 12:00", "none"),
        ("code", "no trae ningún código", "none"),
        ("code", "no wait, F21", "value"),
        ("model", "couldn't find any sticker", "dont_know"),
        ("brand", "the logo fell off years ago", "dont_know"),
        ("brand", "se le borró el nombre", "dont_know"),
    ],
)
def test_answers_in_other_words(reader: Reader, asked: str, text: str, kind: str) -> None:
    answer = reader.read(text, asked=Asked(asked, "dryer", "reset")).answer
    assert answer is not None
    assert answer.kind == kind


@pytest.mark.parametrize(
    "text", ["tuesday no, thursday yes", "can't do tuesday, thursday is ok", "martes no, jueves sí"]
)
def test_of_two_windows_the_one_that_is_not_refused(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("offer", "washer", None, (), ("Tue 9-11", "Thu 3-5"))).answer
    assert answer is not None
    assert answer.index == 1


def test_a_choice_tells_its_symptom_and_no_code_denies_one(reader: Reader) -> None:
    line = {"id": "1", "text": "the second one", "asked": "symptom", "about": {"appliance": "washer"}}
    told = read_line(reader, {**line, "choices": ["no_spin", "vibration", "leak"]})
    assert [s["code"] for s in told["symptoms"]] == ["vibration"]
    told = read_line(reader, {**line, "text": "no code", "asked": "code"})
    assert told["denied"] == [{"appliance": "washer", "code": "error_code"}]
