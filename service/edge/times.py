"""How gateways write moments, and how they are read: what cannot be read is no moment, never an error."""

from __future__ import annotations

from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from typing import Annotated
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import AfterValidator

NAMED = ("iso", "unix", "unix_ms", "http")


def _known_time(written: str) -> str:
    if written in NAMED:
        return written
    if "%" not in written:
        raise ValueError(f'"{written}" is no way to write a time; write iso, unix, unix_ms, http or a pattern')
    if not any(year in written for year in ("%Y", "%y", "%c", "%x")):
        raise ValueError(f'the pattern "{written}" has no year; write %Y or %y where it stands')
    try:
        datetime.strptime(datetime(2026, 11, 25, tzinfo=UTC).strftime(written), written).replace(tzinfo=UTC)
    except ValueError as wrong:
        raise ValueError(f'the pattern "{written}" cannot be read; use the signs %Y %m %d %H %M %S %z %p') from wrong
    return written


def _known_zone(zone: str) -> str:
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError) as wrong:
        raise ValueError(f'"{zone}" is no time zone; write one such as America/Denver or UTC') from wrong
    return zone


def _known_pattern(written: str) -> str:
    if written in NAMED:
        raise ValueError("write a pattern such as %Y%m%d%H%M%S; {time_unix}, {time_unix_ms} and {time_iso} need none")
    return _known_time(written)


TimeWritten = Annotated[str, AfterValidator(_known_time)]
"""``iso``, ``unix``, ``unix_ms``, ``http`` (as in HTTP and mail headers), or a pattern of the signs of ``strptime``."""

TimePattern = Annotated[str, AfterValidator(_known_pattern)]
"""A pattern alone."""

ZoneName = Annotated[str, AfterValidator(_known_zone)]
"""A time zone's name in the IANA list."""


def time_of(found: str, written: str, zone_name: str) -> datetime | None:
    """The moment *found* names; None when it is empty or nobody can read it: the text matters more than its time."""
    if not found:
        return None
    zone = ZoneInfo(zone_name)
    try:
        if written in ("unix", "unix_ms"):
            return datetime.fromtimestamp(float(found) / (1000 if written == "unix_ms" else 1), UTC)
        if written == "iso":
            at = datetime.fromisoformat(found)
        elif written == "http":
            at = parsedate_to_datetime(found)
        else:
            at = _by_pattern(found, written, zone)
        return (at.replace(tzinfo=zone) if at.tzinfo is None else at).astimezone(UTC)
    except (ValueError, TypeError, OverflowError, OSError):
        return None


def _by_pattern(found: str, pattern: str, zone: ZoneInfo) -> datetime:
    at = datetime.strptime(found, pattern)  # noqa: DTZ007 - the zone is added below, if the pattern has none
    return at.replace(tzinfo=at.tzinfo or zone)
