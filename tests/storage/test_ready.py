"""Statements run on the driver's own cursor say and do what they would through the library."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Connection, Engine, bindparam, delete, insert, select, text, update
from sqlalchemy.exc import IntegrityError, OperationalError, ProgrammingError

from service.storage import ready
from service.storage.engine import writing
from service.storage.ledgers import buckets
from service.storage.postgresql import unread
from service.storage.tables import shops, threads, visits, wakes

AT = datetime(2026, 12, 1, 17, 0, 0, 123456, tzinfo=UTC)
_ADD = insert(wakes)
_OF_KEY = select(wakes.c.id, wakes.c.due_at, wakes.c.version, wakes.c.data).where(wakes.c.key == bindparam("keyed"))
_ALL = select(*wakes.c).order_by(wakes.c.id)
_MOVE = update(wakes).where(wakes.c.kind == bindparam("of_kind")).values(kind="moved")
_TAKE_SHOP = (
    update(shops)
    .where(shops.c.shop == bindparam("of_shop"))
    .values(next_ticket=shops.c.next_ticket + 1)
    .returning(shops.c.next_ticket, shops.c.paused)
)


def wake(key: str, **other: Any) -> dict[str, Any]:
    return {
        "id": f"id-{key}", "shop": "demo", "thread": "t", "kind": "rest", "key": key, "ticket": None, "version": None,
        "data": {}, "due_at": AT, "done_at": None, "result": None, **other,
    }  # fmt: skip


def both(connection: Connection, statement: Any, values: dict[str, Any]) -> tuple[list[Any], list[Any]]:
    ours = [tuple(row) for row in ready.rows(connection, statement, values)]
    return ours, [tuple(row) for row in connection.execute(statement, values)]


words = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"))
documents = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**50), 2**50) | words,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from("abc"), inner, max_size=3),
    max_leaves=6,
)  # fmt: skip


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=30, deadline=None)
@given(data=documents, days=st.integers(-10_000, 10_000), version=st.none() | st.integers(0, 2**31 - 1))
def test_what_was_written_is_read_as_the_library_reads_it(
    engine: Engine, data: Any, days: int, version: int | None
) -> None:
    due = AT + timedelta(days=days)
    with writing(engine) as connection:
        connection.execute(delete(wakes))
        assert ready.change(connection, _ADD, wake("k", data={"it": data}, due_at=due, version=version)) == 1
        ours, theirs = both(connection, _OF_KEY, {"keyed": "k"})
    assert ours == theirs == [("id-k", due, version, {"it": data})]


def test_columns_go_by_name_and_by_place_and_nobody_is_none(engine: Engine) -> None:
    with writing(engine) as connection:
        ready.change(connection, _ADD, wake("k"))
        found = ready.row(connection, _OF_KEY, {"keyed": "k"})
        assert (found.id, found[0], found.due_at) == ("id-k", "id-k", AT)
        assert ready.row(connection, _OF_KEY, {"keyed": "another"}) is None
        assert ready.rows(connection, _OF_KEY, {"keyed": "another"}) == []


def test_it_is_counted_what_changed(engine: Engine) -> None:
    with writing(engine) as connection:
        assert ready.change_each(connection, _ADD, []) == 0
        assert ready.change_each(connection, _ADD, [wake("a")]) == 1
        assert ready.change_each(connection, _ADD, [wake("b"), wake("c", kind="other")]) == 2
        assert ready.change(connection, _MOVE, {"of_kind": "rest"}) == 2
        assert ready.change(connection, _MOVE, {"of_kind": "rest"}) == 0
        ours, theirs = both(connection, _ALL, {})
    assert ours == theirs
    assert [row[3] for row in ours] == ["moved", "moved", "other"]


def test_a_change_that_tells_keeps_the_types_of_its_columns(shop_engine: Engine) -> None:
    with writing(shop_engine) as connection:
        first = ready.row(connection, _TAKE_SHOP, {"of_shop": "demo"})
        again = ready.row(connection, _TAKE_SHOP, {"of_shop": "demo"})
    assert (first.next_ticket + 1, first.paused) == (again.next_ticket, False)
    assert first.paused is False


def test_floats_and_days_and_lists_of_values(engine: Engine) -> None:
    day, some = date(2026, 12, 1), ("standing", "tentative")
    add, each = insert(buckets), select(buckets.c.tokens).where(ready.one_of(buckets.c.name, ("a", "b")))
    nobody = select(buckets.c.tokens).where(ready.one_of(buckets.c.name, ()))
    visit = {
        "id": "v", "shop": "demo", "technician": "t", "day": day, "start_at": AT, "end_at": AT, "minutes": 60, "lat": 35.1,
        "lon": -106.6, "address": "1 Invented St", "postal_code": "87106", "status": "standing", "version": 0, "uid": "u",
        "created_at": AT, "changed_at": AT,
    }  # fmt: skip
    of_day = select(visits.c.day, visits.c.lat).where(
        visits.c.day == bindparam("of_day"), ready.one_of(visits.c.status, some)
    )
    with writing(engine) as connection:
        for name in "abc":
            ready.change(connection, add, {"shop": "demo", "name": name, "tokens": 2.5, "at": AT})
        ready.change(connection, insert(visits), visit)
        assert both(connection, each, {}) == ([(2.5,), (2.5,)], [(2.5,), (2.5,)])
        assert ready.rows(connection, nobody, {}) == []
        assert both(connection, of_day, {"of_day": day}) == ([(day, 35.1)], [(day, 35.1)])


def test_what_the_library_would_add_by_itself_is_asked_for(engine: Engine) -> None:
    lacking = {"id": "t", "shop": "demo", "number": "+15055550101"}
    with writing(engine) as connection:
        with pytest.raises(ValueError, match="give turns too"):
            ready.change(connection, insert(threads), lacking)
        with pytest.raises(ValueError, match="one_of"):
            ready.rows(connection, select(wakes.c.id).where(wakes.c.kind.in_(("a", "b"))), {})


def write(engine: Engine, *keys: str) -> None:
    with writing(engine) as connection:
        for key in keys:
            ready.change(connection, _ADD, wake(key))


def look_where_nothing_is(engine: Engine) -> None:
    with writing(engine) as connection:
        connection.execute(text("DROP TABLE wakes"))
        ready.rows(connection, _OF_KEY, {"keyed": "a"})


def test_what_the_database_refuses_is_the_librarys_own_error(engine: Engine) -> None:
    with pytest.raises(IntegrityError):
        write(engine, "a", "a")
    with pytest.raises((OperationalError, ProgrammingError)):
        look_where_nothing_is(engine)
    with writing(engine) as connection:  # and nothing of either stands
        assert ready.rows(connection, _ALL, {}) == []


def test_unread_ones_fail_with_the_librarys_error_too(engine: Engine) -> None:
    def unread_ones() -> None:
        with writing(engine) as connection, unread(connection):
            for key in ("a", "a", "b"):
                ready.change(connection, _ADD, wake(key))

    with pytest.raises(IntegrityError):
        unread_ones()
    with writing(engine) as connection:
        assert ready.rows(connection, _ALL, {}) == []
