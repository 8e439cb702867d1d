"""SQLite belongs to one process: a lock file beside the database says whose it is."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO


class DatabaseInUse(Exception):
    """Another process holds the database."""


def database_file(url: str) -> Path | None:
    """The file of a ``sqlite:///`` URL; None for a server or for a database in memory."""
    path = url.removeprefix("sqlite:///")
    return Path(path) if path not in (url, "", ":memory:") else None


@contextmanager
def only_process(url: str) -> Iterator[None]:
    """
    Hold the lock of the SQLite database at *url* while the body runs; a PostgreSQL URL needs none.

    The kernel frees the lock when the process ends, however it ends. Raises DatabaseInUse with the holder's process id, or
    with what keeps the file from being written.
    """
    file = database_file(url)
    if file is None:
        yield
        return
    with _lock_of(file) as handle:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            handle.seek(0)
            holder = handle.read().strip() or "unknown"
            raise DatabaseInUse(
                f"{file} is in use by process {holder}. Stop that one first, or use PostgreSQL for several processes."
            ) from None
        handle.truncate(0)
        handle.write(str(os.getpid()))
        handle.flush()
        yield


def _lock_of(file: Path) -> TextIO:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        return file.with_name(file.name + ".lock").open("a+")
    except OSError as wrong:
        raise DatabaseInUse(
            f"{file} cannot be written ({wrong.strerror}). Make its folder writable, or name another in PLAINFAULT_DATABASE."
        ) from None
