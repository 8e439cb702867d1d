"""Sources A1 to A8: RFC 5545, 5546 and 7986, with the icalendar 7.3.2 parser as the independent reader."""

from datetime import UTC, datetime
from uuid import UUID, uuid4
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from service.scheduling.calendar_file import visit_file
from tests.scheduling.shops import make_shop

SHOP = make_shop()
CHICAGO = ZoneInfo("America/Chicago")
UID = str(uuid4())
START = datetime(2026, 12, 3, 13, tzinfo=CHICAGO)
END = datetime(2026, 12, 3, 15, tzinfo=CHICAGO)
STAMP = datetime(2026, 11, 25, 16, tzinfo=UTC)


def made(**over):
    """A file's bytes."""
    values = {
        "uid": UID,
        "sequence": 0,
        "start": START,
        "end": END,
        "stamp": STAMP,
        "summary": "Dishwasher, drains slowly",
    }
    return visit_file(SHOP, **(values | over))


def event(data):
    """The file's calendar and only event, as icalendar parses them."""
    calendar = Calendar.from_ical(data)
    (only,) = calendar.walk("VEVENT")
    return calendar, only


def physical(data, name):
    """Octets of the physical lines of property *name*."""
    lines, inside = [], False
    for line in data.split(b"\r\n"):
        if line.startswith(name) or (inside and line.startswith(b" ")):
            lines.append(len(line))
            inside = True
        else:
            inside = False
    return lines


@pytest.mark.parametrize(
    ("name", "value", "octets"),
    [
        ("description", "a" * 63, [75]),
        ("description", "a" * 64, [75, 2]),
        ("summary", "é" * 33, [74]),
        ("summary", "é" * 34, [74, 3]),
    ],
)
def test_a_1_lines_fold_at_75_octets_and_never_inside_a_character(name, value, octets):
    data = made(**{name: value})
    assert physical(data, name.upper().encode()) == octets
    assert str(event(data)[1][name]) == value


@given(st.text(alphabet="aé💧 ,;:\\\nñ", min_size=1, max_size=300))
def test_a1_a2_any_text_comes_back_as_written_from_crlf_lines_of_75_octets(text):
    data = made(description="x" + text.strip("\n") + "x")
    lines = data.split(b"\r\n")
    assert lines[-1] == b""
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, lines)) <= 75
    for line in lines:
        line.decode("utf-8")
    assert str(event(data)[1]["description"]) == "x" + text.strip("\n") + "x"


def test_a2_the_published_escape_is_written():
    data = made(description="Washer, 2nd floor; leak\nPath C:\\x")
    assert rb"DESCRIPTION:Washer\, 2nd floor\; leak\nPath C:\\x" in data


@pytest.mark.parametrize(
    ("local", "written"),
    [
        (datetime(2026, 12, 3, 13, tzinfo=CHICAGO), b"DTSTART:20261203T190000Z"),
        (datetime(2026, 7, 2, 13, tzinfo=CHICAGO), b"DTSTART:20260702T180000Z"),
    ],
)
def test_a3_times_are_in_utc_and_need_no_zone_table(local, written):
    data = made(start=local, end=local.replace(hour=15))
    assert written in data
    assert b"TZID" not in data
    assert b"VTIMEZONE" not in data
    assert event(data)[1].start == local


def test_a4_the_required_properties_are_there():
    calendar, visit = event(made())
    assert calendar["version"] == "2.0"
    assert calendar["prodid"]
    assert visit["uid"] == UID
    assert visit["dtstamp"].dt == STAMP


def test_a5_booked_moved_cancelled_raise_the_sequence_under_one_uid():
    files = [made(), made(sequence=1, end=END.replace(hour=16)), made(sequence=2, cancelled=True)]
    visits = [event(data)[1] for data in files]
    assert [visit["sequence"] for visit in visits] == [0, 1, 2]
    assert len({visit["uid"] for visit in visits}) == 1
    assert [str(visit["status"]) for visit in visits] == ["CONFIRMED", "CONFIRMED", "CANCELLED"]


def test_a6_a_published_file_has_an_organizer_and_no_attendee():
    calendar, visit = event(made())
    assert calendar["method"] == "PUBLISH"
    assert visit["organizer"] == "mailto:office@test.example"
    assert "attendee" not in visit


def test_a7_a_cancelled_file_has_one_of_each_and_no_alarm_or_recurrence():
    data = made(sequence=2, cancelled=True)
    calendar, visit = event(data)
    assert calendar["method"] == "CANCEL"
    for name in (b"DTSTAMP", b"ORGANIZER", b"SEQUENCE", b"UID", b"STATUS"):
        assert data.count(b"\r\n" + name) == 1
    assert len(calendar.walk("VALARM")) == 0
    assert "recurrence-id" not in visit


def test_a8_the_uid_is_a_uuid_and_names_nobody():
    uid = str(event(made())[1]["uid"])
    assert str(UUID(uid)) == uid
    assert "@" not in uid
