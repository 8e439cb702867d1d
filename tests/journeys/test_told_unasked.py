"""An answer to a question that was not asked just now is noted where it belongs, and only there."""

from __future__ import annotations

import pytest

from service.reading.model import Choice
from service.reading.replies.option_words import made_of_one
from tests.journeys.line import Line, told


@pytest.mark.parametrize(
    ("texts", "code", "value"),
    [
        (("washer makes an awful racket", "mostly on the spin"), "noise_when", "spin"),
        (("washer is so loud", "as it fills"), "noise_when", "fill"),
        (("la lavadora hace mucho ruido", "nomas cuando exprime"), "noise_when", "spin"),
        (("la lavadora hace mucho ruido", "al llenarse"), "noise_when", "fill"),
    ],
)
def test_the_answer_to_another_question_is_kept_and_not_asked_for(
    texts: tuple[str, ...], code: str, value: str
) -> None:
    line = told(*texts)
    assert line.ticket.observations == {code: value}
    assert line.state.asked is not None
    assert line.state.asked.code != code


def test_when_it_is_loud_is_not_when_it_leaks() -> None:
    assert "leak_when" not in told("la lavadora hace mucho ruido", "cuando centrifuga").ticket.observations


@pytest.mark.parametrize(
    "text", ["it spins fine", "does it spin?", "no spin", "like 4 times", "ok", "spin and also the fill"]
)
def test_a_text_that_says_more_or_less_is_left_alone(text: str) -> None:
    choices = (Choice("fill", "As it fills"), Choice("spin", "As it spins"), Choice("none", "No noise"))
    assert made_of_one(text, choices) is None


@pytest.mark.parametrize("text", ["spin", "only when its spinning", "during the spin cycle", "al centrifugado"])
def test_the_choice_may_be_said_in_many_ways(text: str) -> None:
    assert made_of_one(text, (Choice("fill", "As it fills"), Choice("spin", "As it spins"))) == 1


@pytest.mark.parametrize(
    ("texts", "left"),
    [
        (("my induction cooktop wont heat my pan", "actually its gas"), "Then leave that"),
        (("mi parrilla de inducción no calienta la olla", "perdon es de gas"), "Deje eso"),
    ],
)
def test_a_check_that_does_not_suit_the_machine_after_all_is_called_off(texts: tuple[str, ...], left: str) -> None:
    line = told(*texts)
    assert left in line.said
    assert line.ticket.checks["magnet_pan"] == "unable"


@pytest.mark.parametrize("first", ["my stove wont light", "one burner on my cooktop does nothing"])
def test_a_pan_is_not_tried_where_nobody_said_induction(first: str) -> None:
    line = Line()
    heard = [*line.text(first), *line.text("not sure"), *line.text("87106"), *line.text("no idea"), *line.text("all")]
    assert not any("magnet" in text for text in heard)


@pytest.mark.parametrize(
    "text", ["its in the fridge", "it's part of the fridge", "es del refri", "the one inside the refrigerator"]
)
def test_an_ice_maker_in_a_refrigerator_is_not_turned_away(text: str) -> None:
    assert told("ice maker quit", text).ticket.appliance == "refrigerator"


@pytest.mark.parametrize("text", ["stand alone one", "its own machine", "under the counter", "es aparte"])
def test_an_ice_maker_of_its_own_is_known_by_its_names(text: str) -> None:
    assert told("ice maker quit", text).ticket.appliance == "ice_maker"


@pytest.mark.parametrize(
    "text", ["no the freezer is warm too", "the freezer is warm also", "el congelador tampoco enfria"]
)
def test_a_freezer_that_is_warm_too_is_the_refrigerators(text: str) -> None:
    line = Line()
    line.text("my fridge isnt keeping cold")
    said = " ".join(line.text(text))
    assert "A machine of its own" not in said
    assert len(line.state.tickets) == 1
