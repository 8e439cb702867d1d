"""Searching the desk: numbers however written, names and texts with accents forgiven, no sign with a meaning of its own."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import Connection, Engine, update

from service.storage.desk import list_tickets, talks_without_ticket
from service.storage.engine import writing
from service.storage.tables import messages, threads
from tests.conftest import Clock
from tests.pages import makers


@pytest.fixture
def desk(engine: Engine, clock: Clock) -> Iterator[Connection]:
    with writing(engine) as connection:
        makers.fill(connection, clock())
        yield connection


def found(connection: Connection, search: str) -> list[int]:
    return sorted(row.number for row in list_tickets(connection, "demo", closed=None, search=search))


@pytest.mark.parametrize(
    "written",
    [
        "(505) 555-0143", "505.555.0143", "505-555-0143", "555 0143", "555-0143", "5550143", "+1 505 555 0143",
        "1 (505) 555-0143", "0143",
    ],
)  # fmt: skip
def test_a_number_is_found_however_it_is_written(desk: Connection, written: str) -> None:
    assert found(desk, written) == [1002]


@pytest.mark.parametrize(
    ("written", "number"),
    [
        ("lujan", 1001), ("LUJÁN", 1001), ("Luján maria", 1001), ("tambien se llena", 1003), ("también", 1003),
        ("cholla wren", 1001), ("418 87111", 1001), ("gate 0420", 1001), ("still water in the bottom", 1001),
        ("cleaned filter already", 1001), ("calder", 1001), ("#1003", 1003), ("slow drain", 1001),
    ],
)  # fmt: skip
def test_names_places_and_texts_are_found(desk: Connection, written: str, number: int) -> None:
    assert found(desk, written) == [number]


@pytest.mark.parametrize("written", ["%", "_", "%%", "a%", "l_jan", "\\", "opened_at", "'", '"'])
def test_no_sign_stands_for_others(desk: Connection, written: str) -> None:
    assert found(desk, written) == []


def test_a_sign_that_was_written_is_found(desk: Connection) -> None:
    desk.execute(
        update(messages).where(messages.c.thread == "thsam").values(text="it lost 100% of the water, code e_4")
    )
    assert found(desk, "100%") == [1002]
    assert found(desk, "e_4") == [1002]


def test_a_conversation_without_a_ticket_is_found_long_after(desk: Connection, clock: Clock) -> None:
    desk.execute(update(threads).where(threads.c.id == "thbo").values(last_in_at=clock()))
    clock.forward(days=40)
    for written in ("(505) 555-0145", "hey there"):
        assert [talk.id for talk in talks_without_ticket(desk, "demo", clock(), search=written)] == ["thbo"]
    assert "thbo" not in [talk.id for talk in talks_without_ticket(desk, "demo", clock(), search="nobody wrote so")]
