"""A question answers nothing: it is neither a yes nor one of the choices."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.reader import Reader

SOUND = Asked(
    "observation", appliance="washer", code="spin_sound", choices=(Choice("runs", "Motor runs"), Choice("hum", "A hum"))
)


@pytest.mark.parametrize(
    "text",
    [
        "do you work on that brand", "what do you mean", "why does that matter", "why do you need my address",
        "how do i check that", "when can you come", "qué día pueden venir", "por qué quiere saber", "tienen garantía",
    ],
)  # fmt: skip
@pytest.mark.parametrize("asked", [Asked("yes_no", appliance="washer", code="suds"), SOUND])
def test_a_question_is_no_yes_and_no_choice(reader: Reader, text: str, asked: Asked) -> None:
    answer = reader.read(text, asked=asked, about="washer").answer
    assert answer is None or answer.kind in ("no", "dont_know", "declined"), answer


@pytest.mark.parametrize("text", ["yes, why do you ask", "when it spins, yes", "sí, por qué"])
def test_a_yes_beside_a_question_is_a_yes(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=Asked("yes_no", appliance="washer", code="suds"), about="washer").answer
    assert answer is not None
    assert answer.kind == "yes"


@pytest.mark.parametrize("text", ["can you fix it or not", "do you fix furnaces?", "can somebody fix it today"])
def test_asking_for_a_repair_is_no_news_that_it_is_repaired(reader: Reader, text: str) -> None:
    assert "fixed" not in reader.read(text, about="dryer").intents


@pytest.mark.parametrize("text", ["my husband fixed it", "its fixed now", "fixed it, thanks"])
def test_a_repair_that_is_done_is_news(reader: Reader, text: str) -> None:
    assert "fixed" in reader.read(text, about="dryer").intents
