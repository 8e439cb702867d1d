"""Computation notes E6.4 and E6.5: six stops and one van, against every one of 720 orders and the published figures."""

from itertools import permutations

import pytest

from service.rulebook.schema.shop import Travel
from service.scheduling.area import travel_min
from service.scheduling.lengths import Length
from service.scheduling.route import Stop, VanDay, best_route, walk

PLACES = [
    (40.00, -83.00), (40.05, -82.96), (40.07, -83.06), (39.96, -82.92), (39.93, -83.03), (40.02, -83.09), (39.98, -82.97),
]  # fmt: skip
TRAVEL = Travel(road_factor=1.3, speed_kmh=35, per_stop_min=0)
LEGS = tuple(tuple(travel_min(TRAVEL, a, b) for b in PLACES) for a in PLACES)
PUBLISHED = {
    (0, 1): 15, (0, 2): 21, (0, 3): 19, (0, 4): 19, (0, 5): 18, (0, 6): 8, (1, 2): 20, (1, 3): 24, (1, 4): 33, (1, 5): 26,
    (1, 6): 18, (2, 3): 39, (2, 4): 36, (2, 5): 14, (2, 6): 29, (3, 4): 23, (3, 5): 36, (3, 6): 11, (4, 5): 26, (4, 6): 17,
    (5, 6): 25,
}  # fmt: skip
WINDOWS = [(8, 12, 60), (10, 14, 45), (12, 16, 90), (8, 12, 60), (13, 17, 45), (10, 16, 30)]
STOPS = tuple(Stop(60 * a, 60 * b, Length(work)) for a, b, work in WINDOWS)
DAY = VanDay(LEGS, STOPS, 8 * 60, 17 * 60)


def clock(text):
    """Minutes since midnight."""
    hours, minutes = text.split(":")
    return 60 * int(hours) + int(minutes)


def numbers(order):
    """Stop numbers as published, from 1."""
    return [stop + 1 for stop in order]


def only(*kept, day=DAY, windows=None):
    """The day with the stops *kept* (numbers as published), some with another window."""
    stops = tuple((windows or {}).get(n, day.stops[n - 1]) for n in kept)
    rows = [0, *kept]
    return VanDay(tuple(tuple(day.legs[a][b] for b in rows) for a in rows), stops, day.leave, day.home_by)


def test_e6_4_the_travel_table():
    assert {(a, b): LEGS[a][b] for a, b in PUBLISHED} == PUBLISHED
    assert all(LEGS[a][b] == LEGS[b][a] for a, b in PUBLISHED)


def test_e6_4_the_least_travel_and_its_times():
    route = best_route(DAY)
    assert numbers(route.order) == [4, 1, 2, 5, 6, 3]
    assert route.travel == 141
    assert route.starts == tuple(map(clock, ("8:19", "9:52", "11:12", "13:00", "14:10", "14:51")))
    assert route.home == clock("16:40")
    assert route.starts[3] - route.arrivals[3] == 49


def test_e6_4_every_order_tried():
    routes = [route for order in permutations(range(6)) if (route := walk(DAY, order)) is not None]
    assert len(routes) == 27
    ranked = sorted(routes, key=lambda route: route.travel)
    assert [(r.travel, numbers(r.order)) for r in ranked[:3]] == [
        (141, [4, 1, 2, 5, 6, 3]), (143, [4, 6, 1, 2, 5, 3]), (148, [1, 2, 4, 3, 6, 5]),
    ]  # fmt: skip
    soonest = min(routes, key=lambda route: route.home)
    assert (soonest.home, numbers(soonest.order), soonest.travel) == (clock("16:08"), [4, 2, 1, 3, 6, 5], 153)


def test_e6_4_without_windows():
    free = tuple(Stop(0, 24 * 60, stop.work) for stop in STOPS)
    assert best_route(VanDay(LEGS, free, 8 * 60, 24 * 60)).travel == 117


def test_e6_5_the_day_before_the_sixth_stop_asks():
    route = best_route(only(1, 2, 4, 5, 6))
    assert [(1, 2, 4, 5, 6)[stop] for stop in route.order] == [4, 6, 1, 2, 5]
    assert (route.travel, route.home) == (106, clock("14:10"))


@pytest.mark.parametrize(
    ("window", "added", "order"),
    [
        ((8, 10), 27, [4, 3, 1, 2, 5, 6]),
        ((10, 12), 27, [4, 3, 1, 2, 5, 6]),
        ((12, 14), 42, [1, 2, 4, 3, 6, 5]),
        ((14, 16), 35, [4, 1, 2, 5, 6, 3]),
    ],
)
def test_e6_5_free_reordering_finds_all_four_windows(window, added, order):
    asked = Stop(60 * window[0], 60 * window[1], Length(90))
    route = best_route(only(1, 2, 3, 4, 5, 6, windows={3: asked}))
    assert route.travel - 106 == added
    assert numbers(route.order) == order


@pytest.mark.parametrize(("window", "added"), [((8, 10), None), ((10, 12), None), ((12, 14), 61), ((14, 16), 37)])
def test_e6_5_keeping_the_order_hides_two_of_them(window, added):
    day = only(1, 2, 3, 4, 5, 6, windows={3: Stop(60 * window[0], 60 * window[1], Length(90))})
    kept = [3, 5, 0, 1, 4]
    routes = [walk(day, (*kept[:place], 2, *kept[place:])) for place in range(6)]
    travels = [route.travel - 106 for route in routes if route is not None]
    assert (min(travels) if travels else None) == added
