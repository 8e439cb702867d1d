"""Which windows are offered, and what is never offered."""

from datetime import UTC, datetime, time, timedelta
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading.model import Wish
from service.scheduling.hours import is_open, zone_of
from service.scheduling.model import Booked, Offer
from service.scheduling.offers import find_offers, still_free
from service.scheduling.technician_day import planned_minutes, standing_day, works_on
from tests.scheduling.shops import HERE, NOW, at, booked, diary, job, make_shop, span, technician

SHOP = make_shop()
FAR = (35.1787, -106.5102)


def told(offers):
    """Offers as (weekday and day, hour, technician)."""
    return [(f"{o.start:%a %d}", o.start.hour, o.technician) for o in offers.offers]


def test_an_empty_diary_offers_the_soonest_three_half_days():
    assert told(find_offers(SHOP, diary(), job(), None, NOW)) == [
        ("Tue 01", 10, "ana"),
        ("Tue 01", 13, "ana"),
        ("Wed 02", 8, "ana"),
    ]


def test_the_lead_time_keeps_the_next_window_free():
    assert told(find_offers(SHOP, diary(), job(), None, NOW + timedelta(minutes=31)))[0] == ("Tue 01", 13, "ana")


def test_a_visit_nearby_draws_the_next_one_to_its_day():
    near = booked(SHOP, "2026-12-03", 8, 10, place=FAR)
    assert told(find_offers(SHOP, diary(near), job(FAR), None, NOW))[0] == ("Thu 03", 10, "ana")


def test_days_off_closed_days_and_missing_skills_are_never_offered():
    shop = make_shop(
        [technician(off=("2026-12-01",)), technician("bo", skills=("dryer",))],
        closed=("2026-12-02",),
        windows={"days_ahead": 3},
    )
    assert {o.start.day for o in find_offers(shop, diary(), job(), None, NOW).offers} == {3, 4}
    none = find_offers(shop, diary(), job(skills=("dishwasher", "gas")), None, NOW)
    assert none.offers == ()
    assert "gas" in none.why


def test_two_full_visits_do_not_fit_one_window_at_the_promise():
    tight = make_shop(windows={"starts": (time(8),), "days_ahead": 1})
    taken = booked(tight, "2026-12-02", 8, 10, minutes=90)
    assert find_offers(tight, diary(taken), job(usual=80, promise=140), None, NOW).offers == ()
    assert find_offers(tight, diary(), job(usual=80, promise=140), None, NOW).offers != ()


def test_a_short_visit_may_go_before_one_that_stands_when_both_promises_hold():
    tight = make_shop(windows={"starts": (time(8),), "days_ahead": 1})
    taken = booked(tight, "2026-12-02", 8, 10, minutes=90)
    assert told(find_offers(tight, diary(taken), job(usual=60, promise=100), None, NOW)) == [("Wed 02", 8, "ana")]


def test_hours_blocked_by_something_else_are_left_alone():
    morning = ("ana", at(SHOP, "2026-12-02", 7), at(SHOP, "2026-12-02", 12))
    wish = Wish(relative=(1,))
    assert told(find_offers(SHOP, diary(blocked=[morning]), job(), wish, NOW)) == [("Wed 02", 13, "ana")]
    lunch = ("ana", at(SHOP, "2026-12-02", 12), at(SHOP, "2026-12-02", 16))
    assert told(find_offers(SHOP, diary(blocked=[lunch]), job(), wish, NOW)) == [("Wed 02", 8, "ana")]


def test_a_day_that_is_blocked_whole_offers_nothing():
    day = ("ana", at(SHOP, "2026-12-02", 0), at(SHOP, "2026-12-03", 0))
    assert not find_offers(SHOP, diary(blocked=[day]), job(), Wish(relative=(1,)), NOW).fits_wish


def test_the_customers_language_is_preferred_when_little_travel_stands_against_it():
    shop = make_shop([technician(), technician("bea", language=("es",))])
    assert find_offers(shop, diary(), job(), None, NOW, language="es").offers[0].technician == "bea"
    assert find_offers(shop, diary(), job(), None, NOW).offers[0].technician == "ana"


def test_a_visit_that_is_being_moved_does_not_stand_in_its_own_way():
    tight = make_shop(windows={"starts": (time(8), time(9)), "days_ahead": 1})
    taken = diary(booked(tight, "2026-12-02", 8, 10, minutes=110))
    wish, long = Wish(relative=(1,)), job(usual=110, promise=140)
    assert not find_offers(tight, taken, long, wish, NOW).fits_wish
    assert told(find_offers(tight, taken, long, wish, NOW, moving="v1")) == [("Wed 02", 9, "ana")]


def test_a_visit_that_is_being_moved_is_never_offered_the_window_it_has():
    taken = diary(booked(SHOP, "2026-12-03", 8, 10))
    wish = Wish(days_in=("thu",), end=time(12))
    assert told(find_offers(SHOP, diary(), job(), wish, NOW)) == [("Thu 03", 8, "ana")]
    assert told(find_offers(SHOP, taken, job(), wish, NOW, moving="v1")) == [("Thu 03", 10, "ana")]


@pytest.mark.parametrize(
    ("wish", "first"),
    [
        (Wish(days_in=("thu",), start=time(15)), ("Thu 03", 15, "ana")),
        (Wish(days_in=("thu",), end=time(12)), ("Thu 03", 8, "ana")),
        (Wish(days_out=("tue", "wed")), ("Thu 03", 8, "ana")),
        (Wish(dates=((12, 7),)), ("Mon 07", 8, "ana")),
        (Wish(relative=(1,), part="afternoon"), ("Wed 02", 13, "ana")),
        (Wish(week="next"), ("Mon 07", 8, "ana")),
        (Wish(week="next", days_in=("fri",)), ("Fri 11", 8, "ana")),
        (Wish(week="this", days_in=("fri",)), ("Fri 04", 8, "ana")),
        (Wish(days_in=("mon", "thu")), ("Thu 03", 8, "ana")),
        (Wish(dates=((12, 3),), days_in=("thu",)), ("Thu 03", 8, "ana")),
        (Wish(relative=(1,), days_in=("mon",)), ("Wed 02", 8, "ana")),
        (Wish(soonest=True), ("Tue 01", 10, "ana")),
        (Wish(part="morning", days_out=("tue",)), ("Wed 02", 8, "ana")),
        (Wish(start=time(13), end=time(15), days_in=("fri",)), ("Fri 04", 13, "ana")),
    ],
)
def test_a_wish_is_kept(wish, first):
    offers = find_offers(SHOP, diary(), job(), wish, NOW)
    assert offers.fits_wish
    assert told(offers)[0] == first


def test_a_weekday_that_repeats_the_date_is_not_a_second_day():
    offers = find_offers(SHOP, diary(), job(), Wish(dates=((12, 3),), days_in=("thu",)), NOW)
    assert {o.start.day for o in offers.offers} == {3}


@pytest.mark.parametrize(
    ("wish", "first"),
    [
        (Wish(days_in=("sat",)), ("Fri 04", 8, "ana")),
        (Wish(days_in=("thu",), part="evening"), ("Thu 03", 15, "ana")),
        (Wish(relative=(0,), end=time(9)), ("Tue 01", 10, "ana")),
        (Wish(days_in=("sat",), days_out=("thu", "fri")), ("Mon 07", 8, "ana")),
        (Wish(dates=((12, 5),)), ("Fri 04", 8, "ana")),
        (Wish(relative=(1,), start=time(7), point=True), ("Wed 02", 8, "ana")),
    ],
)
def test_a_wish_that_cannot_be_kept_gets_the_nearest_windows_and_says_so(wish, first):
    offers = find_offers(SHOP, diary(), job(), wish, NOW)
    assert not offers.fits_wish
    assert told(offers)[0] == first
    assert "nearest" in offers.why


def test_after_a_day_that_is_full_come_those_behind_it_and_today_last_but_for_who_wants_it_soon():
    full = diary(
        blocked=[("ana", at(SHOP, f"2026-12-{day:02}", 8), at(SHOP, f"2026-12-{day:02}", 17)) for day in (2, 7)]
    )
    assert [day for day, _, _ in told(find_offers(SHOP, full, job(), Wish(days_in=("mon",)), NOW))] == [
        "Tue 08", "Tue 08", "Wed 09",
    ]  # fmt: skip
    for wish in (Wish(relative=(1,)), Wish(days_in=("wed",)), Wish(dates=((12, 2),))):
        assert told(find_offers(SHOP, full, job(), wish, NOW))[0] == ("Thu 03", 8, "ana")
    assert told(find_offers(SHOP, full, job(), Wish(relative=(1,), soonest=True), NOW))[0][0] == "Tue 01"


def test_a_weekday_is_the_one_that_comes():
    assert {day for day, _, _ in told(find_offers(SHOP, diary(), job(), Wish(days_in=("fri",)), NOW))} == {"Fri 04"}


def test_one_hour_fits_every_window_that_holds_it():
    over = make_shop(windows={"starts": (time(8), time(13), time(14)), "days_ahead": 10})
    holding = find_offers(over, diary(), job(), Wish(days_in=("fri",), start=time(14), point=True), NOW, count=9)
    assert told(holding) == [("Fri 04", 13, "ana")]
    from_two = find_offers(over, diary(), job(), Wish(days_in=("fri",), start=time(14)), NOW)
    assert told(from_two) == [("Fri 04", 14, "ana")]


def test_a_full_diary_says_that_there_is_no_room():
    shop = make_shop([technician(days={"tue": span(8, 17)})], windows={"days_ahead": 1})
    taken = [booked(shop, "2026-12-01", h, h + 2, minutes=110, visit=f"v{h}") for h in (8, 10, 13, 15)]
    full = find_offers(shop, diary(*taken), job(), None, NOW)
    assert full.offers == ()
    assert "no technician has room within 1 days" in full.why


def test_an_offer_is_free_until_somebody_takes_its_hours():
    offer = find_offers(SHOP, diary(), job(), Wish(days_in=("thu",), start=time(15)), NOW).offers[0]
    assert still_free(SHOP, diary(), job(), offer, NOW)
    other = booked(SHOP, "2026-12-03", 15, 17, minutes=90)
    assert not still_free(SHOP, diary(other), job(), offer, NOW)
    assert still_free(SHOP, diary(other), job(), offer, NOW, moving="v1")


def test_an_offer_is_not_free_when_its_technician_is_gone_or_it_is_too_late():
    offer = find_offers(SHOP, diary(), job(), None, NOW).offers[0]
    assert not still_free(make_shop([technician("zoe")]), diary(), job(), offer, NOW)
    assert still_free(SHOP, diary(), job(), offer, offer.start - timedelta(minutes=45))
    assert not still_free(SHOP, diary(), job(), offer, offer.start - timedelta(minutes=44))


def test_windows_keep_their_clock_and_their_length_over_a_clock_change():
    shop = make_shop(hours={"sat": span(8, 18), "sun": span(0, 18)}, windows={"starts": (time(1), time(10)), "days_ahead": 1},
                     technicians=[technician(days={"sun": span(0, 17)})])  # fmt: skip
    offers = find_offers(shop, diary(), job(), None, datetime(2026, 3, 7, 18, tzinfo=UTC)).offers
    assert {(o.start.hour, o.end.hour) for o in offers} == {(1, 4)}
    assert all(o.end.astimezone(UTC) - o.start.astimezone(UTC) == timedelta(hours=2) for o in offers)


PLACES = st.tuples(st.floats(34.99, 35.2), st.floats(-106.75, -106.5))
VISITS = st.lists(
    st.tuples(st.sampled_from(["ana", "bo"]), st.integers(0, 3), st.sampled_from([8, 10, 13, 15]), st.integers(20, 120),
              PLACES),
    max_size=7,
)  # fmt: skip
CREW = make_shop(
    [
        technician(off=("2026-12-03",)),
        technician("bo", days={"tue": span(9, 15), "wed": span(8, 17), "thu": span(10, 18)}),
    ],
    windows={"days_ahead": 4},
    hours={"tue": span(8, 18), "wed": span(9, 16), "thu": span(8, 18), "fri": span(8, 18)},
)


def standing(visits):
    """A diary from drawn visits."""
    return diary(*(booked(CREW, f"2026-12-0{1 + day}", h, h + 2, who=who, place=place, minutes=m, visit=f"v{n}")
                   for n, (who, day, h, m, place) in enumerate(visits)))  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(VISITS, PLACES, st.integers(20, 120), st.integers(0, 60))
def test_no_offer_is_outside_hours_days_skills_or_lead_time_and_each_can_be_kept(visits, place, usual, more):
    today = standing(visits)
    wanted = job(place, usual, usual + more)
    offers = find_offers(CREW, today, wanted, None, NOW).offers
    assert len({(o.start.date(), o.start.hour < 12) for o in offers}) == len(offers) <= 3
    for offer in offers:
        who = next(t for t in CREW.technicians if t.id == offer.technician)
        hours = works_on(CREW, who, offer.start.date())
        assert hours is not None
        assert hours[0] <= offer.start < offer.end <= hours[1]
        assert is_open(CREW, offer.start)
        assert is_open(CREW, offer.end - timedelta(seconds=1))
        assert offer.start >= NOW + timedelta(minutes=CREW.windows.lead_min)
        assert still_free(CREW, today, wanted, offer, NOW)


@settings(max_examples=40, deadline=None)
@given(VISITS, PLACES)
def test_an_accepted_offer_leaves_a_day_on_which_every_promise_holds(visits, place):
    today = standing(visits)
    wanted = job(place)
    for offer in find_offers(CREW, today, wanted, None, NOW).offers:
        new = Booked("new", offer.technician, offer.start, offer.end, planned_minutes(CREW, wanted), *place)
        who = next(t for t in CREW.technicians if t.id == offer.technician)
        day = standing_day(CREW, diary(*today.booked, new), who, offer.start.astimezone(zone_of(CREW)).date(), None)
        assert day.route is not None
        for place_in_order, number in enumerate(day.route.order):
            assert day.stops[number].earliest <= day.route.starts[place_in_order] <= day.stops[number].latest
        assert day.route.home <= day.minute(day.ends)


@settings(max_examples=40, deadline=None)
@given(VISITS, PLACES, st.integers(0, 3))
def test_taking_visits_out_of_the_diary_never_takes_the_last_window_away(visits, place, kept):
    everything = find_offers(CREW, standing(visits), job(place), None, NOW).offers
    fewer = find_offers(CREW, standing(visits[:kept]), job(place), None, NOW).offers
    assert fewer or not everything


def test_no_two_offers_to_one_customer_overlap():
    offers = find_offers(SHOP, diary(), job(HERE), None, NOW).offers
    assert all(a.end <= b.start or b.end <= a.start for a, b in combinations(offers, 2))
    assert all(isinstance(offer, Offer) for offer in offers)


def test_a_window_of_either_stretch_fits():
    wish = Wish(end=time(11), also=((time(15), None),))
    found = find_offers(SHOP, diary(), job(), wish, NOW, count=6)
    assert found.fits_wish
    assert {offer.start.hour < 12 for offer in found.offers} == {True, False}
    assert all(offer.end.time() <= time(11) or offer.start.time() >= time(15) for offer in found.offers)


def test_a_window_fits_the_hours_of_its_own_day():
    apart = (Wish(days_in=("wed",), end=time(11)), Wish(days_in=("fri",), start=time(15)))
    wish = Wish(days_in=("wed", "fri"), end=time(11), also=((time(15), None),), apart=apart)
    found = find_offers(SHOP, diary(), job(), wish, NOW, count=6)
    assert found.fits_wish
    assert {(offer.start.weekday(), offer.start.hour < 12) for offer in found.offers} == {(2, True), (4, False)}
