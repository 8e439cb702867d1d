"""The order of one technician's day."""

from datetime import date

from service.scheduling.day_order import order_of_day
from tests.scheduling.shops import HERE, at, booked, diary, make_shop, technician

SHOP = make_shop()
DAY = date(2026, 12, 2)
FAR = (35.1787, -106.5102)


def test_an_empty_day_is_empty_and_holds():
    order = order_of_day(SHOP, diary(), "ana", DAY)
    assert (order.legs, order.holds) == ((), True)


def test_stops_are_driven_in_the_order_of_least_travel_within_their_windows():
    wide = [
        booked(SHOP, DAY, 8, 17, place=place, visit=name)
        for name, place in (("near", HERE), ("far", FAR), ("same", HERE))
    ]
    early = booked(SHOP, DAY, 8, 10, place=FAR, visit="early")
    order = order_of_day(SHOP, diary(*wide, early), "ana", DAY)
    assert order.holds
    ids = [leg.visit.visit_id for leg in order.legs]
    assert abs(ids.index("early") - ids.index("far")) == 1
    assert sum(leg.travel_min for leg in order.legs) == 4 + 33 + 4 + 33
    assert order.home > order.legs[-1].starts
    assert all(leg.arrive <= leg.starts for leg in order.legs)


def test_expected_times_are_shop_local_and_the_late_ones_are_later():
    order = order_of_day(SHOP, diary(booked(SHOP, DAY, 8, 10), booked(SHOP, DAY, 10, 12, visit="v2")), "ana", DAY)
    first, second = order.legs
    assert first.starts == at(SHOP, DAY, 8, 4)
    assert second.starts == at(SHOP, DAY, 10)
    assert second.late > second.arrive
    assert second.starts.utcoffset() == at(SHOP, DAY, 10).utcoffset()


def test_a_day_promised_too_full_is_listed_by_window_and_said_not_to_hold():
    full = [booked(SHOP, DAY, 8, 9, minutes=200, visit=name) for name in ("a", "b")]
    order = order_of_day(SHOP, diary(*full), "ana", DAY)
    assert not order.holds
    assert [leg.visit.visit_id for leg in order.legs] == ["a", "b"]
    assert order.home is None


def test_a_day_off_with_a_visit_does_not_hold():
    shop = make_shop([technician(off=("2026-12-02",))])
    assert not order_of_day(shop, diary(booked(shop, DAY, 8, 10)), "ana", DAY).holds
    assert order_of_day(shop, diary(), "nobody", DAY).holds
