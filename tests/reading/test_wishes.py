"""When somebody may come, in both languages, free of zone and calendar."""

from __future__ import annotations

from datetime import time

import pytest

from service.reading.model import Asked, Wish
from service.reading.reader import Reader

OFFER = Asked("offer", offers=("Tuesday 8-10", "Wednesday 10-12", "Thursday 1-3"))


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("any day but friday after 3", Wish(days_out=("fri",), start=time(15))),
        ("el jueves por la mañana", Wish(days_in=("thu",), part="morning")),
        ("tomorrow morning", Wish(relative=(1,), part="morning")),
        ("mañana por la tarde", Wish(relative=(1,), part="afternoon")),
        ("tues after 3", Wish(days_in=("tue",), start=time(15))),
        ("cualquier día menos el viernes", Wish(days_out=("fri",))),
        ("12/3", Wish(dates=((12, 3),))),
        ("dec 4 before noon", Wish(dates=((12, 4),), end=time(12))),
        ("asap", Wish(soonest=True)),
        ("next week", Wish(week="next")),
        ("weekends only", Wish(days_in=("sat", "sun"))),
        ("between 10 and 12", Wish(start=time(10), end=time(12))),
        ("monday or wednesday", Wish(days_in=("mon", "wed"))),
        ("despues de las 4", Wish(start=time(16))),
        ("thurs after lunch", Wish(days_in=("thu",), part="afternoon")),
    ],
)
def test_a_wish_is_read(reader: Reader, text: str, wish: Wish) -> None:
    found = reader.read(text, asked=OFFER).wish
    assert found is not None
    for field in ("days_in", "days_out", "dates", "relative", "week", "start", "end", "part", "soonest"):
        assert getattr(found, field) == getattr(wish, field), field


@pytest.mark.parametrize("text", ["good morning", "it is 3 years old", "it leaks after 5 minutes"])
def test_what_is_no_wish_is_none(reader: Reader, text: str) -> None:
    assert reader.read(text).wish is None
