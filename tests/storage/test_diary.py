"""Nobody is booked twice: the diary's compare-and-set on both databases."""

from __future__ import annotations

import threading
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import Engine

from service.conversation.step import Book, CancelVisit, Move
from service.rulebook.model import Rulebook
from service.storage import threads
from service.storage.diary import DayChanged, apply, load_diary
from service.storage.engine import reading, writing
from tests.conftest import Clock


def booking(rulebook: Rulebook, clock: Clock, visit: str) -> Book:
    zone = ZoneInfo(rulebook.shop.timezone)
    start = datetime.combine(clock().astimezone(zone).date() + timedelta(days=2), datetime.min.time(), zone)
    start += timedelta(hours=10)
    return Book(
        visit=visit, tickets=("t1",), technician=rulebook.shop.technicians[0].id, start=start,
        end=start + timedelta(hours=2), minutes=60, address="12 Saltbush Ct", postal_code=next(iter(rulebook.shop.area)),
    )  # fmt: skip


def test_a_booking_made_on_a_stale_diary_is_refused(shop_engine: Engine, rulebook: Rulebook, clock: Clock) -> None:
    with reading(shop_engine) as connection:
        seen = load_diary(connection, rulebook.shop, clock()).versions
    with writing(shop_engine) as connection:
        row = threads.lock_by_number(connection, "demo", "+15055550101", "loopback", clock())
        apply(connection, row, rulebook.shop, booking(rulebook, clock, "v1"), seen, clock())

    with pytest.raises(DayChanged), writing(shop_engine) as connection:
        apply(connection, row, rulebook.shop, booking(rulebook, clock, "v2"), seen, clock())
    with reading(shop_engine) as connection:
        assert [b.visit_id for b in load_diary(connection, rulebook.shop, clock()).booked] == ["v1"]


def test_of_two_at_the_same_moment_one_gets_the_day(shop_engine: Engine, rulebook: Rulebook, clock: Clock) -> None:
    both_have_seen = threading.Barrier(2)
    results: list[str] = []

    def take(number: str, visit: str) -> None:
        with reading(shop_engine) as connection:
            seen = load_diary(connection, rulebook.shop, clock()).versions
        both_have_seen.wait(timeout=10)
        try:
            with writing(shop_engine) as connection:
                row = threads.lock_by_number(connection, "demo", number, "loopback", clock())
                apply(connection, row, rulebook.shop, booking(rulebook, clock, visit), seen, clock())
            results.append("booked")
        except DayChanged:
            results.append("refused")

    racers = [threading.Thread(target=take, args=(f"+1505555010{n}", f"v{n}")) for n in (1, 2)]
    for racer in racers:
        racer.start()
    for racer in racers:
        racer.join(timeout=30)

    assert sorted(results) == ["booked", "refused"]


def test_a_moved_visit_counts_up_and_a_cancelled_one_frees_its_hours(
    shop_engine: Engine, rulebook: Rulebook, clock: Clock
) -> None:
    book = booking(rulebook, clock, "v1")
    later = book.start + timedelta(days=1)
    with writing(shop_engine) as connection:
        row = threads.lock_by_number(connection, "demo", "+15055550101", "loopback", clock())
        apply(connection, row, rulebook.shop, book, {}, clock())
        move = Move(visit="v1", technician=book.technician, start=later, end=later + timedelta(hours=2))
        apply(connection, row, rulebook.shop, move, {}, clock())

    with reading(shop_engine) as connection:
        diary = load_diary(connection, rulebook.shop, clock())
    assert [b.start for b in diary.booked] == [later]
    zone = ZoneInfo(rulebook.shop.timezone)
    assert diary.versions[book.start.astimezone(zone).date()] == 2
    assert diary.versions[later.astimezone(zone).date()] == 1

    with writing(shop_engine) as connection:
        apply(connection, row, rulebook.shop, CancelVisit(visit="v1", why="asked"), {}, clock())
    with reading(shop_engine) as connection:
        assert load_diary(connection, rulebook.shop, clock()).booked == ()
