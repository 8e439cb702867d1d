"""Which time was chosen in the booking form, and why a technician cannot keep it: the reason that stands against it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from zoneinfo import ZoneInfo

from service.pages import words
from service.rulebook.model import Rulebook
from service.rulebook.schema.shop import Shop, Technician
from service.scheduling.hours import open_on
from service.scheduling.model import Booked, Job, Offer
from service.scheduling.offers import Refusal
from service.scheduling.technician_day import works_on

OTHER = ("technician", "day", "start")
"""The fields of a time that is not among the offers."""


def pick_of(typed: Mapping[str, str]) -> tuple[str, str]:
    """``other`` or the offer that was chosen; or what is wrong with the choice. Another time that is filled in counts."""
    pick, filled = typed["pick"], any(typed[name] for name in OTHER)
    if not pick and not filled:
        return "", "Choose a time: one of these, or fill in another."
    if not pick or pick == "other":
        return "other", ""
    if filled and pick != f"{typed['technician']}@{typed['day']}T{typed['start']}":
        return "", (
            "One time is chosen above and another is filled in below. Choose “Another time”, or empty its fields."
        )
    return pick, ""


def refusal_words(rulebook: Rulebook, refusal: Refusal, offer: Offer, job: Job, booked: Sequence[Booked]) -> str:
    """
    One or two sentences for the office. booked: what stands on the day of *offer*, the visit that is moved left out.

    The technician of *offer* must be one of the shop's.
    """
    shop = rulebook.shop
    technician = next(t for t in shop.technicians if t.id == offer.technician)
    name, day = technician.name, words.day_name(offer.start.astimezone(ZoneInfo(shop.timezone)).date())
    if refusal == "skill":
        lacking = ", ".join(_skill(rulebook, code) for code in sorted(job.skills - set(technician.skills)))
        return f"{name} does not do this work: {lacking} is not among the skills in the shop's file."
    if refusal == "lead":
        return f"This is too soon: a window must begin {_span(shop.windows.lead_min // 2)} from now or later."
    if refusal == "shop_closed":
        return f"The shop is closed on {day}."
    if refusal == "off":
        return f"{name} is off on {day}."
    if refusal == "hours":
        return f"Outside hours: on {day} windows of {name} lie within {_hours(shop, technician, offer)}."
    if refusal == "length":
        return (
            f"{name} would not be back by the end of the day ({_hours(shop, technician, offer)}): the work is reckoned "
            f"at up to {_span(job.minutes_promise)}, and then the way back. Choose an earlier window."
        )
    stands = _visits(shop, technician, booked)
    if refusal == "full":
        return f"The day of {name} is promised too full as it stands{stands}: nothing more fits in."
    return f"This work and the way to it do not fit beside what {name} has on {day}{stands}."


def _skill(rulebook: Rulebook, code: str) -> str:
    known = code in rulebook.appliances or code in rulebook.names
    return words.appliance_words(rulebook, code).lower() if known else words.code_words(code)


def _span(minutes: int) -> str:
    whole, rest = divmod(minutes, 60)
    parts = [f"{whole} h" if whole else "", f"{rest} min" if rest or not whole else ""]
    return " ".join(part for part in parts if part)


def _hours(shop: Shop, technician: Technician, offer: Offer) -> str:
    day = offer.start.astimezone(ZoneInfo(shop.timezone)).date()
    spans = [span for span in (open_on(shop, day), works_on(shop, technician, day)) if span]
    first, last = max(span[0] for span in spans), min(span[1] for span in spans)
    return f"{words.clock_words(first)} to {words.clock_words(last)}"


def _visits(shop: Shop, technician: Technician, booked: Sequence[Booked]) -> str:
    zone = ZoneInfo(shop.timezone)
    own = sorted((v.start, v.end) for v in booked if v.technician == technician.id)
    return f" (visits {', '.join(words.hours(start, end, zone) for start, end in own)})" if own else ""
