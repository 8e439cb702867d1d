"""May this text still go out? Asked when a sender takes it, for much may have happened since it was written."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import phonenumbers
from phonenumbers import timezone as number_zones

from service.rulebook.schema.shop import Shop
from service.scheduling.hours import next_quiet_end
from service.storage.leases import Leased
from service.storage.outbox import ALWAYS_GOES

PAUSE_LOOK_S = 60
"""A paused shop's texts are looked at again after this long, seconds."""


@dataclass(frozen=True, slots=True)
class Go:
    """Send it."""


@dataclass(frozen=True, slots=True)
class Later:
    """Not now: look again at *at*."""

    at: datetime
    why: str


@dataclass(frozen=True, slots=True)
class Drop:
    """Never: *why* is kept with the row."""

    why: str


Look = Go | Later | Drop


def look_again(row: Leased, shop: Shop, now: datetime) -> Look:
    """Consent, a person at the thread, a pause, its time, its visit, quiet hours; danger and consent pass them all."""
    if row.kind in ALWAYS_GOES:
        return Go()
    if row.consent == "out":
        return Drop("they asked for no more texts")
    if row.held_by and row.author == "line":
        return Drop("a person holds the conversation")
    if row.not_after and now > row.not_after:
        return Drop("too late to be said")
    if row.visit and row.visit_now != row.visit_version:
        return Drop("the visit it speaks of has changed")
    if row.paused:
        return Later(now + timedelta(seconds=PAUSE_LOOK_S), "the shop is paused")
    if row.kind == "started":
        allowed = allowed_from(shop, row.number, now)
        if allowed > now:
            return Later(allowed, "quiet hours")
    return Go()


def allowed_from(shop: Shop, number: str, now: datetime) -> datetime:
    """
    The first moment from *now* on at which a text we begin may go to *number* (sources T5, T12).

    By the shop's zone and by those of the number's area code: people keep their numbers when they move, so only what is
    allowed in all of them is safe.
    """
    zones = _zones(number)
    moment = now
    for _ in range(8):  # two zones push each other on at most a few times; a bound, should a shop's hours never meet
        latest = max((next_quiet_end(shop, moment, zone) for zone in (None, *zones)), default=moment)
        if latest <= moment:
            return moment
        moment = latest
    return moment


def _zones(number: str) -> tuple[ZoneInfo, ...]:
    try:
        names = number_zones.time_zones_for_number(phonenumbers.parse(number))
    except phonenumbers.NumberParseException:
        return ()
    # A number that is good all over the country tells nothing about where its owner is.
    if len(names) > 2:
        return ()
    zones = []
    for name in names:
        try:
            zones.append(ZoneInfo(name))
        except (ZoneInfoNotFoundError, ValueError):
            continue
    return tuple(zones)
