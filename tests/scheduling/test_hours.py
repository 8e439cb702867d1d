"""Opening hours, next opening, quiet hours."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.scheduling.hours import is_open, local_moment, next_opening, next_quiet_end, zone_of
from tests.scheduling.shops import at, make_shop, span

SHOP = make_shop(closed=("2026-12-25",))
MOMENTS = st.datetimes(datetime(2026, 1, 1), datetime(2027, 12, 31), timezones=st.just(UTC))  # noqa: DTZ001


def test_the_shop_is_open_from_its_first_minute_to_just_before_its_last():
    assert not is_open(SHOP, at(SHOP, "2026-12-01", 7, 59))
    assert is_open(SHOP, at(SHOP, "2026-12-01", 8))
    assert is_open(SHOP, at(SHOP, "2026-12-01", 17, 59))
    assert not is_open(SHOP, at(SHOP, "2026-12-01", 18))


def test_a_closed_day_and_a_weekend_are_skipped():
    assert not is_open(SHOP, at(SHOP, "2026-12-25", 10))
    assert next_opening(SHOP, at(SHOP, "2026-12-24", 19)) == at(SHOP, "2026-12-28", 8)


def test_an_open_shop_opens_now():
    now = at(SHOP, "2026-12-01", 9)
    assert next_opening(SHOP, now) == now


def test_hours_that_last_past_midnight_belong_to_the_day_they_began():
    late = make_shop(hours={"fri": span(18, 2)})
    assert is_open(late, at(late, "2026-12-05", 1))
    assert not is_open(late, at(late, "2026-12-05", 2))
    assert next_opening(late, at(late, "2026-12-05", 2)) == at(late, "2026-12-11", 18)


def test_a_shop_that_never_opens_is_named():
    with pytest.raises(ValueError, match="'test' is never open"):
        next_opening(make_shop(hours={}), at(SHOP, "2026-12-01", 8))


def test_a_time_that_the_clock_change_skips_is_the_same_instant_in_new_time():
    moment = local_moment(
        datetime(2026, 3, 8, tzinfo=UTC).date(), datetime(2026, 3, 8, 2, 30, tzinfo=UTC).time(), zone_of(SHOP)
    )
    assert moment == datetime(2026, 3, 8, 9, 30, tzinfo=UTC)
    assert (moment.hour, moment.minute) == (3, 30)


def test_on_the_day_clocks_change_the_shop_still_opens_at_eight_by_its_clock():
    sunday = make_shop(hours={"sun": span(8, 12)})
    spring, autumn = datetime(2026, 3, 8, 14, tzinfo=UTC), datetime(2026, 11, 1, 15, tzinfo=UTC)
    assert is_open(sunday, spring)
    assert not is_open(sunday, spring - timedelta(minutes=1))
    assert is_open(sunday, autumn)
    assert not is_open(sunday, autumn - timedelta(minutes=1))


@pytest.mark.parametrize(
    ("clock", "then"),
    [((7, 59), (8, 0)), ((8, 0), None), ((19, 59), None), ((20, 0), "next"), ((23, 30), "next"), ((0, 0), (8, 0))]
)  # fmt: skip
def test_texts_we_begin_wait_for_the_morning(clock, then):
    moment = at(SHOP, "2026-12-02", *clock)
    due = {None: moment, "next": at(SHOP, "2026-12-03", 8)}.get(then) or at(SHOP, "2026-12-02", *then)
    assert next_quiet_end(SHOP, moment) == due


def test_quiet_hours_are_by_the_recipients_clock_when_it_is_known():
    moment = at(SHOP, "2026-12-02", 19)
    assert next_quiet_end(SHOP, moment) == moment
    assert next_quiet_end(SHOP, moment, "America/New_York") == datetime(2026, 12, 3, 13, tzinfo=UTC)
    assert next_quiet_end(SHOP, moment, ZoneInfo("America/Los_Angeles")) == moment


def test_a_shop_without_quiet_hours_never_waits():
    loud = make_shop(policies={"quiet_start": "08:00", "quiet_end": "08:00"})
    assert next_quiet_end(loud, at(loud, "2026-12-02", 3)) == at(loud, "2026-12-02", 3)


@given(MOMENTS)
def test_the_end_of_quiet_is_never_before_now_and_never_quiet_itself(moment):
    due = next_quiet_end(SHOP, moment)
    assert moment <= due <= moment + timedelta(hours=13)
    assert next_quiet_end(SHOP, due) == due


@given(MOMENTS)
def test_the_next_opening_is_open_and_nothing_before_it_is(moment):
    opening = next_opening(SHOP, moment)
    assert opening >= moment
    assert is_open(SHOP, opening)
    assert is_open(SHOP, moment) == (opening == moment)
    if opening > moment:
        assert not is_open(SHOP, opening - timedelta(seconds=1))
