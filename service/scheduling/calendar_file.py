"""A visit as a calendar file for office and technician: RFC 5545, published or cancelled as RFC 5546 wants it."""

from __future__ import annotations

from datetime import UTC, datetime
from uuid import UUID

from icalendar import Calendar, Event, vCalAddress, vText

from service.rulebook.schema.shop import Shop

PRODUCT = "-//Plainfault//visits//EN"
LINE_OCTETS = 75
"""Source A1; the space that begins a continued line counts."""


def visit_file(
    shop: Shop,
    *,
    uid: str,
    sequence: int,
    start: datetime,
    end: datetime,
    stamp: datetime,
    summary: str,
    description: str = "",
    location: str = "",
    cancelled: bool = False,
) -> bytes:
    """
    The bytes of an ``.ics`` file with one visit.

    *uid*: the visit's own random UUID, the same through all its changes (source A8: it says nothing of anybody).
    *sequence*: 0 when booked, one more with each move and with the cancellation (A5). *start*, *end*, *stamp*: aware;
    written in UTC, so that no zone table is needed (A3). *stamp*: when this version was made. *cancelled* makes it a
    CANCEL (A7), otherwise a PUBLISH: an organizer, no attendees (A6). Lines are folded and text escaped (A1, A2).

    Raises ValueError for a uid that is no UUID, a negative sequence or a window that does not end after it starts.
    """
    if sequence < 0 or end <= start:
        raise ValueError(f"visit {uid}: sequence {sequence} must not be negative, and {end} must come after {start}.")
    event = Event()
    event.add("uid", str(UUID(uid)))
    event.add("dtstamp", stamp.astimezone(UTC))
    event.add("sequence", sequence)
    event.add("status", "CANCELLED" if cancelled else "CONFIRMED")
    event.add("dtstart", start.astimezone(UTC))
    event.add("dtend", end.astimezone(UTC))
    event.add("summary", summary)
    for name, value in (("description", description), ("location", location)):
        if value:
            event.add(name, value)
    event.add("organizer", _organizer(shop), encode=False)
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "CANCEL" if cancelled else "PUBLISH")
    calendar.add_component(event)
    return _folded(calendar.to_ical())


def _folded(written: bytes) -> bytes:
    """The file with each line broken as late as RFC 5545 3.1 allows, which the library does an octet early."""
    lines: list[str] = []
    for line in written.replace(b"\r\n ", b"").decode().split("\r\n"):
        octets = 0
        lines.append("")
        for character in line:
            size = len(character.encode())
            if octets + size > LINE_OCTETS:
                lines.append(" ")
                octets = 1
            lines[-1] += character
            octets += size
    return "\r\n".join(lines).encode()


def _organizer(shop: Shop) -> vCalAddress:
    """The shop: by e-mail if its file has one, else by its office phone (RFC 3966)."""
    organizer = vCalAddress(f"mailto:{shop.email}" if shop.email else f"tel:{shop.office_phone}")
    organizer.params["cn"] = vText(shop.name)
    return organizer
