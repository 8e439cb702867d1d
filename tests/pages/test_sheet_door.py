"""The way in and whom to call: whole, in their words, and no name on somebody else's number."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from service.conversation.state import Contact
from service.pages.sheet.door import Door, door_of
from service.storage.desk import HeardRow

NOON = datetime(2026, 12, 1, 19, tzinfo=UTC)
WRITES, GIVEN = "+15055550124", "+15055550177"
STREET = "34 Juniper St"


def door(*texts: str, booked_after: int = 99, **contact: object) -> Door:
    heard = [HeardRow(f"m{n}", text, [], NOON + timedelta(minutes=n), "t") for n, text in enumerate(texts)]
    booked = NOON + timedelta(minutes=booked_after)
    return door_of(Contact.model_validate(contact), WRITES, heard, STREET, booked)


def calls(found: Door) -> list[tuple[str, str]]:
    return [(call.who, call.tel) for call in found.calls]


def test_what_no_reading_took_for_a_way_in_is_there_whole_from_the_address_on() -> None:
    found = door("runs but no heat", "34 juniper st 87106", "1", "codigo 9932", "porton azul, hay un perro", "ok")

    assert found.said == ("codigo 9932", "porton azul, hay un perro")


def test_what_was_written_once_the_visit_stood_is_there_though_the_address_was_phoned_in() -> None:
    assert door("no heat", "timbre no sirve, toque fuerte", booked_after=1).said == ("timbre no sirve, toque fuerte",)


def test_a_text_that_holds_a_way_in_is_there_before_the_address_too() -> None:
    found = door("it leaks, gate code 4471 btw", "yes", access=("gate code 4471",))

    assert found.said == ("it leaks, gate code 4471 btw",)
    assert found.on_file == ()


def test_what_is_on_file_from_before_is_told_apart() -> None:
    assert door("no heat", access=("gate code 0420",)).on_file == ("gate code 0420",)


@pytest.mark.parametrize(
    "text",
    [
        "Jenna Kowalczyk 505-555-0177", "please call Jenna Kowalczyk at 505-555-0177",
        "Jenna Kowalczyk will be there, her number is (505) 555-0177",
    ],
)  # fmt: skip
def test_the_number_told_with_a_name_is_called_by_that_name(text: str) -> None:
    found = door(text, name="Jenna Kowalczyk", phone=GIVEN)

    assert calls(found) == [("Jenna Kowalczyk", GIVEN), ("the phone that texts", WRITES)]


@pytest.mark.parametrize(
    "text",
    ["this is Bob Trent. please call Jenna at 505-555-0177", "her number is 505-555-0177", "Bob Trent. 505-555-0177"],
)
def test_a_number_that_may_be_somebody_elses_bears_no_name(text: str) -> None:
    found = door(text, name="Bob Trent", phone=GIVEN)

    assert calls(found) == [("the number they gave", GIVEN), ("the phone that texts", WRITES)]


def test_a_number_that_nothing_kept_is_offered_all_the_same() -> None:
    assert calls(door("call Jenna 505-555-0177", name="Jenna")) == [("Jenna", GIVEN), ("the phone that texts", WRITES)]


def test_one_number_is_offered_once_by_name() -> None:
    assert calls(door("no heat", name="Ana", phone=WRITES)) == [("Ana", WRITES)]


def test_a_name_that_is_known_is_no_way_in() -> None:
    found = door("34 juniper st 87106", "Maria Luján", "gate code is 0420", name="Maria Luján")

    assert found.said == ("gate code is 0420",)
