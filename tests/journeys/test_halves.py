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


@pytest.mark.parametrize(
    "texts",
    [
        ["my fridge is warm", "its just the freezer part"],
        ["my freezer isnt cold", "its just the freezer part"],
        ["my freezer is warm", "its in my fridge, top part"],
        ["freezer thawing", "its the freezer part of the fridge"],
        ["mi congelador no enfria", "es nomas la parte del congelador"],
        ["mi congelador no congela", "es el congelador de mi refri"],
        ["mi refri no enfria", "solo la parte del congelador"],
    ],
)
def test_a_freezer_said_to_be_a_part_is_not_asked_where_it_is(texts: list[str]) -> None:
    line = Line()
    for text in texts:
        line.text(text)
    assert [t.appliance for t in line.state.tickets] == ["refrigerator"]
    assert {code for code, said in line.ticket.symptoms.items() if said} == {"warm_freezer"}
    assert line.state.asked is not None
    assert line.state.asked.kind != "appliance"


@pytest.mark.parametrize(
    "texts",
    [
        ["my freezer is warm", "its a chest freezer in the garage next to the fridge"],
        ["my freezer is warm", "its on its own, not in the fridge, a separate one"],
        ["mi congelador no enfria", "es aparte, no es del refri"],
    ],
)
def test_a_freezer_of_its_own_stays_one(texts: list[str]) -> None:
    line = Line()
    for text in texts:
        line.text(text)
    assert [t.appliance for t in line.state.tickets] == ["freezer"]


@pytest.mark.parametrize(
    "text",
    [
        "lo del congelador bien duro pero la leche esta tibia",
        "el congelador esta duro pero abajo esta tibio",
        "el congelador congela bien pero los refrescos y el jugo estan calientes",
        "freezer is rock solid but the milk wont stay cold",
        "freezer stuff frozen solid but milk goes bad",
        "freezers hard as a rock but the eggs are warm",
    ],
)
def test_a_hard_freezer_and_warm_food_are_a_refrigerators(text: str) -> None:
    line = Line()
    line.text(text)
    assert [t.appliance for t in line.state.tickets] == ["refrigerator"]
    assert line.ticket.symptoms == {"warm_fridge": True, "warm_freezer": False}


@pytest.mark.parametrize(
    "text", ["my freezer is hard to open but the milk is ok", "freezer is warm but the ice is hard"]
)
def test_what_is_told_of_the_freezer_alone_is_the_freezers(text: str) -> None:
    line = Line()
    line.text(text)
    assert [t.appliance for t in line.state.tickets] == ["freezer"]
