"""What only a database on the other end of a wire has: connections that may have gone, and answers that are waited for."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import psycopg
from sqlalchemy import Connection, Engine, event
from sqlalchemy.exc import DisconnectionError

from service.storage.ready import as_ours

RESTED_S = 1.0
"""A connection unused for so long is asked whether it still stands. To ask each time costs a twentieth of a turn."""


def watch_connections(engine: Engine) -> None:
    """Let *engine* ask a connection that rested whether it still stands, and take a fresh one if it does not."""
    event.listen(engine, "checkin", _rests)
    event.listen(engine, "checkout", _ask)


def _rests(_connection: Any, record: Any) -> None:
    record.info["rests_since"] = time.monotonic()


def _ask(connection: Any, record: Any, _proxy: Any) -> None:
    now = time.monotonic()
    if now - record.info.get("rests_since", now) < RESTED_S:
        return
    try:
        connection.execute("SELECT 1")
        connection.rollback()
    except psycopg.Error as gone:
        raise DisconnectionError(str(gone)) from gone  # the pool drops this connection and opens another


@contextmanager
def unread(connection: Connection) -> Iterator[None]:
    """
    Send statements whose results nobody reads without waiting for the answer of each.

    Nothing inside may read a row or a row count. What the database refuses is raised by the end of the block, in the
    library's own errors as ever. Elsewhere than on PostgreSQL statements are run one by one.
    """
    if connection.dialect.name != "postgresql":
        yield
        return
    driver: Any = connection.connection.driver_connection
    try:
        with driver.pipeline():
            yield
    except psycopg.Error as wrong:
        raise as_ours(connection, wrong) from wrong
