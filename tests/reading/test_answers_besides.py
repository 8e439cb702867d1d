"""What an answer only sounds like, and what is told in place of what was asked."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from tests.reading.score import demo_reader


def _intents(kind: str, text: str, appliance: str = "dryer", code: str | None = None) -> tuple[str, ...]:
    return demo_reader().read(text, asked=Asked(kind, appliance, code)).intents


@pytest.mark.parametrize(
    ("kind", "code", "text", "not_wanted"),
    [
        ("yes_no", "flooding", "no, i got it shut off", "fixed"),
        ("yes_no", "gas_smell", "no, ya le cerre a la llave y ya no huele", "fixed"),
        ("yes_no", "sparks", "no, mire por todos lados y nada", "not_fixed"),
        ("brand", None, "Ostrand, we got it the year my son was born", "fixed"),
        ("appliance", None, "es la secadora, la lavadora ya quedo", "fixed"),
        ("access", None, "gate is locked so call me from the street", "talk_to_person"),
        ("access", None, "el porton esta cerrado, márqueme al llegar", "talk_to_person"),
        ("fuel", None, "creo que de gas porque le veo una manguera amarilla", "report_problem"),
        ("model", None, "dice modelo TR5521X, le mando la foto si gusta", "ask_help"),
    ],
)
def test_an_answer_wants_no_more_than_it_says(kind: str, code: str | None, text: str, not_wanted: str) -> None:
    assert not_wanted not in _intents(kind, text, code=code)


@pytest.mark.parametrize(
    ("kind", "text", "wanted"),
    [
        ("offer", "prefiero que me marquen", "talk_to_person"),
        ("access", "key is under the pot. i want to talk to a person", "talk_to_person"),
        ("model", "TR5521X. how do i turn the water off?", "ask_help"),
        ("check_result", "i got it working", "fixed"),
        ("yes_no", "my brother fixed it yesterday, works great now", "fixed"),
    ],
)
def test_what_is_wanted_besides_stays(kind: str, text: str, wanted: str) -> None:
    assert wanted in _intents(kind, text, code="no_heat" if kind == "yes_no" else None)


@pytest.mark.parametrize(
    ("code", "text", "told"),
    [
        ("no_tumble", "no it turns. it's the heat that went out", True),
        ("no_tumble", "no, vueltas si da, lo que no hace es calentar", True),
        ("no_tumble", "no it tumbles fine but the door wont latch", True),
        ("no_tumble", "no it tumbles fine", False),
        ("no_tumble", "no, gira bien", False),
        ("leak", "no, its not the dryer, the washer leaks", True),
    ],
)
def test_a_fault_told_instead_is_reported(code: str, text: str, told: bool) -> None:
    assert ("report_problem" in _intents("yes_no", text, code=code)) is told
