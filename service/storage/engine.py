"""The database: one engine for SQLite or PostgreSQL, and the two ways to use it, reading and writing."""

from __future__ import annotations

import secrets
import threading
import time
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from weakref import WeakKeyDictionary

from pydantic_core import from_json, to_json
from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import OperationalError

from service.storage.folding import SQLITE_FUNCTION, fold
from service.storage.postgresql import watch_connections

TRY_AGAIN_S = 1.0
"""Between two tries to reach a database that does not answer."""


class FairLock:
    """
    A lock taken in the order of asking.

    The standard one goes to whoever runs when it is freed, so a busy web thread would keep the sender out for seconds.
    """

    def __init__(self) -> None:
        self._guard = threading.Lock()
        self._waiting: deque[threading.Lock] = deque()
        self._taken = False

    def __enter__(self) -> None:
        with self._guard:
            if not self._taken:
                self._taken = True
                return
            mine = threading.Lock()
            mine.acquire()
            self._waiting.append(mine)
        mine.acquire()  # released by whoever leaves, which hands the lock over as it stands

    def __exit__(self, *_: object) -> None:
        with self._guard:
            if self._waiting:
                self._waiting.popleft().release()
            else:
                self._taken = False


_DOCUMENTS: dict[str, Any] = {"json_serializer": lambda value: to_json(value).decode(), "json_deserializer": from_json}
"""How JSON columns are written and read: a turn keeps several documents, and the standard library takes ten times as long."""

_WRITERS: WeakKeyDictionary[Engine, FairLock] = WeakKeyDictionary()


def open_engine(url: str) -> Engine:
    """
    An engine for *url* (``sqlite:///file`` or ``postgresql+psycopg://...``).

    SQLite runs in WAL mode with full sync, so that a committed text survives a power cut; its writers begin immediate,
    because a transaction that reads first and writes later could otherwise fail in the middle of a turn. Transactions are
    those of ``writing`` and ``reading``; what runs outside of them is its own.
    """
    if not url.startswith("sqlite"):
        engine = create_engine(url, pool_size=8, max_overflow=8, **_DOCUMENTS)
        watch_connections(engine)
        return engine
    engine = create_engine(url, connect_args={"timeout": 30, "check_same_thread": False}, pool_size=8, **_DOCUMENTS)
    event.listen(engine, "connect", _set_up_sqlite)
    _WRITERS[engine] = FairLock()
    return engine


def await_database(
    engine: Engine,
    patience_s: float,
    tell: Callable[[str], None],
    *,
    clock: Callable[[], float] = time.monotonic,
    pause: Callable[[float], None] = time.sleep,
) -> None:
    """
    Wait until the database answers: after a power cut it may come back later than we do.

    *tell* is told once that we wait, and why. Raises the database's own error after *patience_s* seconds.
    """
    begun, told = clock(), False
    while True:
        try:
            with engine.connect():
                return
        except OperationalError as wrong:
            if clock() - begun >= patience_s:
                raise
            if not told:
                why = str(wrong.orig).strip().splitlines()[0].rstrip(".")
                tell(f"The database does not answer ({why}). Trying again for {patience_s:g} seconds.")
                told = True
            pause(TRY_AGAIN_S)


def _set_up_sqlite(connection: Any, _record: object) -> None:
    connection.isolation_level = None  # the driver must not begin transactions of its own; _begin does
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=30000"):
        connection.execute(f"PRAGMA {pragma}")
    connection.create_function(SQLITE_FUNCTION, 1, fold, deterministic=True)


def _begin(connection: Connection, how: str) -> None:
    """Begin at SQLite itself; by an event of the library instead, every statement would be asked who listens to it."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(how)


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One transaction that writes: committed at the end, rolled back if the body raises."""
    lock = _WRITERS.get(engine)
    if lock is None:
        with engine.begin() as connection:
            yield connection
        return
    with lock, engine.begin() as connection:  # waiting here is fair; waiting in SQLite's busy loop is not
        _begin(connection, "BEGIN IMMEDIATE")
        yield connection


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A consistent view that writes nothing and blocks nobody."""
    with engine.connect() as connection, connection.begin():
        _begin(connection, "BEGIN")
        yield connection


def new_id() -> str:
    """A random row id: 96 bits, hex."""
    return secrets.token_hex(12)
