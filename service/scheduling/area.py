"""Where a shop goes and how long the way takes: served ZIP codes, great circles, minutes on the road."""

from __future__ import annotations

from functools import lru_cache
from math import asin, ceil, cos, radians, sin, sqrt

from service.rulebook.schema.shop import Shop, Travel, ZipArea

EARTH_KM = 6371.0088
"""Mean radius of the earth. Computation notes, section 6."""

Place = tuple[float, float]
"""Latitude and longitude in degrees."""


def serves(shop: Shop, postal_code: str) -> bool:
    """Whether *postal_code* (five digits, or nine with a dash) lies in the shop's area."""
    return place_of(shop, postal_code) is not None


def place_of(shop: Shop, postal_code: str) -> ZipArea | None:
    """The point to measure from for *postal_code*; None when the shop does not go there."""
    return shop.area.get(postal_code.strip()[:5])


@lru_cache(maxsize=8192)  # places are the points of the shop's ZIP codes: a few, asked for all day
def distance_km(here: Place, there: Place) -> float:
    """Great-circle kilometres between two places (haversine), checked by E6.1."""
    phi_1, phi_2 = radians(here[0]), radians(there[0])
    half_phi, half_lambda = (phi_2 - phi_1) / 2, radians(there[1] - here[1]) / 2
    h = sin(half_phi) ** 2 + cos(phi_1) * cos(phi_2) * sin(half_lambda) ** 2
    return 2 * EARTH_KM * asin(sqrt(min(1.0, h)))


def travel_min(travel: Travel, here: Place, there: Place, *, to_stop: bool = True) -> int:
    """
    Whole minutes on the road, rounded up: great circle, road factor, speed.

    *to_stop* adds the shop's fixed minutes for parking and walking in; the way home has none.
    """
    road = distance_km(here, there) * travel.road_factor / travel.speed_kmh * 60
    return ceil(road - 1e-9) + (travel.per_stop_min if to_stop else 0)
