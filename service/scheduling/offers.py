"""Which windows to offer: those a technician can keep, nearest the wish, with the least added travel."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from service.rulebook.schema.shop import Shop, Technician
from service.scheduling.hours import local_moment, open_on, zone_of
from service.scheduling.model import Diary, Job, Offer, Offers, Wished
from service.scheduling.technician_day import StandingDay, planned_minutes, standing_day, works_on
from service.scheduling.wishes import NOON, allows, binds, distance

WAIT_PRICE_MIN = 4.0
"""What a day of waiting weighs against travel minutes: a near route in two weeks is no better than a detour tomorrow."""
LANGUAGE_PRICE_MIN = 20.0
"""What a technician who does not speak the customer's language weighs against travel minutes."""


@dataclass(slots=True)
class _Days:
    """The technicians' days as they stand, worked out once each."""

    shop: Shop
    diary: Diary
    moving: str | None
    known: dict[tuple[str, date], StandingDay | None] = field(default_factory=dict)

    def of(self, technician: Technician, day: date) -> StandingDay | None:
        key = (technician.id, day)
        if key not in self.known:
            self.known[key] = standing_day(self.shop, self.diary, technician, day, self.moving)
        return self.known[key]


def find_offers(
    shop: Shop,
    diary: Diary,
    job: Job,
    wish: Wished | None,
    now: datetime,
    *,
    language: str = "en",
    count: int = 3,
    moving: str | None = None,
) -> Offers:
    """
    Up to *count* windows for *job*, best first, no two in the same half-day.

    With a *wish* only windows that fit it; when none does, the nearest ones and ``fits_wish`` False. Ranked by added
    travel, days of waiting and language; by time when the wish is "as soon as possible". *moving*: a visit that is
    to get another window and does not stand in its own way. Nothing is held: ``still_free`` looks again.
    """
    able = [technician for technician in shop.technicians if job.skills <= set(technician.skills)]
    if not able:
        missing = ", ".join(sorted(job.skills))
        return Offers((), not binds(wish), f"no technician has all the skills this needs: {missing}")
    days = _Days(shop, diary, moving)
    windows = list(_windows(shop, able, now))
    fitting = [window for window in windows if allows(wish, window[1], window[2], now)]
    keep = _priced(days, job, fitting)
    if keep or not binds(wish):
        why = "" if keep else f"no technician has room within {shop.windows.days_ahead} days"
        return Offers(_choose(keep, wish, now, language, count, shop), True, why)
    assert wish is not None  # noqa: S101 - a wish that binds is one
    keep = _priced(days, job, windows)
    why = (
        "none of the windows asked for can be kept; the nearest instead" if keep else "no room, as wished or otherwise"
    )
    near = _choose(keep, wish, now, language, count, shop, near=True)
    return Offers(near, False, why)


def still_free(shop: Shop, diary: Diary, job: Job, offer: Offer, now: datetime, *, moving: str | None = None) -> bool:
    """
    Whether *offer* can still be kept with the diary as it is now.

    Half the shop's lead time is enough here, so that an offer does not lapse while the customer types.
    """
    technician = next((t for t in shop.technicians if t.id == offer.technician), None)
    if technician is None or not job.skills <= set(technician.skills):
        return False
    if offer.start < now + timedelta(minutes=shop.windows.lead_min / 2):
        return False
    start, end = offer.start.astimezone(zone_of(shop)), offer.end.astimezone(zone_of(shop))
    if not _within_hours(shop, technician, start, end):
        return False
    day = standing_day(shop, diary, technician, start.date(), moving)
    return day is not None and day.added_travel(job, start, end) is not None


def _windows(shop: Shop, able: list[Technician], now: datetime) -> Iterator[tuple[Technician, datetime, datetime]]:
    """Every window of every able technician within the shop's days ahead, hours, days off and lead time."""
    zone = zone_of(shop)
    today = now.astimezone(zone).date()
    soonest = now + timedelta(minutes=shop.windows.lead_min)
    for ahead in range(shop.windows.days_ahead + 1):
        day = today + timedelta(days=ahead)
        for starts in shop.windows.starts:
            start = local_moment(day, starts, zone)
            end = _after(start, shop.windows.minutes)
            if start < soonest:
                continue
            for technician in able:
                if _within_hours(shop, technician, start, end):
                    yield technician, start, end


def _within_hours(shop: Shop, technician: Technician, start: datetime, end: datetime) -> bool:
    hours, work = open_on(shop, start.date()), works_on(shop, technician, start.date())
    if hours is None or work is None:
        return False
    return max(hours[0], work[0]) <= start and end <= min(hours[1], work[1])


def _after(start: datetime, minutes: int) -> datetime:
    """*minutes* of real time after *start*, shown by the same clock."""
    return (start.astimezone(UTC) + timedelta(minutes=minutes)).astimezone(start.tzinfo)


def _priced(days: _Days, job: Job, windows: list[tuple[Technician, datetime, datetime]]) -> list[Offer]:
    """The windows that can be kept, each with the travel it adds."""
    planned = planned_minutes(days.shop, job)
    offers = []
    for technician, start, end in windows:
        day = days.of(technician, start.date())
        added = None if day is None else day.added_travel(job, start, end)
        if added is not None:
            offers.append(Offer(technician.id, start, end, planned, float(added)))
    return offers


def _choose(
    keep: list[Offer], wish: Wished | None, now: datetime, language: str, count: int, shop: Shop, *, near: bool = False
) -> tuple[Offer, ...]:
    """The best of *keep*, one per half-day. *near*: what is nearest the wish comes before what costs least."""
    speaks = {technician.id: language in technician.language for technician in shop.technicians}
    today = now.astimezone(zone_of(shop)).date()

    def rank(offer: Offer) -> tuple[float, float, datetime, str]:
        price = offer.cost_min + (0 if speaks[offer.technician] else LANGUAGE_PRICE_MIN)
        far = distance(wish, offer.start, offer.end, now) if near and wish is not None else 0.0
        if wish is not None and wish.soonest:
            far += (offer.start - now).total_seconds() / 60
        else:
            price += WAIT_PRICE_MIN * (offer.start.date() - today).days
        return far, price, offer.start, offer.technician

    chosen: dict[tuple[date, bool], Offer] = {}
    for offer in sorted(keep, key=rank):
        chosen.setdefault((offer.start.date(), offer.start.time() < NOON), offer)
        if len(chosen) == count:
            break
    return tuple(chosen.values())
