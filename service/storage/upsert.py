"""Insert-unless-there, the one statement that SQLite and PostgreSQL spell differently."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, Table
from sqlalchemy.dialects import postgresql, sqlite


def _insert(connection: Connection, table: Table) -> Any:
    return (postgresql if connection.dialect.name == "postgresql" else sqlite).insert(table)


def insert_once(connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str]) -> bool:
    """Insert *values* unless a row with the same *key* columns stands; True if this call inserted it."""
    statement = _insert(connection, table).values(**values).on_conflict_do_nothing(index_elements=list(key))
    # Without the option the library drops an insert's row count on PostgreSQL, and every text would look like a repeat.
    result = connection.execute(statement.execution_options(preserve_rowcount=True))
    return bool(result.rowcount == 1)


def insert_or_update(
    connection: Connection, table: Table, values: Mapping[str, Any], key: Sequence[str], update: Sequence[str]
) -> None:
    """Insert *values*, or set the *update* columns of the row that has the same *key* columns."""
    statement = _insert(connection, table).values(**values)
    changed = {name: getattr(statement.excluded, name) for name in update}
    connection.execute(statement.on_conflict_do_update(index_elements=list(key), set_=changed))
