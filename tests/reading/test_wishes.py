"""When somebody may come, in both languages, free of zone and calendar."""

from __future__ import annotations

from dataclasses import replace
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


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("el sábado no", Wish(days_out=("sat",))),
        ("el viernes tampoco", Wish(days_out=("fri",))),
        ("mañana no puedo", Wish(relative_out=(1,))),
        ("hoy no, mejor mañana", Wish(relative=(1,), relative_out=(0,))),
        ("el jueves?, el viernes no puedo", Wish(days_in=("thu",), days_out=("fri",))),
        ("el miercoles no, el jueves ya tarde", Wish(days_in=("thu",), days_out=("wed",), part="afternoon")),
        ("no el lunes no puedo, martes si", Wish(days_in=("tue",), days_out=("mon",))),
        ("jueves no me queda, viernes sí", Wish(days_in=("fri",), days_out=("thu",))),
        ("el jueves trabajo, el viernes estoy libre", Wish(days_in=("fri",), days_out=("thu",))),
        ("friday doesn't work for me", Wish(days_out=("fri",))),
        ("friday i have a dentist appt, saturday is fine", Wish(days_in=("sat",), days_out=("fri",))),
        ("tomorrow i can't", Wish(relative_out=(1,))),
        ("not monday, tuesday or friday", Wish(days_out=("mon", "tue", "fri"))),
        ("mejor la otra semana", Wish(week="next")),
        ("en la mañana no puedo", Wish(part="afternoon")),
        ("en la mañana porque en la tarde tengo diálisis", Wish(part="morning")),
        ("el viernes en la tarde no puedo", Wish(days_in=("fri",), part="morning")),
        ("mañana no puedo antes de las 3", Wish(relative=(1,), start=time(15))),
        ("mañana no estoy hasta las 5", Wish(relative=(1,), start=time(17))),
        ("friday but not before 3", Wish(days_in=("fri",), start=time(15))),
        ("friday no problem", Wish(days_in=("fri",))),
        ("el viernes no hay problema", Wish(days_in=("fri",))),
        ("would friday work", Wish(days_in=("fri",))),
        ("el lunes tengo libre", Wish(days_in=("mon",))),
    ],
)
def test_what_is_ruled_out_before_or_behind_a_day_is_no_wish_for_it(reader: Reader, text: str, wish: Wish) -> None:
    found = reader.read(text, asked=OFFER).wish
    assert found is not None
    for field in ("days_in", "days_out", "relative", "relative_out", "week", "start", "end", "part"):
        assert getattr(found, field) == getattr(wish, field), field


@pytest.mark.parametrize("text", ["el martes no puedo", "tuesday doesn't work", "el martes no"])
def test_an_offer_whose_day_is_ruled_out_is_not_taken(reader: Reader, text: str) -> None:
    answer = reader.read(text, asked=OFFER).answer
    assert answer is None or answer.kind != "choice"


@pytest.mark.parametrize("text", ["la otra semana se descompuso", "every friday it stops"])
def test_a_week_gone_by_is_no_wish(reader: Reader, text: str) -> None:
    assert reader.read(text).wish is None


def test_sunset_in_an_address_is_not_as_soon_as_possible(reader: Reader) -> None:
    assert reader.read("Sunset Villa Mobile Home Park space 45", asked=Asked("address")).wish is None


@pytest.mark.parametrize("text", ["good morning", "it is 3 years old", "it leaks after 5 minutes"])
def test_what_is_no_wish_is_none(reader: Reader, text: str) -> None:
    assert reader.read(text).wish is None


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("before 11 or after 3", Wish(end=time(11), also=((time(15), None),))),
        ("after 3 or before 11", Wish(start=time(15), also=((None, time(11)),))),
        ("mornings or after 4", Wish(part="morning", also=((time(16), None),))),
        ("8 to 10 or 3 to 5", Wish(start=time(8), end=time(10), also=((time(15), time(17)),))),
        ("before 10:30 or after 3:30", Wish(end=time(10, 30), also=((time(15, 30), None),))),
        ("im free before 11 and after 3", Wish(end=time(11), also=((time(15), None),))),
        ("antes de las 11 o despues de las 3", Wish(end=time(11), also=((time(15), None),))),
        ("antes de las 10 o entre 3 y 5", Wish(end=time(10), also=((time(15), time(17)),))),
        ("después de las 3 o en la mañana", Wish(start=time(15), also=((None, time(12)),))),
        ("i work 8 to 4, anything after?", Wish(start=time(16))),
        ("i work 7 to 3 so before or after that", Wish(end=time(7), also=((time(15), None),))),
        ("i work 8 to 4, after 5 is best", Wish(start=time(17))),
        ("can you work me in 8 to 10", Wish(start=time(8), end=time(10))),
        ("trabajo de 8 a 4, algo despues?", Wish(start=time(16))),
        ("de 8 a 4 trabajo, hay algo despues?", Wish(start=time(16))),
        ("after 3 or 4", Wish(start=time(15))),
        ("tuesday or wednesday after 3", Wish(days_in=("tue", "wed"), start=time(15))),
        ("the wed 10 one", Wish(days_in=("wed",), start=time(10))),
        ("the thurs 1 slot", Wish(days_in=("thu",), start=time(13))),
        ("la de las 8 del miercoles", Wish(days_in=("wed",), start=time(8))),
    ],
)
def test_stretches_of_the_day_and_windows_by_their_hour(reader: Reader, text: str, wish: Wish) -> None:
    found = reader.read(text, asked=OFFER).wish
    assert found is not None
    for field in ("days_in", "days_out", "start", "end", "part", "also"):
        assert getattr(found, field) == getattr(wish, field), field


TUE, THU = Wish(days_in=("tue",)), Wish(days_in=("thu",))


@pytest.mark.parametrize(
    ("text", "apart"),
    [
        ("tuesday before 11 or thursday after 3", [replace(TUE, end=time(11)), replace(THU, start=time(15))]),
        ("before 11 on tuesday or after 3 thursday", [replace(TUE, end=time(11)), replace(THU, start=time(15))]),
        ("tues before 11, thurs after 3", [replace(TUE, end=time(11)), replace(THU, start=time(15))]),
        ("tuesday before 11 thursday after 3", [replace(TUE, end=time(11)), replace(THU, start=time(15))]),
        ("tuesday after 2 and thursday after 4", [replace(TUE, start=time(14)), replace(THU, start=time(16))]),
        ("tuesday morning or thursday afternoon", [replace(TUE, part="morning"), replace(THU, part="afternoon")]),
        (
            "tuesday 8-10 or thursday 1-3",
            [replace(TUE, start=time(8), end=time(10)), replace(THU, start=time(13), end=time(15))],
        ),
        ("tuesday at 9 or thursday at 2", [replace(TUE, start=time(9)), replace(THU, start=time(14))]),
        ("tomorrow before 11 or thursday after 3", [Wish(relative=(1,), end=time(11)), replace(THU, start=time(15))]),
        (
            "mon or tuesday before 11 or thursday after 3",
            [Wish(days_in=("mon",), end=time(11)), replace(TUE, end=time(11)), replace(THU, start=time(15))],
        ),
        (
            "tuesday before 11 or after 4, or thursday after 3",
            [replace(TUE, end=time(11)), replace(TUE, start=time(16)), replace(THU, start=time(15))],
        ),
        ("el martes antes de las 11 o el jueves después de las 3", [replace(TUE, end=time(11)), replace(THU, start=time(15))]),
        ("martes en la mañana o jueves en la tarde", [replace(TUE, part="morning"), replace(THU, part="afternoon")]),
        ("el martes despues de las 2, el jueves antes de las 10", [replace(TUE, start=time(14)), replace(THU, end=time(10))]),
        ("mañana en la tarde o el jueves antes de las 11", [Wish(relative=(1,), part="afternoon"), replace(THU, end=time(11))]),
        (
            "el martes entre 8 y 10 o el jueves entre 3 y 5",
            [replace(TUE, start=time(8), end=time(10)), replace(THU, start=time(15), end=time(17))],
        ),
    ],
)  # fmt: skip
def test_hours_told_of_a_day_hold_for_that_day(reader: Reader, text: str, apart: list[Wish]) -> None:
    found = reader.read(text, asked=OFFER).wish
    assert found is not None
    fields = ("days_in", "relative", "start", "end", "part")
    assert [[getattr(one, f) for f in fields] for one in found.apart] == [
        [getattr(one, f) for f in fields] for one in apart
    ]
    assert reader.read(text).wish is not None


@pytest.mark.parametrize(
    "text",
    [
        "tuesday or thursday after 3", "before 11 or after 3 on tuesday or thursday", "thursday before 11 or after 3",
        "not tuesday, thursday after 3", "martes o jueves en la tarde", "tuesday after 3 or thursday after 3",
        "the tuesday one at 8", "monday to thursday after 3", "el martes o el jueves antes de las 10",
    ],
)  # fmt: skip
def test_hours_told_of_all_days_are_of_all_of_them(reader: Reader, text: str) -> None:
    found = reader.read(text, asked=OFFER).wish
    assert found is not None
    assert found.apart == ()


@pytest.mark.parametrize(
    ("text", "day"),
    [("after 3 thursday", "thu"), ("after 3pm on friday", "fri"), ("despues de las 3 el jueves", "thu")],
)
def test_an_hour_before_a_day_to_come_tells_no_beginning(reader: Reader, text: str, day: str) -> None:
    found = reader.read(text, asked=OFFER)
    assert found.wish is not None
    assert (found.wish.days_in, found.facts.get("since")) == ((day,), None)
