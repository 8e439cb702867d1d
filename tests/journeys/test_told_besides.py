"""What is told beside the question that stands open is taken, thanked for, and never met with the same words again."""

from __future__ import annotations

from datetime import time
from zoneinfo import ZoneInfo

import pytest

from tests.journeys.line import Line, told

ENGLISH = ("my dryer squeals, just send somebody", "dont know", "410 Cholla Bend NE 87110")
SPANISH = ("mi secadora rechina, nomas manden a alguien", "no se", "410 Cholla Bend NE 87110")


def offered(line: Line) -> list[tuple[time, time]]:
    zone = ZoneInfo(line.rulebook.shop.timezone)
    return [(o.start.astimezone(zone).time(), o.end.astimezone(zone).time()) for o in line.ticket.offers]


@pytest.mark.parametrize(
    ("texts", "begins"),
    [
        (
            ("my dryer wont heat", "i'm at 410 Cholla Bend NE"),
            "Got the address, thanks. Back to the dryer, the number is enough:\n1 Electric",
        ),
        (("my dryer wont heat", "87110"), "Got the ZIP, thanks. Back to the dryer, the number is enough:\n1 Electric"),
        (("my dryer squeals", "87110"), "Got the ZIP, thanks. Back to the dryer, the number is enough:\n1 All"),
        (("my dryer wont heat", "this is Priya Nolan btw"), "Got your name, thanks."),
        (("my dryer wont heat", "the number is 505-555-0133"), "Got the phone number, thanks."),
        (("my fridge is warm", "505-555-0142 is my number"), "Got the phone number, thanks."),
        (("my fridge is warm", "name is under priya nolan"), "Got your name, thanks."),
        (
            ("mi lavadora no exprime", "vivo en 410 Cholla Bend NE"),
            "Ya tengo el domicilio, gracias. Falta un dato (lavadora), elija una respuesta:\n1",
        ),
        (("mi secadora no calienta", "87110"), "Ya tengo el ZIP, gracias."),
        (("my dryer squeals, just send somebody", "before 11 or after 3"), "Noted when it suits you. What ZIP"),
    ],
)
def test_what_was_told_is_named_before_the_question_is_put_again(texts: tuple[str, ...], begins: str) -> None:
    assert told(*texts).said.startswith(begins)


@pytest.mark.parametrize(
    "texts",
    [
        ("my dryer wont heat", "i'm at 410 Cholla Bend NE"),
        ("my washer wont drain", "87110"),
        ("my dryer squeals", "its Priya Nolan"),
        ("dishwasher", "505-555-0133"),
        ("mi lavadora no desagua", "410 Cholla Bend NE 87110"),
        ("mi secadora rechina", "soy Lupe"),
        ("se me descompuso la lavadora", "87110"),
    ],
)
def test_a_question_is_gone_back_to_and_not_put_in_the_same_words(texts: tuple[str, str]) -> None:
    line = told(texts[0])
    before, asked = line.said.split("STOP", 1)[1], line.state.asked
    after = " ".join(line.text(texts[1]))
    assert asked is not None
    assert line.state.asked is not None
    assert (line.state.asked.code, line.state.asked.choices) == (asked.code, asked.choices)
    assert all(f"{n} {say}" in after for n, (_, say) in enumerate(asked.choices, start=1))
    question = before.partition("\n")[0].rpartition(". ")[2]
    assert not asked.choices or question not in after


def test_a_number_answers_a_question_that_was_gone_back_to() -> None:
    line = told("my dryer wont heat", "i'm at 410 Cholla Bend NE 87110", "2")
    assert line.ticket.observations["heat_kind"] == "gas"
    line = told("mi secadora no calienta", "87110", "la 1")
    assert line.ticket.observations["heat_kind"] == "electric"


@pytest.mark.parametrize(
    ("opening", "text"),
    [
        (ENGLISH, "before 11 or after 3"),
        (ENGLISH, "either before 11 or after 3 works"),
        (ENGLISH, "after 3 or before 11 please"),
        (SPANISH, "antes de las 11 o despues de las 3"),
        (SPANISH, "puede ser antes de las 11 o ya despues de las 3"),
    ],
)
def test_windows_of_either_stretch_are_offered(opening: tuple[str, ...], text: str) -> None:
    line = told(*opening[:1], *opening[1:2], text, *opening[2:])
    hours = offered(line)
    assert all(end <= time(11) or start >= time(15) for start, end in hours)
    assert {start < time(12) for start, _ in hours} == {True, False}


@pytest.mark.parametrize(
    ("opening", "text"),
    [
        (ENGLISH, "i work 8 to 4, anything after?"),
        (ENGLISH, "im at work 9-5. got anything later"),
        (SPANISH, "trabajo de 8 a 4, algo despues?"),
        (SPANISH, "mi turno es de 8 a 4, hay algo despues?"),
    ],
)
def test_working_hours_are_no_wish_but_the_hours_behind_them(opening: tuple[str, ...], text: str) -> None:
    line = told(*opening, text)
    assert line.ticket.visit is None
    assert all(end > time(16) for _, end in offered(line))


def test_working_hours_told_while_something_else_is_asked_are_kept() -> None:
    line = told(ENGLISH[0], "i work 8 to 4, anything after?")
    assert line.ticket.wish is not None
    assert line.ticket.wish.start == time(16)
    assert line.ticket.needs_person is None


@pytest.mark.parametrize(
    ("opening", "text", "name"),
    [
        (ENGLISH, "the first one, priya n", "priya n"),
        (ENGLISH, "1 - priya nolan", "priya nolan"),
        (ENGLISH, "2, mike", "mike"),
        (ENGLISH, "priya nolan, the first one", "priya nolan"),
        (SPANISH, "la 2, soy chuy", "chuy"),
        (SPANISH, "la primera, a nombre de lupe", "lupe"),
    ],
)
def test_a_name_in_small_letters_beside_the_window_is_the_name(opening: tuple[str, ...], text: str, name: str) -> None:
    line = told(*opening, text)
    assert line.ticket.visit is not None
    assert line.state.contact.name == name
    assert line.state.asked is not None
    assert line.state.asked.kind == "access"


@pytest.mark.parametrize("text", ["the first one, thx alot", "2, see you then", "la 2, alli estare", "1, no rush"])
def test_what_is_no_name_is_none(text: str) -> None:
    line = told(*ENGLISH, text)
    assert line.ticket.visit is not None
    assert line.state.contact.name is None


@pytest.mark.parametrize(
    ("opening", "text", "says"),
    [
        (ENGLISH, "the wed 8 one. its under warranty btw", "The office checks the warranty"),
        (ENGLISH, "the 8 one on wed, its under warranty", "The office checks the warranty"),
        (SPANISH, "la del miercoles a las 8. esta en garantia", "La oficina revisa"),
        (SPANISH, "mañana a las 8, esta en garantia", "La oficina revisa"),
        (SPANISH, "el miercoles a las 8, todavia tiene garantia", "La oficina revisa"),
        (SPANISH, "la 2, aun esta en garantia", "La oficina revisa"),
        (SPANISH, "miercoles a las 8 y todavia tiene garantia", "La oficina revisa"),
        (SPANISH, "la 2. sigue con garantia", "La oficina revisa"),
        (ENGLISH, "wed at 8, is still under warranty", "The office checks the warranty"),
        (ENGLISH, "2, still has warranty", "The office checks the warranty"),
        (ENGLISH, "the wed 8 one, warranty is still good", "The office checks the warranty"),
    ],
)
def test_a_warranty_told_beside_the_window_is_noted_and_the_window_booked(
    opening: tuple[str, ...], text: str, says: str
) -> None:
    line = told(*opening, text)
    assert line.ticket.visit is not None
    assert line.ticket.visit.start.astimezone(ZoneInfo(line.rulebook.shop.timezone)).hour == 8
    assert says in line.said
    assert line.ticket.needs_person == "asks about a warranty: settle who pays"
    assert line.state.contact.payer == "maker_warranty"


@pytest.mark.parametrize(
    ("opening", "text"),
    [
        (ENGLISH, "2, warranty ran out"),
        (ENGLISH, "2, no warranty anymore"),
        (SPANISH, "la 2, ya no tiene garantia"),
        (SPANISH, "la 2, sin garantia"),
    ],
)
def test_a_warranty_that_is_over_is_none(opening: tuple[str, ...], text: str) -> None:
    line = told(*opening, text)
    assert line.ticket.visit is not None
    assert line.state.contact.payer is None


@pytest.mark.parametrize(
    ("texts", "thanks"),
    [
        (("my washer leaks", "idk", "oh its a norvell"), "Thanks, that helps. What ZIP code is it in?"),
        (("my dryer wont heat", "no idea", "oh its gas"), "Thanks, that helps. What ZIP code is it in?"),
        (("mi secadora no calienta", "no se", "ah es una norvell"), "Gracias, eso ayuda."),
        ((*ENGLISH, "its a norvell"), "Thanks, that helps. Which time suits you?"),
        ((*ENGLISH, "2, Priya Nolan", "no", "oh its a norvell"), "Thanks, that helps."),
        ((*ENGLISH, "2", "oh its a norvell"), "Thanks, that helps. What name is the visit under?"),
    ],
)
def test_a_late_answer_is_kept_and_thanked_for(texts: tuple[str, ...], thanks: str) -> None:
    line = told(*texts)
    assert line.said.startswith(thanks)
    assert line.ticket.facts.get("brand", line.ticket.facts.get("fuel")) in ("norvell", "gas")


@pytest.mark.parametrize("text", ["asdkj qwe", "its a mess", "is it a doozy?", "ok"])
def test_not_every_word_is_a_maker(text: str) -> None:
    assert "brand" not in told("my washer leaks", "idk", text).ticket.facts


@pytest.mark.parametrize(
    ("text", "note"),
    [("no hay perro", "no hay perro"), ("no tengo perro", "no tengo perro"), ("hay perro", "hay perro")],
)
def test_a_dog_that_there_is_not_is_noted_as_none(text: str, note: str) -> None:
    assert told(*SPANISH, "2, soy chuy", text).state.contact.access == (note,)
