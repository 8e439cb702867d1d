"""
PostgreSQL on a disk that fills up while texts come: what is answered 200 is kept, and what is not comes again.

Run as root: python -m tests.durability.full_database. It mounts a small disk in memory, lets PostgreSQL live there, fills it
to the brim, frees it, delivers again what was not taken, and counts.
"""

from __future__ import annotations

import os
import socket
import subprocess
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest.mock import patch

from sqlalchemy import select
from sqlalchemy.exc import OperationalError

from service.storage.engine import open_engine, reading
from service.storage.tables import messages
from tests.benchmarks.bench_turn import request_bytes
from tests.conftest import PostgresServer
from tests.durability.harness import Carrier, Processes, rules_that_rest

SIZE, LEFT = "150m", 600_000
"""The disk, and the bytes that are left free on it when it is nearly full."""
REFUSED = 60
"""So many deliveries are refused before there is room again."""


@contextmanager
def small_disk() -> Iterator[Path]:
    """A disk of SIZE in memory, gone afterwards."""
    folder = Path(tempfile.mkdtemp(prefix="pf-disk-"))
    subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(folder)], check=True)
    folder.chmod(0o755)
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)
        folder.rmdir()


def deliver(port: int, number: int) -> int:
    """The status that the delivery of the n-th text is answered with, 0 for none."""
    heard = b""
    with socket.create_connection(("127.0.0.1", port), timeout=40) as line:
        line.sendall(request_bytes(port, number))
        while b"\r\n\r\n" not in heard and (more := line.recv(65536)):
            heard += more
    return int(heard.split(b" ")[1]) if heard else 0


def fill(line: Processes, disk: Path, begun: int) -> dict[int, int]:
    """Deliver texts from *begun* on until REFUSED of them were refused, the disk being full; the status of each."""
    state = os.statvfs(disk)
    (disk / "ballast").write_bytes(b"\0" * (state.f_bavail * state.f_frsize - LEFT))
    answered: dict[int, int] = {}
    while sum(status != 200 for status in answered.values()) < REFUSED:
        answered[begun + len(answered)] = deliver(line.port, begun + len(answered))
    (disk / "ballast").unlink()
    return answered


def run(disk: Path, folder: Path) -> None:
    """The whole course, and what it comes to."""
    make = tempfile.mkdtemp
    with patch.object(tempfile, "mkdtemp", lambda *a, **k: make(*a, **{**k, "dir": str(disk)})):
        server = PostgresServer()
    server.stop("fast")
    server.start(fsync="on")
    url = server.fresh()
    carrier = Carrier(faults=0)
    line = Processes(url, rules_that_rest(folder, 0), carrier, folder)
    try:
        line.start()
        answered = {number: deliver(line.port, number) for number in range(200)}
        answered |= fill(line, disk, len(answered))
        print("while it filled up:", dict(Counter(answered.values())))
        try:
            open_engine(url).connect().close()
        except OperationalError:
            server.start(fsync="on")  # it gave up; with room again it recovers
        again = {number: deliver(line.port, number) for number, status in answered.items() if status != 200}
        print("delivered again:", dict(Counter(again.values())))
        time.sleep(8)  # the sender's own time
        with reading(open_engine(url)) as connection:
            query = select(messages.c.carrier_id, messages.c.turn).where(messages.c.direction == "in")
            kept = connection.execute(query).all()
        taken = {f"b{number}" for number, status in (answered | again).items() if status == 200}
        lost, twice = taken - {row.carrier_id for row in kept}, len(kept) - len({row.carrier_id for row in kept})
        without = sum(row.turn is None for row in kept)
        print(f"of {len(taken)} texts answered 200: lost {len(lost)}, twice {twice}, without a turn {without}")
        print("tracebacks in the log:", (folder / "log").read_text().count("Traceback"))
    finally:
        line.kill()
        carrier.close()
        server.remove()


if __name__ == "__main__":
    with small_disk() as small, tempfile.TemporaryDirectory() as place:
        run(small, Path(place))
