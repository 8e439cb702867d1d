"""What people want and state, told beside jokes, alarms, storms and neighbors."""

from __future__ import annotations

import pytest

from tests.reading.score import demo_reader


def intents(text: str) -> set[str]:
    return set(demo_reader().read(text).intents)


def facts(text: str) -> dict[str, object]:
    return demo_reader().read(text, this_year=2026).facts


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("i need you guys for the dryer door, it wont stay shut", "book"),
        ("please hurry up with that washer, it wont spin", "book"),
        ("do you guys do saturdays? the oven wont heat", "book"),
        ("is monday possible for the freezer", "book"),
        ("could one of you take a look at the hood", "book"),
        ("lo que quiero es que vean la secadora que no calienta", "book"),
        ("necesito que me vean la estufa, no prende", "book"),
        ("mi refri no enfria, vengan a verlo", "book"),
        ("please dont send the young man", "cancel"),
        ("nvm about the noise, it was a spoon", "cancel"),
        ("id rather talk over the phone", "talk_to_person"),
        ("lo paga el inquilino o yo", "ask_warranty"),
        ("is the washer supposed to feel hot on top", "ask_help"),
        ("do you guys sell those little filters", "ask_help"),
        ("cuanto aguanta la carne en el congelador", "ask_help"),
        ("se puede lavar la charola del horno en el lavaplatos", "ask_help"),
        ("you said between 9 and 11", "ask_status"),
        ("he was supposed to be here at noon", "ask_status"),
        ("puede ser el lunes en vez del jueves", "reschedule"),
        ("my own mistake, the dryer is fine", "fixed"),
        ("the dishwasher stopped leaking", "fixed"),
        ("it hasnt leaked a drop since you came", "fixed"),
    ],
)
def test_what_is_wanted_in_other_words(text: str, wanted: str) -> None:
    assert wanted in intents(text)


@pytest.mark.parametrize(
    ("text", "lacks"),
    [
        ("can somebody stop by for the dryer monday morning", "report_problem"),
        ("how much for a new dryer belt", "report_problem"),
        ("shocked at the price of a washer visit, how much was it again", "report_problem"),
        ("how much to hook up a dryer? it works great", "fixed"),
        ("closed the valve under the sink and no more leak", "fixed"),
        ("the washer has leaked since you came", "fixed"),
        ("cousin says a washer killed a man. mine has suds everywhere", "not_fixed"),
        ("i unplugged it because of the storm, plugged it back in and the oven clock is blank", "report_nothing"),
        ("the hood fan wont go off for an hour after", "not_fixed"),
        ("ya no hace falta que vengan, lo arreglo mi yerno", "book"),
        ("no pasa nada, era la alarma. el triturador zumba", "not_fixed"),
        ("the dryer door doesnt close right", "ask_help"),
    ],
)
def test_what_is_not_wanted(text: str, lacks: str) -> None:
    assert lacks not in intents(text)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("the smoke alarm was beeping so i changed the battery. the fridge is warm", "tried"),
        ("la alarma pitaba por la pila, ya se la cambie. el horno no prende", "tried"),
        ("i unplugged it because of the storm, plugged it back in and the oven is dead", "tried"),
        ("the dryer door wont latch, ive got it taped shut", "tried"),
        ("smoke alarm goes off every time i fry, the hood wont pull air", "pattern"),
        ("la alarma de humo pita cada que frio, la campana no jala", "pattern"),
        ("my moms gas stove is fine, its her fridge that is warm", "fuel"),
        ("im pretty sure its gas im smelling by the cooktop", "fuel"),
        ("can you fit me in before the 4th, the ice maker is down", "since"),
        ("i burned popcorn yesterday. the microwave light is out", "since"),
        ("closed the valve last night, dishwasher drips", "since"),
        ("the fridge is good again since your man came, thank you", "after"),
        ("i dont have a dog and the dryer smells like one", "access"),
        ("i wont be home thursday, can it be friday", "access"),
    ],
)
def test_what_is_no_fact_of_the_fault(text: str, name: str) -> None:
    assert name not in facts(text)


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("unplugged the fridge for ten minutes, still warm", "tried", ("power_cycled",)),
        ("the alarm was fine so i cleaned the filter, still no suction from the hood", "tried", ("cleaned_filter",)),
        ("there is a puddle under the fridge every morning", "pattern", "always"),
        ("cada noche amanece agua abajo del refri", "pattern", "always"),
        ("it clunks maybe twice a day, the fridge", "pattern", "sometimes"),
        ("leaks every couple days, the washer", "pattern", "sometimes"),
        ("my gas dryer wont heat", "fuel", "gas"),
        ("the washer is loud since tuesday", "since", "since tuesday"),
    ],
)
def test_what_is_stated_of_the_fault(text: str, name: str, value: object) -> None:
    assert facts(text).get(name) == value
