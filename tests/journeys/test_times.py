"""Times in their words: what is moved and to when, questions about times, an hour in a window, days that are full."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from service.conversation.step import Move
from service.scheduling.model import Diary
from tests.journeys.line import Line

ZONE = ZoneInfo("America/Denver")
TODAY = date(2026, 12, 1)


class FullOn(Line):
    """A line of a shop whose technicians have no room left on some days."""

    full: tuple[date, ...] = ()

    @property
    def diary(self) -> Diary:
        whole = tuple(
            (who.id, datetime(d.year, d.month, d.day, tzinfo=ZONE), datetime(d.year, d.month, d.day, 23, tzinfo=ZONE))
            for d in self.full
            for who in self.rulebook.shop.technicians
        )
        return Diary(booked=super().diary.booked, versions={}, blocked=whole)


def offered(machine: str = "dryer wont start", *, full: tuple[date, ...] = ()) -> FullOn:
    """A line on which windows stand open."""
    line = FullOn()
    line.full = full
    line.text(machine)
    line.text("just send someone")
    line.text("5 Ivy ct 87110")
    line.talk({}, until="offer")
    assert line.state.asked is not None
    return line


def booked(*, at_the_door: bool = True) -> FullOn:
    """A line on which a visit stands today from 1 to 3; *at_the_door*: name and way in are told."""
    line = offered()
    line.text("1")
    assert line.day_of_visit() == TODAY
    line.text("Bob")
    if at_the_door:
        line.text("no")
    return line


def starts(line: Line) -> list[datetime]:
    """The windows on offer, in the shop's time."""
    return [o.start.astimezone(ZONE) for o in line.ticket.offers]


# What is moved, and to when


@pytest.mark.parametrize(
    "words",
    [
        "run late today, can you move it to tomorrow",
        "can you move it from today to tomorrow",
        "something came up today, need to reschedule to tomorrow",
        "hoy no puedo, puede cambiar la cita para mañana",
        "need to move my tuesday appointment to wednesday",
    ],
)
def test_a_visit_is_moved_to_the_day_they_ask_for_whatever_is_said_of_its_own_day(words: str) -> None:
    line = booked()
    line.text(words)
    assert {s.date() for s in starts(line)} == {TODAY + timedelta(days=1)}
    line.text("1")
    assert line.day_of_visit() == TODAY + timedelta(days=1)


@pytest.mark.parametrize("words", ["i need to reschedule", "can we do another time", "puedo cambiar la cita"])
def test_the_window_that_stands_is_never_offered_as_the_new_one(words: str) -> None:
    line = booked()
    stood = line.book.start
    line.text(words)
    assert starts(line)
    assert stood not in [o.start for o in line.ticket.offers]


def test_who_only_says_that_its_day_will_not_do_is_offered_other_days() -> None:
    line = booked()
    line.text("i cant make it today after all, can we reschedule")
    assert TODAY not in {s.date() for s in starts(line)}


def test_a_visit_is_never_moved_to_the_time_it_has() -> None:
    line = booked()
    stands = line.book
    line.text("can you move it to tomorrow")
    offer = line.ticket.offers[0].model_copy(update={"start": stands.start, "end": stands.end})
    ticket = line.ticket.model_copy(update={"offers": (offer,)})
    line.state = line.state.model_copy(update={"tickets": (ticket,)})
    line.text("1")
    assert not any(isinstance(change, Move) for change in line.last.diary)
    assert "Moved" not in line.said
    assert "stays" in line.said


# A question is no yes


@pytest.mark.parametrize(
    "words",
    [
        "whens the earliest",
        "whats the soonest you can come?",
        "when is the earliest you can come",
        "ok so whens the earliest",
        "cuál es la más temprana",
        "tomorrow at 8?",
        "can you come today",
        "do you have anything today",
        "the first one?",
        "could you do tomorrow morning",
        "pueden venir hoy?",
        "would 1 be ok?",
        "is it possible to come today",
    ],
)
def test_a_question_books_nothing_and_a_time_it_names_is_offered(words: str) -> None:
    line = offered()
    line.text(words)
    assert not line.visits
    assert line.state.asked is not None
    assert line.state.asked.kind == "offer"
    assert starts(line)


@pytest.mark.parametrize(
    ("words", "yes"), [("whens the earliest", "yes"), ("cuál es la más temprana", "sí"), ("what's the soonest?", "ok")]
)
def test_who_asks_for_the_earliest_is_told_it_and_books_it_with_a_yes(words: str, yes: str) -> None:
    line = offered()
    line.text(words)
    assert [s.date() for s in starts(line)] == [TODAY]
    line.text(yes)
    assert line.day_of_visit() == TODAY


@pytest.mark.parametrize(
    "words", ["1, how much is it?", "the first one works. what does it cost?", "1 what do you charge"]
)
def test_a_choice_beside_a_question_is_still_a_choice(words: str) -> None:
    line = offered()
    line.text(words)
    assert line.day_of_visit() == TODAY


# While the door is asked about


@pytest.mark.parametrize(
    ("words", "after"),
    [("can you come an hour later", 13), ("can you come at 4 instead", 13), ("puede venir más tarde", 13)],
)
@pytest.mark.parametrize("asked", ["access", "name"])
def test_another_time_is_no_note_on_how_to_get_in_and_no_name(words: str, after: int, asked: str) -> None:
    line = offered("dishwasher wont drain")
    line.text("1")
    if asked == "access":
        line.text("Bob")
    assert line.state.asked is not None
    assert line.state.asked.kind == asked
    line.text(words)
    assert line.state.contact.access == ()
    assert line.state.contact.name in (None, "Bob")
    assert line.state.asked.kind == "offer"
    assert (starts(line)[0].date(), starts(line)[0].hour > after) == (TODAY, True)
    line.text("1")
    assert line.book.start.astimezone(ZONE).hour > after
    assert line.state.asked is not None
    assert line.state.asked.kind == asked


def test_another_day_while_the_way_in_is_asked_is_a_change_of_the_visit() -> None:
    line = booked(at_the_door=False)
    line.text("actually can you come thursday")
    assert line.state.contact.access == ()
    assert {s.date() for s in starts(line)} == {date(2026, 12, 3)}


@pytest.mark.parametrize(
    "words", ["gate code 4411, dog is in the yard", "call when you are here, im home all day today"]
)
def test_a_note_on_the_way_in_stays_one(words: str) -> None:
    line = booked(at_the_door=False)
    line.text(words)
    assert line.state.contact.access
    assert not line.ticket.offers


def test_earlier_is_before_the_window_that_stands() -> None:
    line = offered()
    line.text("3")
    stood = line.book.start
    line.text("Bob")
    line.text("can you come earlier")
    assert starts(line)[0] < stood
    assert starts(line)[0].date() == stood.astimezone(ZONE).date()


def test_who_wants_no_other_time_after_all_keeps_the_visit() -> None:
    line = booked()
    line.text("can you move it to tomorrow")
    line.text("no thanks, dont want it")
    assert line.ticket.open
    assert line.day_of_visit() == TODAY
    assert "stays" in line.said


# An hour in a window


@pytest.mark.parametrize(
    ("machine", "words"),
    [
        ("dryer wont start", "friday 2pm"),
        ("hood makes loud rattle", "friday 2pm"),
        ("dryer wont start", "el viernes a las 2"),
        ("hood makes loud rattle", "el viernes a las 2 de la tarde"),
        ("dryer wont start", "friday around 2:30 pm"),
    ],
)
def test_one_hour_fits_the_window_that_holds_it(machine: str, words: str) -> None:
    line = offered(machine)
    line.text(words)
    assert [(s.date(), s.hour) for s in starts(line)] == [(date(2026, 12, 4), 13)]
    assert "Nothing is free" not in line.said


@pytest.mark.parametrize(
    "words", ["friday after 2", "friday from 2 on", "friday 2pm or later", "el viernes después de las 2"]
)
def test_from_an_hour_on_begins_no_earlier(words: str) -> None:
    line = offered("hood makes loud rattle")
    line.text(words)
    assert {s.hour for s in starts(line)} == {15}


@pytest.mark.parametrize("words", ["friday before 2", "friday by 2pm", "el viernes antes de las 2"])
def test_by_an_hour_ends_by_then(words: str) -> None:
    line = offered("hood makes loud rattle")
    line.text(words)
    assert starts(line)
    assert all(s.hour < 13 for s in starts(line))


# Days that are full


def test_after_a_full_day_come_the_days_behind_it_and_never_today() -> None:
    line = offered(full=(date(2026, 12, 7),))
    line.text("monday")
    assert "Nothing is free then" in line.said
    assert starts(line)[0].date() == date(2026, 12, 8)
    assert all(s.date() > TODAY for s in starts(line))


def test_tomorrow_full_does_not_bring_today() -> None:
    line = offered(full=(date(2026, 12, 2),))
    line.text("can you do tomorrow")
    assert starts(line)[0].date() == date(2026, 12, 3)
    assert TODAY not in {s.date() for s in starts(line)}


# When it is


@pytest.mark.parametrize(
    "words",
    [
        "what time again",
        "when are you coming",
        "a que hora era",
        "what time was it again?",
        "when is it",
        "what day was that",
        "remind me what time",
        "qué día era",
        "cuándo es",
    ],
)
@pytest.mark.parametrize("moment", ["name", "access", "done", "moving"])
def test_when_the_visit_is_is_told_at_any_point_while_it_stands(words: str, moment: str) -> None:
    line = booked(at_the_door=moment in ("done", "moving")) if moment != "name" else offered()
    if moment == "name":
        line.text("1")
    if moment == "moving":
        line.text("can you move it to tomorrow")
    before = line.state.contact
    asked = line.state.asked
    line.text(words)
    assert "1 to 3 pm" in line.said or "de 1 a 3 pm" in line.said, line.said
    assert "1 Dec" in line.said or "1 dic" in line.said
    assert line.state.contact == before
    assert (line.state.asked is None) == (asked is None)
    assert line.day_of_visit() == TODAY
