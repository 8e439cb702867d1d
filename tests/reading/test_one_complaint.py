"""One complaint told of the machine, the half and the words that it is of, and nothing besides."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from service.reading.faults.stated import Statements
from service.reading.model import Asked, Found
from service.reading.opinion.belying import CLEARER, OUTWEIGHED, unoutweighed
from service.reading.opinion.halves import by_halves
from service.reading.opinion.leaning import TOLD_TEXTS
from service.reading.opinion.second_opinion import Opinion
from service.reading.reader import Reader


def told(reader: Reader, text: str) -> set[tuple[str, str]]:
    return {(found.appliance, found.code) for found in reader.read(text).symptoms}


def opinion(**margins: float) -> Opinion:
    return Opinion("dead", margins)


def found(code: str, words: str, rule: str = "a.rule", appliance: str = "washer") -> Found:
    return Found(appliance, code, 0.9, words, 4, 9, rule)


@pytest.mark.parametrize(
    ("words", "margins", "part", "kept"),
    [
        ("click", {"noise": OUTWEIGHED - 0.1, "dead": 0.4}, None, False),
        ("not even a click", {"noise": OUTWEIGHED - 0.1, "dead": 0.4}, None, True),  # four words say it
        ("click", {"noise": OUTWEIGHED + 0.1, "dead": 0.4}, None, True),  # not far off
        ("click", {"noise": -0.5, "dead": -0.5 + CLEARER - 0.1}, None, True),  # nothing much clearer
        ("click", {"noise": OUTWEIGHED - 0.1, "dead": 0.4}, {"noise": 0.2}, True),  # told in a part of its own
        ("click", {"noise": OUTWEIGHED - 0.1, "dead": 0.4}, {"noise": -0.2}, False),
    ],
)
def test_a_hint_gives_way_to_what_stands_much_clearer(
    words: str, margins: Mapping[str, float], part: Mapping[str, float] | None, kept: bool
) -> None:
    stated = Statements((found("noise", words), found("dead", "no sign of life at all")), (), (), (), ())
    left = unoutweighed(
        opinion(**margins), stated, (0, 99), "washer", lambda _: opinion(**part) if part is not None else None
    )
    assert ("noise" in {f.code for f in left.symptoms}) is kept
    assert "dead" in {f.code for f in left.symptoms}
    assert bool(left.notes) is not kept


@pytest.mark.parametrize(
    ("warm", "works", "code"),
    [
        (["not_cooling"], [], "not_cooling"),
        (["not_cooling"], ["warm_freezer"], "warm_fridge"),
        (["not_cooling", "temp_off"], ["warm_fridge"], "warm_freezer"),
        (["warm_fridge", "warm_freezer"], [], "not_cooling"),
        (["warm_fridge", "warm_freezer"], ["warm_fridge"], "warm_freezer"),
        (["not_cooling", "warm_fridge"], [], "warm_fridge"),
    ],
)
def test_a_refrigerator_has_one_complaint_of_its_cold(warm: list[str], works: list[str], code: str) -> None:
    def of(codes: list[str], rule: str) -> tuple[Found, ...]:
        return tuple(found(c, "warm", rule, "refrigerator") for c in codes)

    noise = found("noise", "hums", appliance="refrigerator")
    left = by_halves(Statements((*of(warm, TOLD_TEXTS), noise), of(works, "a.rule"), (), (), ()), ())
    assert sorted(f.code for f in left.symptoms) == sorted([code, "noise"])
    assert code not in {f.code for f in left.denied}


@pytest.mark.parametrize(
    ("text", "told_of"),
    [
        ("our fridge has no cold air up top, bottom drawer is frozen fine", {("refrigerator", "warm_fridge")}),
        ("fridge quit cooling but it still freezes everything", {("refrigerator", "warm_fridge")}),
        ("the fridge is warm top and bottom, nothing stays cold", {("refrigerator", "not_cooling")}),
        ("my disposal backs up into the dishwasher", {("dishwasher", "backflow")}),
        ("la trituradora regresa el agua sucia al lavaplatos", {("dishwasher", "backflow")}),
        ("the disposal backs up into the other sink", {("disposal", "backflow")}),
        ("the oven of the wall is not hot", {("wall_oven", "no_heat")}),
        ("bottom oven of the double won't heat", {("wall_oven", "no_heat")}),
        ("wine cooler is set for 52, runs 61", {("beverage_cooler", "temp_off")}),
        ("our oven heats but it's 75 under", {("range", "temp_off")}),
        ("the washer bangs the wall so hard the neighbor complains", {("washer", "vibration")}),
        ("my neighbor's washer bangs the wall so hard", set()),
        ("grandpa's washer is being dumb, he can't explain it", {("washer", "vague")}),
        ("her dryer keeps messing up", {("dryer", "vague")}),
        ("wine cooler is at 55 as it should be", set()),
    ],
)
def test_what_is_told_is_told_of_one_machine_once(reader: Reader, text: str, told_of: set[tuple[str, str]]) -> None:
    assert told(reader, text) == told_of


@pytest.mark.parametrize(
    "text",
    [
        "microwave is dead, no clock. i reset the breaker twice and the light in the room works",
        "the dryer gives no sign of life at all, i flipped the breaker off and on this morning",
    ],
)
def test_what_was_tried_is_no_complaint(reader: Reader, text: str) -> None:
    assert "trips_breaker" not in {code for _, code in told(reader, text)}


@pytest.mark.parametrize("maker", ["Brennick", "Brannock", "Brinnicker"])
def test_a_makers_name_is_no_verb(reader: Reader, maker: str) -> None:
    assert told(reader, f"the freezer is a {maker}") == set()


@pytest.mark.parametrize("where", ["the side door sticks so push", "dogs are loud but nice", "the front gate is stuck"])
def test_the_house_is_no_machine(reader: Reader, where: str) -> None:
    assert not reader.read(where, asked=Asked("access", "dishwasher")).symptoms
