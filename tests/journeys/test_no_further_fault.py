"""What answers a question, or is one strange word, is no further fault."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize(
    "texts",
    [
        ("mi refri tira agua adentro", "no hay hielo"),
        ("refrigerator leaks water inside", "dripwell"),
        ("mi refri tira agua adentro", "dripwell"),
        ("refrigerator leaks water inside", "drain hole is froze solid"),
    ],
)
def test_the_answer_to_the_frost_question_brings_no_fault(texts: tuple[str, ...]) -> None:
    line = Line()
    for text in texts:
        line.text(text)

    assert {code for code, so in line.ticket.symptoms.items() if so} == {"leak"}


def test_no_ice_unasked_is_a_fault_all_the_same() -> None:
    line = Line()
    line.text("mi refri no hace hielo")

    assert line.ticket.symptoms.get("no_ice")
