"""What is said to be so, not to be so, or neither: the table of complaints, on the dishwasher and the washer."""

from __future__ import annotations

from collections.abc import Callable
from unittest.mock import patch

import pytest

from service.reading.bulk import read_line
from service.reading.machines.mentions import Mentions
from service.reading.reader import Reader
from service.reading.words.clauses import Clause
from service.reading.words.matching import Hit
from tests.reading.score import TEXTS, YEAR, demo_reader, lines_of


def present(reader: Reader, text: str, about: str) -> set[str]:
    return {f.code for f in reader.read(text, about=about).symptoms}


def denied(reader: Reader, text: str, about: str) -> set[str]:
    return {f.code for f in reader.read(text, about=about).denied}


@pytest.mark.parametrize(
    ("text", "about", "so", "not_so"),
    [
        ("drains fine but won't spin", "washer", {"no_spin"}, {"no_drain"}),
        ("it won't drain", "dishwasher", {"no_drain"}, set()),
        ("not heating any more", "dryer", {"no_heat"}, set()),
        ("no heat", "dryer", {"no_heat"}, set()),
        ("no water coming in", "washer", {"no_fill"}, set()),
        ("doesn't leak, no smell", "washer", set(), {"leak", "odor"}),
        ("stopped spinning", "washer", {"no_spin"}, set()),
        ("no longer heats", "dryer", {"no_heat"}, set()),
        ("can't stop the beeping", "dishwasher", {"noise", "wont_stop"}, set()),
        ("not only leaking but beeping too", "dishwasher", {"leak", "noise"}, set()),
        ("no trouble draining", "dishwasher", set(), {"no_drain"}),
        ("la lavadora centrifuga bien pero no drena", "washer", {"no_drain"}, {"no_spin"}),
        ("ya no gotea pero hace ruido", "washer", {"noise"}, {"leak"}),
    ],
)
def test_a_failing_function_is_the_fault_and_a_negated_fault_its_absence(
    reader: Reader, text: str, about: str, so: set[str], not_so: set[str]
) -> None:
    assert present(reader, text, about) == so
    assert not_so <= denied(reader, text, about)


@pytest.mark.parametrize(
    "text",
    [
        "used to drain slowly",
        "not sure if it's leaking",
        "if it leaks again should I call",
        "last year it was leaking",
        "my neighbor's leaks all over",
        "does it leak?",
    ],
)
def test_what_is_past_supposed_asked_or_somebody_elses_is_no_symptom(reader: Reader, text: str) -> None:
    assert present(reader, text, "dishwasher") == set()


@pytest.mark.parametrize("text", ["no longer leaks", "stopped leaking", "the leak is gone", "ya no gotea"])
def test_what_is_over_is_denied(reader: Reader, text: str) -> None:
    reading = reader.read(text, about="dishwasher")
    assert [f.code for f in reading.symptoms] == []
    assert [f.code for f in reading.denied] == ["leak"]


def test_a_theory_leaves_the_symptom_vague(reader: Reader) -> None:
    reading = reader.read("the compressor is shot on my fridge")
    assert [f.code for f in reading.symptoms] == ["vague"]
    assert [t.words for t in reading.theories] == ["compressor is shot"]


def test_two_appliances_keep_their_own_symptoms(reader: Reader) -> None:
    found = {(f.appliance, f.code) for f in reader.read("washer wont drain and the dryer wont heat").symptoms}
    assert found == {("washer", "no_drain"), ("dryer", "no_heat")}


def test_it_goes_to_the_machine_under_discussion(reader: Reader) -> None:
    assert [f.appliance for f in reader.read("it leaks", about="dishwasher").symptoms] == ["dishwasher"]
    assert [f.appliance for f in reader.read("it leaks").symptoms] == ["unknown"]


def test_a_correction_is_taken_as_one(reader: Reader) -> None:
    reading = reader.read("sorry, I meant the washer", about="dryer")
    assert reading.corrects
    assert reading.appliances == ("washer",)


def test_a_new_disposal_is_what_happened_and_no_machine_complained_of(reader: Reader) -> None:
    reading = reader.read("doesnt drain at all since they put in the new disposal", about="dishwasher")
    assert [(f.appliance, f.code) for f in reading.symptoms] == [("dishwasher", "no_drain")]
    assert reading.facts["after"] == ("new_disposal",)
    assert reading.appliances == ()


def test_every_finding_points_at_its_words(reader: Reader) -> None:
    text = "hola, la lavadora no exprime y tira agua"
    for found in reader.read(text).symptoms:
        assert text[found.start : found.end] == found.words


@pytest.mark.parametrize(
    ("text", "about", "not_so"),
    [
        ("drum turns but no heat", "dryer", {"no_tumble"}),
        ("sí llena pero no exprime", "washer", {"no_fill"}),
        ("drain but smells a lot it does", "washer", set()),
    ],
)
def test_a_verb_in_its_present_form_before_a_but_denies(
    reader: Reader, text: str, about: str, not_so: set[str]
) -> None:
    assert denied(reader, text, about) == not_so


def test_what_is_passed_over_early_could_belong_to_no_machine_of_its_text() -> None:
    """``Mentions.possible`` is ``Mentions.owner`` told early: where it says no, there is no owner."""
    seen = 0

    def watched(self: Mentions) -> Callable[[Hit], bool]:
        fits = possible(self)

        def both(hit: Hit) -> bool:
            nonlocal seen
            found = fits(hit)
            if not found:
                seen += 1
                whole = Clause(0, 10_000)
                assert self.owner(hit, whole) is None, (hit, self)
            return found

        return both

    possible = Mentions.possible
    with patch.object(Mentions, "possible", watched):
        for line in lines_of(sorted(TEXTS.glob("*.jsonl")))[::11]:
            read_line(demo_reader(), line, this_year=YEAR)
    assert seen > 400
