"""Computation notes E6.1 to E6.3: great circles beside haversine 2.9.0; lognormal lengths and their sums."""

import random

import pytest
from haversine import Unit, haversine
from hypothesis import given
from hypothesis import strategies as st

from service.scheduling.area import EARTH_KM, distance_km, place_of, serves, travel_min
from service.scheduling.lengths import Length, deviate, from_median
from tests.scheduling.shops import make_shop

LYON, PARIS = (45.7597, 4.8422), (48.8567, 2.3508)
CHICAGO, MILWAUKEE = (41.8781, -87.6298), (43.0389, -87.9065)
PLACES = st.tuples(st.floats(-90, 90), st.floats(-180, 180))
HOUR = Length(67.98890654400216, 1313.0)


@pytest.mark.parametrize(("here", "there", "km"), [(LYON, PARIS, 392.217260), (CHICAGO, MILWAUKEE, 131.055784)])
def test_e6_1_the_worked_distances(here, there, km):
    assert distance_km(here, there) == pytest.approx(km, abs=1e-6)


@given(PLACES, PLACES)
def test_e6_1_any_distance_is_the_one_haversine_gives(here, there):
    assert distance_km(here, there) == pytest.approx(haversine(here, there, unit=Unit.KILOMETERS), abs=1e-3)


def test_d4_the_radius_in_miles():
    assert round(EARTH_KM / 1.609344, 4) == 3958.7613


def test_travel_rounds_up_to_whole_minutes_and_adds_the_shops_minutes_per_stop():
    travel = make_shop(travel={"road_factor": 1.3, "speed_kmh": 35, "per_stop_min": 4}).travel
    assert travel_min(travel, (40.00, -83.00), (40.05, -82.96)) == 15 + 4
    assert travel_min(travel, (40.05, -82.96), (40.00, -83.00), to_stop=False) == 15
    assert travel_min(travel, (40.00, -83.00), (40.00, -83.00), to_stop=False) == 0


def test_a_zip_is_served_when_the_shops_file_lists_it():
    shop = make_shop()
    assert serves(shop, "87107")
    assert serves(shop, " 87107-1234 ")
    assert not serves(shop, "87999")
    assert place_of(shop, "") is None


def test_e6_2_quantiles_of_a_visit():
    visit = from_median(60, 60 * 2.718281828459045 ** (0.5 * deviate(0.9)), 0.9)
    assert visit.mean == pytest.approx(67.988907, abs=1e-6)
    for quantile, minutes in ((0.5, 60.0), (0.8, 91.3917), (0.9, 113.8772), (0.95, 136.5610)):
        assert visit.quantile(deviate(quantile)) == pytest.approx(minutes, abs=1e-4)
    assert from_median(50, 110).mean == pytest.approx(60.4176, abs=1e-4)


def test_e6_3_the_sum_of_three_visits_by_fenton():
    visit = from_median(60, 113.8772, 0.9)
    three = visit + visit + visit
    assert three.quantile(deviate(0.5)) == pytest.approx(194.95, abs=0.01)
    assert three.quantile(deviate(0.9)) == pytest.approx(286.62, abs=0.02)


def test_what_a_wait_leaves_of_a_delay_is_what_drawing_it_gives():
    visit = from_median(60, 113.8772, 0.9)
    draw = random.Random(7)
    left = [max(0.0, draw.lognormvariate(4.0943445622221, 0.5) - 80) for _ in range(200_000)]
    mean = sum(left) / len(left)
    variance = sum((x - mean) ** 2 for x in left) / len(left)
    beyond = visit.beyond(80)
    assert beyond.mean == pytest.approx(mean, rel=0.02)
    assert beyond.variance == pytest.approx(variance, rel=0.05)


@given(st.floats(1, 500), st.floats(0, 5000), st.floats(0, 600))
def test_a_wait_never_adds_to_a_delay(mean, variance, wait):
    delay = Length(mean, variance)
    left = delay.beyond(wait)
    assert 0 <= left.mean <= mean + 1e-6
    assert left.mean >= mean - wait - 1e-6
