"""Statements sent without waiting for each answer, and connections that have gone while they rested."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from sqlalchemy import Connection, Engine, func, insert, select, text
from sqlalchemy.exc import IntegrityError, OperationalError

from service.storage import postgresql, ready
from service.storage.engine import open_engine, reading, writing
from service.storage.ledgers import consents
from service.storage.postgresql import unread
from tests.conftest import PostgresServer

AT = datetime(2026, 12, 1, 17, 0, tzinfo=UTC)


def note(connection: Connection, identity: str) -> None:
    row = {"id": identity, "shop": "demo", "number": "+15055550101", "change": "in", "words": "start", "at": AT}
    connection.execute(insert(consents), row)


def write(engine: Engine, *identities: str, then: Exception | None = None) -> None:
    with writing(engine) as connection, unread(connection):
        for identity in identities:
            note(connection, identity)
        if then is not None:
            raise then


def notes(engine: Engine) -> list[str]:
    with reading(engine) as connection:
        return list(connection.execute(select(consents.c.id).order_by(consents.c.id)).scalars())


def test_what_is_sent_unread_is_written_in_order_and_seen_after_it(engine: Engine) -> None:
    with writing(engine) as connection:
        with unread(connection):
            note(connection, "a")
            note(connection, "b")
        assert connection.execute(select(func.count()).select_from(consents)).scalar_one() == 2
    assert notes(engine) == ["a", "b"]


def test_what_the_database_refuses_undoes_the_transaction_in_the_librarys_own_error(engine: Engine) -> None:
    with pytest.raises(IntegrityError):
        write(engine, "a", "a", "b")
    assert notes(engine) == []
    write(engine, "c")  # and the connection is good for the next one
    assert notes(engine) == ["c"]


def test_an_error_of_ours_inside_is_raised_as_it_is(engine: Engine) -> None:
    with pytest.raises(LookupError, match="ours"):
        write(engine, "a", then=LookupError("ours"))
    assert notes(engine) == []


@pytest.fixture
def far(postgres: PostgresServer) -> Iterator[Engine]:
    """An engine whose database is another process."""
    url = postgres.fresh()
    opened = open_engine(url)
    yield opened
    opened.dispose()
    postgres.done(url)


def cut(engine: Engine, number: int) -> None:
    """End the server's side of a connection from outside."""
    other = open_engine(str(engine.url.render_as_string(hide_password=False)))
    with other.begin() as connection:
        connection.execute(text("SELECT pg_terminate_backend(:number)"), {"number": number})
    other.dispose()


def number_of(connection: Connection) -> int:
    return int(connection.execute(select(func.pg_backend_pid())).scalar_one())


def write_after_a_cut(engine: Engine) -> None:
    with writing(engine) as connection:
        cut(engine, number_of(connection))
        with unread(connection):
            note(connection, "a")


@pytest.mark.postgres
def test_a_connection_lost_in_between_is_the_librarys_own_error_and_not_used_again(far: Engine) -> None:
    with pytest.raises(OperationalError) as told:
        write_after_a_cut(far)
    assert told.value.connection_invalidated
    write(far, "b")
    assert notes(far) == ["b"]


@pytest.mark.postgres
def test_one_lost_before_a_statement_that_is_ready_is_not_used_again_either(far: Engine) -> None:
    def look_after_a_cut() -> None:
        with writing(far) as connection:
            cut(far, number_of(connection))
            ready.rows(connection, select(consents.c.id), {})

    with pytest.raises(OperationalError) as told:
        look_after_a_cut()
    assert told.value.connection_invalidated
    write(far, "b")
    assert notes(far) == ["b"]


@pytest.mark.postgres
@pytest.mark.parametrize(("rested_s", "replaced"), [(0.0, True), (3600.0, False)])
def test_a_connection_that_went_while_it_rested_is_replaced(
    far: Engine, monkeypatch: pytest.MonkeyPatch, rested_s: float, replaced: bool
) -> None:
    monkeypatch.setattr(postgresql, "RESTED_S", rested_s)
    with writing(far) as connection:
        number = number_of(connection)
    cut(far, number)
    if not replaced:  # one just used is taken at its word; the text is not acknowledged then, and comes again
        with pytest.raises(OperationalError):
            write(far, "lost")
    write(far, "a")
    assert notes(far) == ["a"]
