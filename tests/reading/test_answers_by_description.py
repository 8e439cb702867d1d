"""Answers told without the plain word: by description, by what came of it, by what stands first, refusals and not yet."""

from __future__ import annotations

import pytest

from service.reading.model import Answer, Asked, Choice
from tests.reading.score import demo_reader

OFFERS = ("Tue 9 Dec, 9 to 11 am", "Wed 10 Dec, 2 to 4 pm")


def _answer(asked: Asked, text: str) -> Answer | None:
    return demo_reader().read(text, asked=asked).answer


@pytest.mark.parametrize(
    ("appliance", "text", "kind"),
    [
        ("washer", "there is a round window you look in", "front_load"),
        ("washer", "you toss the clothes in from above", "top_load"),
        ("washer", "se le echa la ropa por arriba", "top_load"),
        ("washer", "tiene tapadera", "top_load"),
        ("freezer", "its a long low one", "chest"),
        ("freezer", "de pecho, cabe medio venado", "chest"),
        ("freezer", "es paradito como refri", "upright"),
        ("freezer", "tall one. the handle broke off too", "upright"),
        ("dryer", "tiene un tubo que da a la pared de afuera", "vented"),
        ("dryer", "no tube on it, you empty a tank", "condenser"),
        ("microwave", "it sits next to the toaster", "countertop"),
        ("microwave", "nomas esta sobre la mesa", "countertop"),
    ],
)
def test_a_kind_is_described(appliance: str, text: str, kind: str) -> None:
    assert _answer(Asked("variant", appliance), text) == Answer("value", kind)


@pytest.mark.parametrize(
    ("appliance", "text"),
    [
        ("washer", "its next to the dryer"),
        ("washer", "it sits on top of a stand"),
        ("freezer", "its in the garage"),
        ("dryer", "what do you mean"),
    ],
)
def test_no_kind_is_described(appliance: str, text: str) -> None:
    told = _answer(Asked("variant", appliance), text)
    assert told is None or told.kind != "value"


@pytest.mark.parametrize(
    ("text", "appliance"),
    [
        ("the wine thing in the island", "beverage_cooler"),
        ("un aparato para enfriar las cervezas", "beverage_cooler"),
        ("thing over the stove that sucks up the steam", "range_hood"),
        ("la de hacer hielo debajo de la barra", "ice_maker"),
        ("the thing that washes the dishes", "dishwasher"),
        ("lo que muele abajo de la tarja", "disposal"),
    ],
)
def test_a_machine_is_named_by_what_it_is_for(text: str, appliance: str) -> None:
    read = demo_reader().read(text, asked=Asked("appliance"))
    assert (read.appliances[:1], read.intents[:1]) == ((appliance,), ("answer",))


@pytest.mark.parametrize(
    ("code", "text", "went"),
    [
        ("leak", "ya no gotea", "fixed"),
        ("trips_breaker", "no longer tripping since i moved it", "fixed"),
        ("trips_breaker", "ya no se bota", "fixed"),
        ("noise", "stopped squealing", "fixed"),
        ("no_start", "hit the button and now its running", "fixed"),
        ("no_drain", "le limpie el filtro y quedo", "fixed"),
        ("no_drain", "Drains now. Still leaves a puddle in front though.", "fixed"),
        ("no_drain", "le limpie el filtro y quedo igual", "not_fixed"),
        ("no_fill", "la enderece pero ni asi entra agua", "not_fixed"),
        ("no_start", "did it twice. still sits there", "not_fixed"),
        ("error_code", "flipped it off and on, same code", "not_fixed"),
        ("jammed", "le di vuelta y no se destraba", "not_fixed"),
        ("no_start", "it is not running", "not_fixed"),
        ("no_heat", "its running but no heat", "not_fixed"),
        ("trips_breaker", "no longer works at all", "not_fixed"),
        ("jammed", "no se la verdad", "dont_know"),
    ],
)
def test_how_a_check_went(code: str, text: str, went: str) -> None:
    told = _answer(Asked("check_result", "dishwasher", code), text)
    assert told is not None
    assert told.kind == went


@pytest.mark.parametrize(
    ("asked", "text", "kind"),
    [
        (Asked("yes_no", "washer", "leak"), "used to but my son swapped the hose", "no"),
        (Asked("yes_no", "washer", "leak"), "the floor is dry so no i guess", "no"),
        (Asked("yes_no", "washer", "leak"), "hay charco asi que si creo", "yes"),
        (Asked("model", "washer"), "mejor no la toco, se zafa la manguera", "declined"),
        (Asked("model", "washer"), "no pienso moverla", "declined"),
        (Asked("check_result", "washer", "leak"), "im 7 months pregnant", "declined"),
        (Asked("check_result", "washer", "leak"), "no me puedo agachar", "declined"),
        (Asked("address"), "ill hold off on giving my address for now", "declined"),
        (Asked("name"), "no name til you tell me a price", "declined"),
        (Asked("access"), "no le doy el codigo a nadie", "declined"),
        (Asked("code", "range"), "it went off before i could read it", "dont_know"),
        (Asked("postal_code"), "ni me lo se", "dont_know"),
        (Asked("offer", offers=OFFERS), "need to check with my boss, ill let you know", "dont_know"),
        (Asked("offer", offers=OFFERS), "let me ask my wife first", "dont_know"),
        (Asked("offer", offers=OFFERS), "deje le pregunto a mi esposo", "dont_know"),
        (Asked("offer", offers=OFFERS), "whichever. every day is sunday to me", "either"),
        (Asked("offer", offers=OFFERS), "first one, ill let you know if not", "choice"),
    ],
)
def test_answers_without_the_plain_word(asked: Asked, text: str, kind: str) -> None:
    told = _answer(asked, text)
    assert told is not None
    assert told.kind == kind


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("its the last one. spins all day", Answer("choice", "leak", 1)),
        ("ninguno. camina por todo el cuarto", Answer("none")),
    ],
)
def test_what_stands_first_counts(text: str, told: Answer) -> None:
    choices = (Choice("no_start", "It won't start"), Choice("leak", "It leaks"))
    assert _answer(Asked("symptom", "washer", choices=choices), text) == told


@pytest.mark.parametrize(
    ("text", "wanted", "not_wanted"),
    [
        ("agent agent agent", "talk_to_person", "book"),
        ("have the owner call me himself", "talk_to_person", "book"),
        ("the visit fee is too steep for us, ill pass", "cancel", "ask_price"),
        ("cancel it, my uncle says he can fix it", "cancel", "book"),
        ("is your guy close? i gotta run", "ask_status", "book"),
        ("how much es la visita", "ask_price", "ask_status"),
        ("ill pass the message to my wife", "", "cancel"),
        ("wrong number, take me off your list", "opt_out", "cancel"),
        ("wrong number, take me off your list", "wrong_number", "cancel"),
        ("borre mi numero de su lista", "opt_out", "wrong_number"),
    ],
)
def test_wants_told_sideways(text: str, wanted: str, not_wanted: str) -> None:
    intents = demo_reader().read(text).intents
    assert not wanted or wanted in intents
    assert not_wanted not in intents
