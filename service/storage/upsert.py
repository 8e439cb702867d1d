"""Insert-unless-there, the one statement that SQLite and PostgreSQL spell differently."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from sqlalchemy import Connection, ScalarSelect, Table
from sqlalchemy.dialects import postgresql, sqlite

from service.storage import ready

_DIALECTS: Mapping[str, Any] = {"postgresql": postgresql, "sqlite": sqlite}


def _fresh_once(dialect: str, table: Table, key: tuple[str, ...]) -> Any:
    return _DIALECTS[dialect].insert(table).on_conflict_do_nothing(index_elements=list(key))


# Built once and filled by parameters: building a statement costs as much as running it.
_once = cache(_fresh_once)


@cache
def _once_numbered(dialect: str, table: Table, key: tuple[str, ...], number: ScalarSelect[int], column: str) -> Any:
    return _once(dialect, table, key).values({column: number})


@cache
def _once_telling(dialect: str, table: Table, key: tuple[str, ...], told: ScalarSelect[Any]) -> Any:
    # Not of the one that was built: once compiled, the library remembers that it gives nothing, and so would this.
    return _fresh_once(dialect, table, key).returning(told)


@cache
def _or_update(dialect: str, table: Table, key: tuple[str, ...], update: tuple[str, ...]) -> Any:
    statement = _DIALECTS[dialect].insert(table)
    changed = {name: getattr(statement.excluded, name) for name in update}
    return statement.on_conflict_do_update(index_elements=list(key), set_=changed)


def insert_once(connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str]) -> bool:
    """Insert *values* (plain ones) unless a row with the same *key* columns stands; True if this call inserted it."""
    statement = _once(connection.dialect.name, table, tuple(key))
    return ready.change(connection, statement, values) == 1


def insert_once_telling(
    connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str], told: ScalarSelect[Any]
) -> Any:
    """As ``insert_once``; what *told* gives, whose parameters stand in *values* too, or None if the row stood before."""
    statement = _once_telling(connection.dialect.name, table, tuple(key), told)
    return ready.row(connection, statement, values)


def insert_each_once(
    connection: Connection, table: Table, rows: Sequence[Mapping[str, Any]], key: Sequence[str]
) -> None:
    """As ``insert_once`` for each of *rows*, which all name the same columns; nothing is said of which were new."""
    ready.change_each(connection, _once(connection.dialect.name, table, tuple(key)), rows)


def insert_numbered(
    connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str], **number: ScalarSelect[int]
) -> bool:
    """As ``insert_once``; the one column in *number* gets what its query gives, whose parameters stand in *values* too."""
    ((column, query),) = number.items()
    statement = _once_numbered(connection.dialect.name, table, tuple(key), query, column)
    return ready.change(connection, statement, values) == 1


def insert_or_update(
    connection: Connection,
    table: Table,
    rows: Sequence[Mapping[str, Any]],
    key: Sequence[str],
    update: Sequence[str],
) -> None:
    """
    Insert each of *rows* (plain values), or set the *update* columns of the row that has the same *key* columns.

    All rows name the same columns, and no two the same key.
    """
    # One statement run for many rows: one with a list of rows inside is built anew each time.
    ready.change_each(connection, _or_update(connection.dialect.name, table, tuple(key), tuple(update)), rows)
