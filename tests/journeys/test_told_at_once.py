"""What a first text tells of where, when or how is known, and is not asked again; a word or two answer it when it is asked."""

from __future__ import annotations

import pytest

from service.reading.model import Asked, Choice
from service.reading.readers import reader_for
from tests.journeys.line import Line, demo


@pytest.mark.parametrize(
    ("text", "code", "value"),
    [
        ("dishwasher leaking from the door", "leak_where", "door"),
        ("my dishwasher seeps water out from underneath", "leak_where", "under"),
        ("el lavaplatos gotea por la puerta", "leak_where", "door"),
        ("dishwasher leaks at the end of the cycle", "leak_when", "draining"),
        ("the washer leaks from behind", "leak_where", "taps"),
        ("la lavadora tira agua por el cajón del jabón", "leak_where", "drawer"),
        ("washer makes a loud noise during the spin cycle", "noise_when", "spin"),
        ("la lavadora hace mucho ruido al centrifugar", "noise_when", "spin"),
        ("dryer wont start, it just buzzes", "start_sound", "hums"),
        ("the left rear burner on my cooktop wont heat", "how_many", "one"),
        ("una de las hornillas de la parrilla de gas no prende", "how_many", "one"),
        ("refrigerator leaves a puddle in front", "water_where", "front"),
        ("my fridge is warm and the compressor wont come on", "compressor_sound", "silent"),
        ("el refri tira agua por atrás", "water_where", "behind"),
        ("microwave shuts off after a few seconds", "stop_when", "seconds"),
        ("disposal drips at the bottom", "leak_where", "bottom"),
        ("my standalone ice maker leaks from underneath", "water_where", "bottom"),
        ("la campana gotea grasa", "drip_what", "grease"),
    ],
)
def test_what_was_told_at_once_is_not_asked(text: str, code: str, value: str) -> None:
    line = Line()
    line.text(text)
    assert line.ticket.observations.get(code) == value
    for _ in range(4):
        if line.state.asked is None or line.state.asked.kind in ("offer", "address", "confirm"):
            break
        assert line.state.asked.code != code
        line.text("i dont know")


def _asked(machine: str, code: str, language: str) -> Asked:
    known = demo().appliances[machine].observations[code]
    choices = tuple(Choice(answer.value, answer.say.in_(language)) for answer in known.answers)
    return Asked("observation", appliance=machine, code=code, choices=choices)


@pytest.mark.parametrize(
    ("machine", "code", "text", "value"),
    [
        ("dishwasher", "leak_where", "front", "door"),
        ("dishwasher", "leak_where", "by the front left", "door"),
        ("dishwasher", "leak_where", "from the front of the machine", "door"),
        ("dishwasher", "leak_where", "underneth", "under"),
        ("dishwasher", "leak_when", "right at the beginning", "filling"),
        ("washer", "leak_where", "back", "taps"),
        ("washer", "noise_kind", "loud bang", "bang"),
        ("washer", "drive_sound", "screeching", "grinds"),
        ("range", "how_many", "front left", "one"),
        ("range", "how_many", "every single one", "all"),
        ("wall_oven", "door_how", "wont shut all the way", "gap"),
        ("dryer", "air_outside", "hardly any", "weak"),
        ("microwave", "stop_when", "after like 3 seconds", "seconds"),
    ],
)
def test_a_word_or_two_answer_what_was_asked(machine: str, code: str, text: str, value: str) -> None:
    answer = reader_for(demo()).read(text, asked=_asked(machine, code, "en")).answer
    assert answer is not None
    assert answer.value == value


@pytest.mark.parametrize(
    ("machine", "code", "text", "value"),
    [
        ("dishwasher", "leak_where", "por enfrente", "door"),
        ("dishwasher", "leak_when", "a medio ciclo", "washing"),
        ("washer", "leak_when", "exprimiendo", "draining"),
        ("washer", "leak_where", "atras", "taps"),
        ("wall_oven", "door_how", "floja", "loose"),
        ("refrigerator", "freezer_state", "se derritio", "thawed"),
    ],
)
def test_una_o_dos_palabras_contestan(machine: str, code: str, text: str, value: str) -> None:
    answer = reader_for(demo()).read(text, asked=_asked(machine, code, "es")).answer
    assert answer is not None
    assert answer.value == value


@pytest.mark.parametrize("text", ["i cant tell", "can somebody come friday", "no idea, it is all over the floor"])
def test_what_names_no_choice_takes_none(text: str) -> None:
    answer = reader_for(demo()).read(text, asked=_asked("dishwasher", "leak_where", "en")).answer
    assert answer is None or answer.kind != "choice"
