"""Insert-unless-there, the one statement that SQLite and PostgreSQL spell differently."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

from sqlalchemy import Connection, ScalarSelect, Table, bindparam
from sqlalchemy.dialects import postgresql, sqlite

Shape = tuple[tuple[str, ...], int]
"""The columns of a statement and how many rows it writes."""

_DIALECTS: Mapping[str, Any] = {"postgresql": postgresql, "sqlite": sqlite}


@cache
def _once(dialect: str, table: Table, key: tuple[str, ...]) -> Any:
    # Built once and filled by parameters: building a statement costs as much as running it.
    statement = _DIALECTS[dialect].insert(table).on_conflict_do_nothing(index_elements=list(key))
    # Without the option the library drops an insert's row count on PostgreSQL, and every text would look like a repeat.
    return statement.execution_options(preserve_rowcount=True)


@cache
def _once_numbered(dialect: str, table: Table, key: tuple[str, ...], number: ScalarSelect[int], column: str) -> Any:
    return _once(dialect, table, key).values({column: number})


@cache
def _or_update(dialect: str, table: Table, key: tuple[str, ...], update: tuple[str, ...], shape: Shape) -> Any:
    columns, rows = shape
    statement = _DIALECTS[dialect].insert(table)
    if rows > 1:
        # Further rows do not take the type from the column by themselves.
        typed = {name: table.c[name].type for name in columns}
        statement = statement.values(
            [{name: bindparam(f"{name}_{row}", type_=kind) for name, kind in typed.items()} for row in range(rows)]
        )
    changed = {name: getattr(statement.excluded, name) for name in update}
    return statement.on_conflict_do_update(index_elements=list(key), set_=changed)


def insert_once(connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str]) -> bool:
    """Insert *values* (plain ones) unless a row with the same *key* columns stands; True if this call inserted it."""
    statement = _once(connection.dialect.name, table, tuple(key))
    return bool(connection.execute(statement, dict(values)).rowcount == 1)


def insert_numbered(
    connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str], **number: ScalarSelect[int]
) -> bool:
    """As ``insert_once``; the one column in *number* gets what its query gives, whose parameters stand in *values* too."""
    ((column, query),) = number.items()
    statement = _once_numbered(connection.dialect.name, table, tuple(key), query, column)
    return bool(connection.execute(statement, dict(values)).rowcount == 1)


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
    if len(rows) == 1:
        connection.execute(
            _or_update(connection.dialect.name, table, tuple(key), tuple(update), ((), 1)), dict(rows[0])
        )
    elif rows:
        shape = (tuple(rows[0]), len(rows))
        values = {f"{name}_{place}": row[name] for place, row in enumerate(rows) for name in row}
        connection.execute(_or_update(connection.dialect.name, table, tuple(key), tuple(update), shape), values)
