"""Long texts that came in pieces, as the desk shows the talk."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from service.pages.desk.talk import Talk, build_talk
from service.storage.desk import HeardRow

AT = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)


def piece(number: int, turn: str | None, media: tuple[str, ...] = ()) -> HeardRow:
    at = AT + timedelta(seconds=9 - number)
    return HeardRow(f"m{number}", f"<{number}>", list(media), at, turn, whole="w", part=number, parts=3)


def talk(*rows: HeardRow) -> Talk:
    return build_talk(rows, (), {}, {}, customer="Caller", now=AT, zone=ZoneInfo("UTC"))


def test_pieces_read_together_are_one_text_in_order() -> None:
    other = HeardRow("o", "hello", [], AT, "t1")
    shown = talk(other, piece(3, "t2"), piece(2, "t2"), piece(1, "t2"))
    assert [(entry.text, entry.status) for entry in shown.entries] == [("hello", ""), ("<1><2><3>", "")]


def test_pieces_that_wait_say_what_they_wait_for() -> None:
    (entry,) = talk(piece(3, "part"), piece(1, "part")).entries
    assert (entry.text, entry.status) == ("<1> […] <3>", "2 of 3 parts; waits for the rest of it")
    (entry,) = talk(piece(3, "t2"), piece(1, "t2")).entries
    assert entry.status == "2 of 3 parts"
    (entry,) = talk(piece(1, None), piece(2, None), piece(3, None)).entries
    assert entry.status == "rests a moment before it is read"


def test_a_piece_read_before_the_others_stands_by_itself_and_so_does_one_with_a_picture() -> None:
    shown = talk(piece(2, "t1"), piece(3, "t2"), piece(1, "t2", media=("u",)))
    assert [(entry.text, bool(entry.pictures)) for entry in shown.entries] == [
        ("<3>", False),
        ("<2>", False),
        ("<1>", True),
    ]
