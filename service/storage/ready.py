"""
Statements of the hot path: each is compiled once for a database, and then run on the driver's own cursor.

The library compiles a statement once too, but asks anew with every call what its parameters are, who listens and what comes
back; a turn has a dozen of them, and that asking took a seventh of it. Types, errors and transactions are the library's.
"""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

from sqlalchemy import ColumnElement, Connection, Dialect, false, or_
from sqlalchemy.exc import DBAPIError
from sqlalchemy.sql.compiler import SQLCompiler

Values = Mapping[str, Any]
Process = Callable[[Any], Any] | None


@dataclass(slots=True)
class _Ready:
    """
    What a driver needs of a statement. fixed: the parameters the statement brings itself. into, out_of: how values become
    what the driver takes and the other way; the latter is known with the first answer. order: of the parameters, for a
    driver that takes them by place.
    """

    words: str
    fixed: Values
    into: tuple[tuple[str, Callable[[Any], Any]], ...]
    order: tuple[str, ...] | None
    row: Callable[..., Any]
    types: tuple[Any, ...]
    out_of: tuple[Process, ...] | None = None

    def parameters(self, values: Values) -> Any:
        """*values* as the driver takes them. KeyError for one that is missing."""
        given = {**self.fixed, **values}
        for name, process in self.into:
            given[name] = process(given[name])
        return given if self.order is None else [given[name] for name in self.order]

    def rows(self, dialect: Dialect, cursor: Any) -> list[Any]:
        """All rows of *cursor*, their columns by name or by place."""
        out_of = self.out_of
        if out_of is None:
            codes = [column[1] for column in cursor.description]
            out_of = self.out_of = tuple(
                kind.result_processor(dialect, code) for kind, code in zip(self.types, codes, strict=True)
            )
        return [
            self.row(*[value if out is None else out(value) for value, out in zip(raw, out_of, strict=True)])
            for raw in cursor.fetchall()
        ]


_READY: WeakKeyDictionary[Dialect, dict[tuple[Any, tuple[str, ...]], _Ready]] = WeakKeyDictionary()


def one_of(column: ColumnElement[Any], values: Collection[Any]) -> ColumnElement[bool]:
    """*column* is one of *values*, for statements that are to be ready: the library writes a list anew with every call."""
    return or_(*(column == value for value in values)) if values else false()


def rows(connection: Connection, statement: Any, values: Values) -> list[Any]:
    """
    What *statement* gives for *values*: named tuples of its columns.

    *statement* lives as long as the process and names all its parameters; an insert is given every column that has a
    default, and no list stands inside it (``one_of`` instead): ValueError otherwise. Raises the library's own errors.
    """
    ready = _made_ready(connection.dialect, statement, values)
    cursor = _run(connection, ready, ready.parameters(values))
    found = ready.rows(connection.dialect, cursor)
    cursor.close()
    return found


def row(connection: Connection, statement: Any, values: Values) -> Any:
    """As ``rows``: the first of them, or None."""
    found = rows(connection, statement, values)
    return found[0] if found else None


def change(connection: Connection, statement: Any, values: Values) -> int:
    """Run a *statement* that gives no rows; how many it changed, which nobody knows while answers are not waited for."""
    ready = _made_ready(connection.dialect, statement, values)
    cursor = _run(connection, ready, ready.parameters(values))
    changed = int(cursor.rowcount)
    cursor.close()
    return changed


def change_each(connection: Connection, statement: Any, several: Sequence[Values]) -> int:
    """As ``change``, for each of *several* values, which all name the same parameters in the same order."""
    if len(several) < 2:
        return change(connection, statement, several[0]) if several else 0
    ready = _made_ready(connection.dialect, statement, several[0])
    cursor = _run(connection, ready, [ready.parameters(values) for values in several], many=True)
    changed = int(cursor.rowcount)
    cursor.close()
    return changed


def _run(connection: Connection, ready: _Ready, parameters: Any, *, many: bool = False) -> Any:
    cursor: Any = connection.connection.cursor()
    try:
        if many:
            cursor.executemany(ready.words, parameters)
        else:
            cursor.execute(ready.words, parameters)
    except connection.dialect.loaded_dbapi.Error as wrong:
        raise as_ours(connection, wrong, ready.words) from wrong
    return cursor


def as_ours(connection: Connection, wrong: Any, words: str | None = None) -> Exception:
    """The library's error for one of the driver's; a connection that is gone is not used again."""
    gone = connection.dialect.is_disconnect(wrong, connection.connection.driver_connection, None)
    if gone:
        connection.invalidate(wrong)
    error = connection.dialect.loaded_dbapi.Error
    ours: Exception = DBAPIError.instance(
        words, None, wrong, error, connection_invalidated=gone, dialect=connection.dialect
    )
    return ours


def _made_ready(dialect: Dialect, statement: Any, values: Values) -> _Ready:
    """Compiled for these names of values, or as it was compiled for them before."""
    known = _READY.get(dialect)
    if known is None:
        known = _READY.setdefault(dialect, {})
    key = (statement, tuple(values))
    found = known.get(key)
    if found is None:
        found = known[key] = _compiled(dialect, statement, tuple(values))
    return found


def _compiled(dialect: Dialect, statement: Any, names: tuple[str, ...]) -> _Ready:
    compiled: SQLCompiler = statement.compile(dialect=dialect, column_keys=list(names))
    if lacking := [column.name for column in (*compiled.insert_prefetch, *compiled.update_prefetch)]:
        raise ValueError(f"give {', '.join(lacking)} too: no default is looked for here, in {compiled.string}")
    if compiled.post_compile_params:
        raise ValueError(f"use one_of: a list that grows cannot stand in {compiled.string}")
    binds = {name: bind for bind, name in compiled.bind_names.items()}
    into = [(name, bind.type.dialect_impl(dialect).bind_processor(dialect)) for name, bind in binds.items()]
    columns = list(statement.exported_columns if statement.is_select else compiled.effective_returning or ())
    return _Ready(
        words=compiled.string,
        fixed={name: bind.effective_value for name, bind in binds.items() if not bind.required and name not in names},
        into=tuple((name, process) for name, process in into if process),
        order=tuple(compiled.positiontup) if compiled.positiontup is not None else None,
        row=namedtuple("Row", [column.key for column in columns], rename=True),
        types=tuple(column.type.dialect_impl(dialect) for column in columns),
    )
