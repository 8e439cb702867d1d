"""Routes: exact search, insertion, and what must never happen."""

from dataclasses import replace
from itertools import permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from service.scheduling.lengths import Length
from service.scheduling.route import EXACT_STOPS, Stop, VanDay, best_route, walk


@st.composite
def days(draw, most=5, least=0):
    """A van's day with up to *most* stops; minutes whole, work without spread."""
    count = draw(st.integers(least, most))
    legs = draw(
        st.lists(
            st.lists(st.integers(0, 40), min_size=count + 1, max_size=count + 1), min_size=count + 1, max_size=count + 1
        )
    )
    stops = []
    for _ in range(count):
        earliest = draw(st.integers(0, 400))
        stops.append(Stop(earliest, earliest + draw(st.integers(0, 300)), Length(draw(st.integers(5, 90)))))
    return VanDay(tuple(map(tuple, legs)), tuple(stops), 0, draw(st.integers(300, 700)))


def brute(day):
    """The least travel over all orders, None when none holds."""
    routes = [walk(day, order) for order in permutations(range(len(day.stops)))]
    return min((route.travel for route in routes if route is not None), default=None)


@settings(max_examples=150, deadline=None)
@given(days())
def test_the_exact_search_finds_what_trying_every_order_finds(day):
    found = best_route(day)
    assert (None if found is None else found.travel) == brute(day)


@settings(max_examples=100, deadline=None)
@given(days(least=1), st.integers(0, 120), st.integers(0, 120), st.data())
def test_a_wider_window_never_loses_a_day_and_never_costs_travel(day, earlier, later, data):
    before = best_route(day)
    which = data.draw(st.integers(0, len(day.stops) - 1))
    stop = day.stops[which]
    wider = replace(stop, earliest=max(0, stop.earliest - earlier), latest=stop.latest + later)
    after = best_route(replace(day, stops=(*day.stops[:which], wider, *day.stops[which + 1 :])))
    if before is not None:
        assert after is not None
        assert after.travel <= before.travel


@settings(max_examples=60, deadline=None)
@given(days(), st.integers(0, 200))
def test_a_longer_day_never_loses_a_route(day, more):
    before = best_route(day)
    after = best_route(replace(day, home_by=day.home_by + more))
    assert before is None or (after is not None and after.travel <= before.travel)


@settings(max_examples=60, deadline=None)
@given(days())
def test_a_route_keeps_every_window_and_is_home_in_time(day):
    route = best_route(day)
    if route is None:
        return
    assert sorted(route.order) == list(range(len(day.stops)))
    assert route.home <= day.home_by
    for place, number in enumerate(route.order):
        assert route.arrivals[place] <= route.starts[place]
        assert day.stops[number].earliest <= route.starts[place] <= day.stops[number].latest


def test_more_stops_than_can_be_weighed_are_put_in_one_by_one_and_still_hold():
    count = EXACT_STOPS + 2
    legs = tuple(tuple(abs(a - b) * 3 for b in range(count + 1)) for a in range(count + 1))
    stops = tuple(Stop(0, 900, Length(10)) for _ in range(count))
    route = best_route(VanDay(legs, stops, 0, 1000))
    assert route is not None
    assert route.travel == 2 * 3 * count
    assert best_route(VanDay(legs, stops, 0, 100)) is None


def test_hours_taken_by_something_else_do_not_move_the_van():
    legs = ((0, 10, 0), (10, 0, 0), (0, 0, 0))
    visit, lunch = Stop(0, 500, Length(30)), Stop(60, 60, Length(60), placeless=True)
    route = best_route(VanDay(legs, (visit, lunch), 0, 200))
    assert route is not None
    assert (route.order, route.travel) == ((0, 1), 20)


def test_a_promise_counts_the_delay_that_may_lie_before_it_and_a_wait_swallows_some():
    legs = ((0, 0, 0), (0, 0, 0), (0, 0, 0))
    long = Stop(0, 0, Length(60, 1200))
    soon, later = Stop(0, 200, Length(30), promised=90), Stop(200, 200, Length(30), promised=200)
    assert best_route(VanDay(legs, (long, soon), 0, 500, z=1.2816)) is None
    assert best_route(VanDay(legs, (long, soon), 0, 500, z=0.0)) is not None
    assert best_route(VanDay(legs, (long, later), 0, 500, z=1.2816)) is not None
