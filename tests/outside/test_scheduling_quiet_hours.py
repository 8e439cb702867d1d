"""Table T-B (sources T5, T12): which texts that we begin may go out, by the clock where the recipient is."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from service.scheduling.hours import next_quiet_end
from tests.scheduling.shops import make_shop

SHOP = make_shop(policies={"quiet_start": "21:00", "quiet_end": "08:00"})
JULY, DECEMBER = datetime(2026, 7, 15, 2, 30, tzinfo=UTC), datetime(2026, 12, 15, 13, 30, tzinfo=UTC)
ROWS = [
    (JULY, "America/Chicago", "21:30", False),
    (JULY, "America/Denver", "20:30", True),
    (JULY, "America/Los_Angeles", "19:30", True),
    (DECEMBER, "America/Chicago", "07:30", False),
    (DECEMBER, "America/Denver", "06:30", False),
    (DECEMBER, "America/Los_Angeles", "05:30", False),
    (DECEMBER, "America/New_York", "08:30", True),
]


@pytest.mark.parametrize(("moment", "zone", "clock", "allowed"), ROWS)
def test_t_b_a_text_goes_out_only_in_the_recipients_day(moment, zone, clock, allowed):
    assert f"{moment.astimezone(ZoneInfo(zone)):%H:%M}" == clock
    due = next_quiet_end(SHOP, moment, zone)
    assert (due == moment) is allowed
    if not allowed:
        assert (due.hour, due.minute) == (8, 0)


@pytest.mark.parametrize(
    ("clock", "held"), [((7, 59, 0), True), ((8, 0, 0), False), ((20, 59, 0), False), ((21, 0, 1), True)]
)
def test_t5_the_edges_of_the_day(clock, held):
    moment = datetime(2026, 12, 2, *clock, tzinfo=ZoneInfo("America/Chicago"))
    assert (next_quiet_end(SHOP, moment, "America/Chicago") != moment) is held
