"""A refrigerator's halves: told in several texts, put right, or with the food that stands in them."""

from __future__ import annotations

import pytest

from tests.journeys.line import Line


@pytest.mark.parametrize(
    "texts",
    [
        ["fridge warm AND freezer warm, no wait freezer is ok"],
        ["my fridge and freezer are warm. actually the freezer is fine"],
        ["refri caliente y congelador caliente, no espere el congelador esta bien"],
        ["my fridge is warm and the freezer is warm", "no wait freezer is ok"],
        ["my fridge is warm and the freezer is warm", "oh the freezer is fine actually"],
        ["mi refri no enfria y el congelador tampoco", "no espere el congelador si esta bien"],
        ["mi refri no enfria y el congelador tampoco", "perdon el congelador si congela"],
    ],
)
def test_a_half_taken_back_leaves_the_other(texts: list[str]) -> None:
    line = Line()
    for text in texts:
        line.text(text)
    assert line.ticket.open
    assert line.ticket.symptoms == {"warm_fridge": True, "warm_freezer": False}
    assert "freezer_state" not in line.ticket.observations


@pytest.mark.parametrize(
    "texts",
    [
        ["the fridge part isnt cold", "freezer is warm too"],
        ["the fridge part isnt cold", "freezer too"],
        ["ice cream is melting in my refrigerators freezer", "fridge is warm too"],
        ["the fridge is warm", "the freezer is thawing now"],
        ["la parte de abajo del refri no enfria pero el congelador si", "ahora el congelador tampoco enfria"],
        ["mi refri no enfria abajo", "el congelador tampoco"],
    ],
)
def test_both_halves_told_one_after_the_other_are_one_complaint(texts: list[str]) -> None:
    line = Line()
    for text in texts:
        line.text(text)
    warm = {code for code, said in line.ticket.symptoms.items() if said}
    assert warm == {"not_cooling"}
    assert len(line.state.tickets) == 1


def test_freezer_too_is_no_answer_to_where_the_frost_is() -> None:
    line = Line()
    line.text("the fridge part isnt cold")
    assert line.state.asked is not None
    assert line.state.asked.code == "frost_where"
    line.text("freezer too")
    assert line.ticket.observations == {}


@pytest.mark.parametrize(
    "text",
    [
        "food in door frozen but milk warm",
        "milk warm but freezer is fine",
        "food in the freezer is frozen but milk is warm",
        "freezer works great but the eggs and milk are warm",
        "la comida de la puerta congelada pero la leche tibia",
        "lo de arriba congelado pero la leche tibia",
    ],
)
def test_food_tells_the_half(text: str) -> None:
    line = Line()
    line.text(text)
    assert line.ticket.appliance == "refrigerator"
    assert line.ticket.symptoms.get("warm_fridge") is True
    assert not line.ticket.symptoms.get("not_cooling")
