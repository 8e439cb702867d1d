"""Who pays, how to get in, who it is, where, and when: in wordings of many, and what must not be taken for them."""

from __future__ import annotations

from typing import Any

import pytest

from service.reading.bulk import read_line
from tests.reading.score import demo_reader


def read(text: str, asked: str | None = None, offers: tuple[str, ...] = ()) -> dict[str, Any]:
    line: dict[str, Any] = {"id": "1", "text": text}
    if asked:
        line |= {"asked": asked, "offers": list(offers)}
    return read_line(demo_reader(), line, this_year=2026)


@pytest.mark.parametrize(
    ("text", "payer"),
    [
        ("owner said he'd cover it", "owner"),
        ("client is paying, dont bill me", "owner"),
        ("se lo cobran al casero porfa", "landlord"),
        ("lo paga el dueño de la casa, yo nomas rento", "landlord"),
        ("landlord says its on us tenants to pay", "tenant"),
        ("el inquilino lo va a pagar", "tenant"),
        ("my insurance wont cover it so im paying cash", "owner"),
        ("mi seguro no cubre esto, yo lo pago", "owner"),
        ("mfr pays, its a warranty call", "maker_warranty"),
        ("home warranty denied us so the owner will pay", "owner"),
        ("im the landlord and i pay for repairs", "landlord"),
        ("do you take home warranty", "home_warranty"),
        ("i am NOT paying for this", None),
        ("do i have to pay for the visit?", None),
        ("who pays if its the pump", None),
        ("esto lo cubre la garantia o lo tengo que pagar yo", None),
        ("soy don Refugio de la calle Sauz", None),
        ("the lid doesnt cover all of it", None),
        ("whoever is in charge, we smell hot plastic", None),
    ],
)
def test_who_pays_is_the_party_nearest_to_a_verb_of_paying(text: str, payer: str | None) -> None:
    assert read(text)["facts"].get("payer") == payer


@pytest.mark.parametrize(
    "text",
    [
        "my husband will let you in, ring twice",
        "concierge has key",
        "doggo is friendly just push past him",
        "cat will try to get out",
        "park in visitor lot only",
        "code for the gate 3391#",
        "im in 2B buzz 14",
        "the spare key is under the blue pot",
        "come round by the carport",
        "text when ur outside dont knock",
        "nobody home until 5",
        "tengo un perro bravo en el patio",
        "la llave la tiene la vecina del 4",
        "llámame cuando estés afuera",
        "mi suegro va a estar en la casa",
        "entren por el callejon",
        "toquen fuerte, no oye",
        "el porton se abre con 4471#",
    ],
)
def test_how_to_get_in_is_heard(text: str) -> None:
    assert read(text)["facts"].get("access")


@pytest.mark.parametrize(
    "text",
    [
        "the dog chewed the hose",
        "oven has a key symbol on the panel",
        "the key pad doesnt respond",
        "gate valve leaks",
        "the back door of the dryer is loose",
        "washer door is locked and wont open",
        "le abro y le cierro y a veces arranca",
        "la alarma esta pite y pite",
        "como le hago pa abrir la puerta de la lavadora",
        "the ram is stuck and wont come back up",
    ],
)
def test_a_machines_own_doors_and_keys_are_no_way_in(text: str) -> None:
    assert "access" not in read(text)["facts"]


@pytest.mark.parametrize(
    "text",
    [
        "im at 318 Ocotillo Bend, washer leaks",
        "we are on Verbena, 731",
        "220 Vereda Encino",
        "callejon del Sauz 1507, unidad 3",
        "la calle se llama Encino, numero 318",
        "four oh two Tamarisk Way",
        "2218 Anvil Ridge, dryer no heat",
    ],
)
def test_a_street_is_told_in_many_forms(text: str) -> None:
    assert read(text)["facts"].get("address")


@pytest.mark.parametrize(
    "text", ["lockbox 3317 dont make me drive down there", "it ran 14 loads past dinner", "after 20 min run"]
)
def test_a_number_before_words_is_no_street(text: str) -> None:
    assert "address" not in read(text)["facts"]


@pytest.mark.parametrize(
    ("text", "asked", "name"),
    [
        ("hi its Dani w the ice maker", None, "Dani"),
        ("Jaylen again. dryer quit", None, "Jaylen"),
        ("fridge is warm. Odell Vrabec, 87106.", None, "Odell Vrabec"),
        ("soap stays in the cup. Mrs. Teague", None, "Mrs. Teague"),
        ("Maria de la Luz Arce para servirle", "name", "Maria de la Luz Arce"),
        ("Ida Brandt but put it under my landlord", "name", "Ida Brandt"),
        ("mi hija se llama Yadira, ella abre", None, None),
        ("Washer again. third time", None, None),
        ("name on it is Quillmark", None, None),
    ],
)
def test_a_name_is_told_in_many_forms(text: str, asked: str | None, name: str | None) -> None:
    assert read(text, asked)["facts"].get("name") == name


@pytest.mark.parametrize(
    "text",
    [
        "move it to the 14th please",
        "vengan el viernes si pueden, el refri tira agua",
        "it broke monday night. i work so please only after 3pm",
        "not monday, not tues, wed after lunch is good",
        "could u come before 230",
        "can we make it 2 instead",
        "do not send him today. next wk",
        "puede ser el 15?",
        "can you come before thanksgiving",
        "washer leaks. mornings are best",
    ],
)
def test_a_time_that_is_asked_for_is_a_wish(text: str) -> None:
    assert read(text)["facts"].get("wish")


@pytest.mark.parametrize(
    "text",
    [
        "frost 3/8 thick on the back wall",
        "burner dead after the wife cleaned it saturday",
        "your guy put in new feet friday and it walks worse",
        "what am I paying for, the oven runs hot",
        "it trips the breaker 5 times this week",
        "nos cambiamos el sabado y el congelador no prende",
        "whats the guys name coming tmrw",
        "charco bajo el refri todas las mañanas",
        "three from four burners wont light",
        "please dont call before 9, the dryer is dead",
        "can it wait til next week, fridge is icing up",
        "your tech came tuesday and it broke again wednesday",
    ],
)
def test_a_time_of_the_story_is_no_wish(text: str) -> None:
    assert "wish" not in read(text)["facts"]


OFFERS = ("Tue 9-11", "Wed 1-3")


@pytest.mark.parametrize(
    ("text", "asked", "kind"),
    [
        ("mm hm", "yes_no", "yes"),
        ("no wait yes", "yes_no", "yes"),
        ("sí, el de arriba sigue duro", "yes_no", "yes"),
        ("no mames si", "yes_no", "yes"),
        ("i am not sure sorry", "yes_no", "dont_know"),
        ("pos quien sabe", "yes_no", "dont_know"),
        ("i cant see under there", "yes_no", "dont_know"),
        ("maybe yes, maybe no", "yes_no", "dont_know"),
        ("i must decline", "yes_no", "declined"),
        ("ni en pintura", "yes_no", "no"),
        ("de gas butano oiga del tanque de afuera", "fuel", "value"),
        ("electrica de esas de espiral", "fuel", "value"),
        ("the window between one and three is acceptable", "offer", "choice"),
        ("la de la tarde", "offer", "choice"),
        ("las dos me quedan", "offer", "either"),
        ("not the 3rd or 4th. the 5th works", "offer", "value"),
        ("none of those, im out of town", "offer", "none"),
    ],
)
def test_answers_are_told_in_many_forms(text: str, asked: str, kind: str) -> None:
    answer = read(text, asked, OFFERS if asked == "offer" else ())["answer"]
    assert answer is not None
    assert answer["kind"] == kind
