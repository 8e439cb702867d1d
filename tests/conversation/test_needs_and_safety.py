"""When the diary is loaded; what goes out when a turn fails."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from service.conversation import safety
from service.conversation.events import Texted, Woke
from service.conversation.needs import needs_diary
from service.conversation.safety import stock_reply
from service.conversation.state import Contact, State
from tests.journeys.line import TUESDAY_TEN as NOW
from tests.journeys.line import demo


def text(words: str) -> Texted:
    return Texted(id="m", text=words, at=NOW)


@pytest.mark.parametrize(
    ("words", "zip_known", "needed"),
    [
        ("it leaks", None, False),
        ("it leaks, 87110", None, True),
        ("it leaks, 90210", None, False),
        ("2", "87110", True),
        ("2", "90210", False),
    ],
)
def test_the_diary_is_needed_once_a_zip_of_the_area_is_known(words: str, zip_known: str | None, needed: bool) -> None:
    state = State(contact=Contact(postal_code=zip_known))
    assert needs_diary(state, [text(words)], demo(), NOW) is needed


def test_a_wake_needs_no_diary() -> None:
    assert not needs_diary(State(contact=Contact(postal_code="87110")), [Woke(kind="silence", at=NOW)], demo(), NOW)


def test_a_failed_turn_still_gives_the_danger_instruction() -> None:
    (reply,) = stock_reply(demo(), ["the kitchen smells like gas"], "en")
    assert reply.kind == "danger"
    assert reply.text == demo().dangers["gas_smell"].instruction.say.en


def test_a_failed_turn_without_danger_says_that_a_person_reads_it() -> None:
    (reply,) = stock_reply(demo(), ["it leaks"], "es")
    assert reply.kind == "answer"
    assert "505-555-0101" in reply.text
    assert "persona" in reply.text


def test_the_danger_is_found_even_when_the_reader_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_rulebook: object) -> object:
        raise RuntimeError("no reader")

    monkeypatch.setattr(safety, "reader_for", broken)
    gas = demo().dangers["gas_smell"]
    plain = gas.signs.model_copy(update={"en": ("gas smell",), "es": ("huele a gas",)})
    dangers = MappingProxyType({**demo().dangers, "gas_smell": gas.model_copy(update={"signs": plain})})
    rulebook = replace(demo(), dangers=dangers)
    (reply,) = stock_reply(rulebook, ["there is a GAS SMELL here"], "en")
    assert reply.kind == "danger"
    (reply,) = stock_reply(rulebook, ["Aquí huele a gas."], "es")
    assert reply.text.startswith("PELIGRO:")
    assert stock_reply(rulebook, ["it leaks"], "en")[0].kind == "answer"
