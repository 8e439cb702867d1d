"""Which offer a customer's words accept."""

from datetime import time

import pytest

from service.reading.model import Answer, Wish
from service.scheduling.accept import which_offer
from service.scheduling.model import Offer
from tests.scheduling.shops import NOW, at, make_shop

SHOP = make_shop()


def offer(day, start):
    """A two-hour window on *day*."""
    return Offer("ana", at(SHOP, day, start), at(SHOP, day, start + 2), 65, 0.0)


THREE = [offer("2026-12-03", 13), offer("2026-12-02", 8), offer("2026-12-04", 15)]
"""Thursday 1 to 3, tomorrow 8 to 10, Friday 3 to 5."""
TWO_THURSDAYS = [offer("2026-12-03", 8), offer("2026-12-03", 13)]


def chosen(answer=None, wish=None, offers=THREE):
    """The place of the offer that was accepted."""
    return which_offer(offers, answer, wish, SHOP, NOW)


@pytest.mark.parametrize("index", [0, 1, 2])
def test_a_number_chooses(index):
    assert chosen(Answer("choice", index=index)) == index


@pytest.mark.parametrize("index", [-1, 3])
def test_a_number_that_was_not_offered_chooses_nothing(index):
    assert chosen(Answer("choice", index=index)) is None


def test_any_works_takes_the_first():
    assert chosen(Answer("either")) == 0


def test_yes_takes_the_only_offer_and_none_of_several():
    assert chosen(Answer("yes"), offers=THREE[:1]) == 0
    assert chosen(Answer("yes")) is None


def test_what_only_rules_days_out_takes_the_window_left_with_a_yes_alone():
    wish = Wish(days_out=("wed", "thu"))
    assert chosen(wish=wish) is None
    assert chosen(Answer("yes"), wish) == 2
    assert chosen(Answer("either"), wish) == 2


@pytest.mark.parametrize("kind", ["none", "no", "declined", "dont_know"])
def test_a_refusal_takes_nothing_even_with_a_day_in_it(kind):
    assert chosen(Answer(kind), Wish(days_in=("thu",))) is None


@pytest.mark.parametrize(
    ("wish", "place"),
    [
        (Wish(days_in=("thu",)), 0),
        (Wish(days_in=("fri",), start=time(15)), 2),
        (Wish(relative=(1,)), 1),
        (Wish(dates=((12, 4),)), 2),
        (Wish(part="morning"), 1),
        (Wish(days_in=("thu",), part="afternoon"), 0),
        (Wish(start=time(13), end=time(15)), 0),
        (Wish(start=time(14), days_in=("thu",)), 0),
        (Wish(end=time(12)), 1),
        (Wish(soonest=True), 1),
        (Wish(part="afternoon", soonest=True), 0),
    ],
)
def test_words_choose_the_window_they_single_out(wish, place):
    assert chosen(wish=wish) == place
    assert chosen(Answer("yes"), wish) == place
    assert chosen(Answer("either"), wish) == place


def test_the_hour_a_window_begins_at_is_that_window():
    assert chosen(wish=Wish(start=time(13))) == 0


@pytest.mark.parametrize(
    "wish",
    [Wish(days_in=("mon",)), Wish(part="afternoon"), Wish(days_in=("thu",), part="evening"), Wish(start=time(17))],
)
def test_words_that_fit_none_or_several_choose_nothing(wish):
    assert chosen(wish=wish) is None


def test_two_windows_on_the_day_named_leave_it_open_until_an_hour_is_named():
    assert chosen(wish=Wish(days_in=("thu",)), offers=TWO_THURSDAYS) is None
    assert chosen(wish=Wish(days_in=("thu",), start=time(13)), offers=TWO_THURSDAYS) == 1
    assert chosen(wish=Wish(days_in=("thu",), start=time(9)), offers=TWO_THURSDAYS[:1]) == 0


def test_a_number_and_a_wish_that_agree_choose_and_that_contradict_do_not():
    assert chosen(Answer("choice", index=0), Wish(days_in=("thu",))) == 0
    assert chosen(Answer("choice", index=1), Wish(start=time(14))) is None


def test_nothing_said_chooses_nothing_and_nothing_offered_cannot_be_chosen():
    assert chosen() is None
    assert chosen(Answer("either"), offers=[]) is None
    assert chosen(wish=Wish(days_in=("thu",)), offers=[]) is None


AFTERNOONS = [offer("2026-12-03", 13), offer("2026-12-03", 15)]


@pytest.mark.parametrize(
    ("words", "hour", "place"), [("thursday at 2", 14, 0), ("thursday after 2", 14, 1), ("thursday at 3", 15, 1)]
)
def test_an_hour_means_the_window_that_holds_it_and_after_it_a_later_one(words, hour, place):
    wish = Wish(days_in=("thu",), start=time(hour), words=words)
    assert chosen(wish=wish, offers=AFTERNOONS) == place


def test_of_two_stretches_each_window_that_fits_either_may_be_meant():
    either = Wish(end=time(11), also=((time(15), None),))
    assert chosen(wish=either) is None
    assert chosen(wish=either, offers=THREE[:2]) == 1
    assert chosen(wish=either, offers=[THREE[0], THREE[2]]) == 1


def test_hours_that_hold_for_their_own_day_choose_no_window_of_another():
    apart = (Wish(days_in=("wed",), end=time(11)), Wish(days_in=("fri",), start=time(15)))
    either = Wish(days_in=("wed", "fri"), end=time(11), also=((time(15), None),), apart=apart)
    assert chosen(wish=either) is None
    assert chosen(wish=either, offers=[THREE[0], offer("2026-12-04", 8), THREE[2]]) == 2
    assert chosen(wish=either, offers=[THREE[0], offer("2026-12-02", 15)]) is None
