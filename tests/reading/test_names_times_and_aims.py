"""Names signed, times without a "since", model numbers before a word, and what is wanted in few words or not at all."""

from __future__ import annotations

import pytest

from service.reading.model import Asked
from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("The dishwasher leaks. Thank you, Marjorie", "name", "Marjorie"),
        ("la lavadora tira agua. Gracias, Eulalia", "name", "Eulalia"),
        ("aqui es la señora Lupita, el horno no prende", "name", "Lupita"),
        ("the model is WTL4480Q I think", "model", "WTL4480Q"),
        ("sale una E con un 4 en la pantalla de la lavadora", "code", "E4"),
        ("my washer shows an F and then a 21", "code", "F21"),
        ("fridge got real loud this week", "since", "this week"),
        ("puddle under the fridge this am", "since", "this am"),
        ("washer sounds like a jet taking off since about a month", "since", "since about a month"),
        ("el refri suena y se calla y vuelve a sonar", "pattern", "sometimes"),
        ("la secadora es de las de gas", "fuel", "gas"),
        ("left front wont light, gas just doesnt catch, its the stove", "fuel", "gas"),
        ("washer hums, moved in last week and it came with the house", "after", ("moved",)),
        ("se bota la pastilla de la secadora, ya la subi dos veces", "tried", ("reset_breaker",)),
        ("microwave is dead. its level i checked it", "tried", ("other",)),
    ],
)
def test_a_fact_is_told(reader: Reader, text: str, name: str, value: object) -> None:
    assert reader.read(text).facts.get(name) == value


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Thank you, Marjorie", "name"),
        ("dryer takes 2 sometimes 3 runs to dry towels", "pattern"),
        ("la pelusa de la secadora se la quito siempre", "pattern"),
        ("we wash daily because of my dad and the washer quit", "pattern"),
        ("it used to leak, no longer leaking since my uncle tightened the hose", "since"),
        ("ya no truena la estufa desde que la limpiaron", "since"),
        ("lavaplatos arreglado, ya van 5 dias seco", "since"),
        ("el perro mordió el cable de la secadora", "access"),
        ("mi hija se pinta las uñas. al refri se le despegó el empaque", "after"),
    ],
)
def test_what_only_sounds_like_a_fact_is_none(reader: Reader, text: str, name: str) -> None:
    assert name not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("me avisan cuando vengan en camino por favor?", "ask_status"),
        ("did the tech ever come? nobody called", "ask_status"),
        ("a como me saldria arreglar el horno", "ask_price"),
        ("ballpark to swap a valve on my stove", "ask_price"),
        ("ocupo cita para mi dishwasher, no lava bien, los platos salen dirty", "book"),
        ("lavaplatos tirando agua, no la puedo parar, vengan", "book"),
        ("need a washer hooked up saturday", "book"),
        ("no era para ustedes, disculpe", "wrong_number"),
        ("so nobody needs to come tomorrow", "cancel"),
        ("se me atravesó algo, pásenme la cita pa mañana", "reschedule"),
        ("limpié y sequé el quemador pero le sigue, truena solo", "not_fixed"),
        ("los botones no responden ni limpiándolos, es la vinera", "not_fixed"),
        ("compactor smells even after we scrub it", "not_fixed"),
        ("the dryer doesnt squeak one bit anymore, thank you", "fixed"),
    ],
)
def test_what_is_wanted(reader: Reader, text: str, intent: str) -> None:
    assert intent in reader.read(text).intents


@pytest.mark.parametrize(
    ("text", "intent"),
    [
        ("it hasnt worked since tuesday", "fixed"),
        ("they fixed the noise, but now it makes three cubes a day, the ice maker", "fixed"),
        ("is there a fee if i cancel the dryer visit", "cancel"),
        ("washer drips a little, i mop it up and its dry till next time", "book"),
        ("yo nomas quiero que se calle el refri", "book"),
        ("el refri suena poquito, el técnico dijo que es normal. lo malo es que no hace hielo", "ask_help"),
        ("lettuce froze in the fridge and so did the eggs", "not_fixed"),
        ("is it normal for the fridge to gurgle at night?", "report_problem"),
    ],
)
def test_what_is_not_wanted(reader: Reader, text: str, intent: str) -> None:
    assert intent not in reader.read(text).intents


@pytest.mark.parametrize("text", ["Roberto Saenz a la orden", "Marisol Quade, servidora"])
def test_a_name_is_answered_politely(reader: Reader, text: str) -> None:
    assert str(reader.read(text, asked=Asked("name")).facts["name"]) in text


def test_a_name_before_an_address_that_was_asked(reader: Reader) -> None:
    told = reader.read("Jasmine, 410 Cholla Bend, 87105", asked=Asked("address")).facts
    assert (told["name"], told["address"]) == ("Jasmine", "410 Cholla Bend")
