"""What things cost, all in minutes: a text, a visit, a second trip. One minute of anybody's weighs one dollar."""

from __future__ import annotations

from dataclasses import dataclass

from service.rulebook.schema.appliance import Appliance
from service.rulebook.schema.shop import Shop

CENTS_A_MINUTE = 100.0
"""A minute of a technician or a customer against money. Our own choice, no source: about a van's loaded hourly cost."""

TEXT_MIN, TEXT_RISE = 1.0, 0.2
"""Patience one more text costs, and by how much of itself it rises with each question already asked. Own choice."""

LATE_MIN, RUSH_MIN = 60.0, 20.0
"""A pressing fault that waits its turn, and coming sooner for one that could have waited. Own choice."""

OVERRUN_MIN, SPARE_MIN = 40.0, 20.0
"""A long repair in a usual slot, and a long slot for a usual repair. Own choice."""


@dataclass(frozen=True, slots=True)
class Tariff:
    """Minutes that one visit, and one second trip, cost everybody; price of a text after so many questions."""

    visit: float
    second_trip: float
    text: float = TEXT_MIN


def tariff(appliance: Appliance, shop: Shop, questions_used: int = 0) -> Tariff:
    """The shop's own fees turned to minutes; a visit never costs less than its usual length."""
    return Tariff(
        visit=max(shop.fees.visit_cents / CENTS_A_MINUTE, float(appliance.basics.visit.median_min)),
        second_trip=shop.fees.second_trip_cents / CENTS_A_MINUTE,
        text=TEXT_MIN * (1 + TEXT_RISE * questions_used),
    )
