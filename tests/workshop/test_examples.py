"""The examples of the rules are read, and what is not read as it says is told with what it hit instead."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.reading.model import Answer, Found, HazardFound, Reading, Seen, Theory, Wish
from service.reading.readers import reader_for
from service.rulebook.examples import Placed
from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.rulebook.schema.common import Example
from service.workshop.examples import OFFERS, asked_of, denied_codes, heard_codes, run_examples
from tests.conftest import RULES


@pytest.fixture(scope="module")
def demo() -> Rulebook:
    return load_rulebook(RULES, "demo")


def only(demo: Rulebook, example: Example) -> Rulebook:
    """The demo's rules with *example* as the only one, beside the gas smell."""
    reader_for(demo)  # equal rulebooks share a reader, so the phrases stay those of the demo
    danger = demo.dangers["gas_smell"].model_copy(update={"examples": (example,)})
    return replace(demo, appliances={}, names={}, talk={}, urgency={}, dangers={"gas_smell": danger})


def test_an_example_that_is_read_as_it_says_passes(demo: Rulebook) -> None:
    report = run_examples(only(demo, Example(says="I smell gas", means=("gas_smell",), lacks=("smoke",))))

    assert report.text == "1 example, all read as they say."
    assert report.exit_code == 0


def test_an_example_that_is_not_is_told_with_what_it_hit_instead(demo: Rulebook) -> None:
    report = run_examples(
        only(demo, Example(says="I smell gas", means=("fire",), denies=("smoke",), lacks=("gas_smell",)))
    )

    lines = report.text.splitlines()
    assert lines[:5] == [
        "dangers.yaml, gas_smell",
        '  "I smell gas"',
        "  means fire.",
        "  denies smoke.",
        "  must not mean gas_smell.",
    ]
    assert lines[5].startswith("  It was read as ")
    assert "gas_smell" in lines[5]
    assert lines[6:] == ["1 example of 1 not read as it says."]
    assert report.exit_code == 1


def test_every_kind_of_finding_has_its_code() -> None:
    found = Found("dishwasher", "leak", 0.9, "leaks", 0, 5, "r")
    reading = Reading(
        "text",
        intents=("book",),
        appliances=("dishwasher",),
        symptoms=(found,),
        denied=(replace(found, code="no_drain"),),
        hazards=(HazardFound("smoke", "smoke", 0, 5, "r"),),
        denied_hazards=(HazardFound("fire", "fire", 0, 4, "r"),),
        urgency=("active_leak",),
        facts={"brand": "Mesadora", "age_years": 7.0, "tried": ("cleaned_filter", "reset_breaker")},
        observations=(Seen("dishwasher", "sink_backs_up", "no", "sink is fine"),),
        theories=(Theory("dishwasher", "drain_pump_failed", "pump is shot"),),
        wish=Wish(soonest=True),
        answer=Answer("yes", hedged=True),
    )

    assert heard_codes(reading, "new_disposal") == {
        "leak", "smoke", "active_leak", "book", "appliance=dishwasher", "sink_backs_up=no", "theory=drain_pump_failed",
        "brand", "brand=mesadora", "age_years", "age_years=7", "tried", "tried=cleaned_filter", "tried=reset_breaker",
        "wish=soonest", "yes", "hedged", "new_disposal=yes",
    }  # fmt: skip
    assert set(denied_codes(reading)) == {"no_drain", "fire", "sink_backs_up"}


def test_the_question_before_an_example_stands_open_as_it_was_sent(demo: Rulebook) -> None:
    def asked(kind: str | None, appliance: str | None = "dishwasher") -> object:
        return asked_of(demo, Placed("f", "r", appliance, Example(says="x", means=("yes",), asked=kind)))

    choice = next(o for o in demo.appliances["dishwasher"].observations.values() if o.answers)
    standing = asked(choice.id)

    assert asked(None) is None
    assert standing.kind == "observation"
    assert standing.code == choice.id
    assert [c.value for c in standing.choices] == list(choice.values)
    assert asked("offer").offers == OFFERS
    assert asked("yes_no", None).appliance is None
