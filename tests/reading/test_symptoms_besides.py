"""Symptoms beside other things: what is as it always was, sounds and smells of others, codes, answers that add something."""

from __future__ import annotations

import pytest

from service.reading.faults.stated import Statements
from service.reading.model import Asked, Found
from service.reading.opinion.belying import is_hint
from service.reading.opinion.leaning import THOUGH_DENIED, told_besides
from service.reading.opinion.second_opinion import Opinion, SecondOpinion
from service.reading.opinion.teaching import NEGATED, Taught, deeper, root
from service.reading.reader import Reader


def told(reader: Reader, text: str, asked: Asked | None = None) -> set[str]:
    return {f"{found.appliance}:{found.code}" for found in reader.read(text, asked=asked).symptoms}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the igniter on my stove clicks a bit like it should, no trouble", "range:clicks_nonstop"),
        ("my washer thumps a little on spin, it's always done that, not a complaint", "washer:vibration"),
        ("la secadora truena tantito, siempre lo ha hecho, no es queja", "dryer:noise"),
        ("el refri suena como debe ser y enfría", "refrigerator:noise"),
        ("do chest freezers run warm on the outside", "freezer:not_cooling"),
        ("do dryers normally get this loud or what", "dryer:vague"),
        ("we lost power during the hail, the fridge is cold again", "refrigerator:dead"),
        ("se nos fue la luz toda la noche, el refri ya enfría", "refrigerator:dead"),
        ("i flipped the breaker for the dryer like you said", "dryer:trips_breaker"),
        ("the smoke alarm chirps, the range is fine", "range:noise"),
        ("el olor era de un zorrillo, la estufa está bien", "range:odor"),
        ("the dishwasher makes all the normal sounds", "dishwasher:noise"),
        ("dryer is off, my hands are still shaking", "dryer:vibration"),
    ],
)
def test_what_is_no_fault_of_the_machine_is_none(reader: Reader, text: str, code: str) -> None:
    assert code not in told(reader, text)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("the stove won't light like it should", "range:burner_dead"),
        ("la secadora no calienta como debe ser", "dryer:no_heat"),
        ("the washer never squealed before, it's loud now", "washer:noise"),
        ("the dishwasher leaks, but the fridge hums like it should", "dishwasher:leak"),
        ("not a week goes by that the microwave doesn't trip the breaker", "microwave:trips_breaker"),
        ("no hay semana en que no bote el breaker la lavadora", "washer:trips_breaker"),
        ("oven cooks no problem, it's the bulb that burned out", "range:light_out"),
        ("my neighbor thinks the pump is bad, the washer won't drain", "washer:no_drain"),
        ("the handle snapped off my freezer", "freezer:broken_part"),
        ("se me cayó la jaladera del refri", "refrigerator:broken_part"),
    ],
)
def test_a_fault_beside_such_words_stays(reader: Reader, text: str, code: str) -> None:
    assert code in told(reader, text)


def test_a_handle_that_broke_is_a_part_and_no_door_that_fails(reader: Reader) -> None:
    for text in ("the handle snapped off my microwave", "se rompió la manija de la secadora"):
        assert not any(code.endswith(":door_fault") for code in told(reader, text))


@pytest.mark.parametrize(
    "text", ["my washer shows E23 on it and the tub stays full", "la lavadora dice LE4 y no exprime nada"]
)
def test_a_code_by_its_form_is_believed(reader: Reader, text: str) -> None:
    assert "washer:error_code" in told(reader, text)


def test_a_code_that_was_asked_for_is_a_symptom(reader: Reader) -> None:
    assert "dishwasher:error_code" in told(reader, "it says E31 then quits", Asked("code", "dishwasher"))


def test_what_may_be_a_door_is_a_hint_and_a_code_is_none() -> None:
    assert is_hint(Found("washer", "error_code", 0.85, "7C", 0, 2, "reader.error_code"))
    assert not is_hint(Found("washer", "error_code", 0.85, "LE3", 0, 3, "reader.error_code"))


def test_an_answer_may_tell_something_else(reader: Reader) -> None:
    asked = Asked("brand", "refrigerator")
    assert "refrigerator:light_out" in told(
        reader, "the plate says Ostrand, also the bulb inside stays dark now", asked
    )
    assert not told(reader, "Emberline i think, in small red letters on the front", asked)


def test_words_that_tell_it_plainly_stand_over_a_denial() -> None:
    denied = Found("dryer", "slow_dry", 0.9, "dry", 0, 3, "dryer.slow_dry")
    heard = Statements((), (denied,), (), (), ())
    for margin, stays in ((THOUGH_DENIED + 0.1, False), (THOUGH_DENIED - 0.1, True)):
        opinion = Opinion("slow_dry", {"slow_dry": margin, "": -1.0})
        after = told_besides(opinion, heard, "dryer", "takes all day to dry", {})
        assert (denied in after.denied) is stays
        assert bool(after.symptoms) is not stays


def test_stems_and_what_is_negated_are_told_apart() -> None:
    assert root("leaking") in deeper(["leaks"])
    assert NEGATED + "drain" in deeper(["wont", "even", "drain"])
    assert NEGATED + "drain" not in deeper(["it", "drains", "drain"])
    assert NEGATED + "noise" not in deeper(["not", "one", "drop", "of", "noise", "noise"])


def test_other_forms_of_a_word_teach_in_depth() -> None:
    taught = [Taught(f"the tub {verb} all over", "leak") for verb in ("dripped", "drips")]
    taught += [Taught(f"the tub {verb} all over", "noise") for verb in ("rattled", "rattles")]
    flat, deep = (
        SecondOpinion(taught, in_depth=d).of(["the", "tub", "dripping", "all", "over"], ("leak", "noise"))
        for d in (False, True)
    )
    assert flat is not None
    assert deep is not None
    assert deep.code == "leak"
    assert deep.margins["leak"] - deep.margins["noise"] > flat.margins["leak"] - flat.margins["noise"]
