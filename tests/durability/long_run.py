"""
Two hundred kills in five thousand texts: counts what is lost, doubled, or left for a person, and says so.

Run: python -m tests.durability.long_run sqlite|postgresql [--keys] [--texts N] [--kills N] [--seed N]

Between the kills (-9, at random moments: the one process on SQLite; web, sender or both on PostgreSQL) the disk fills up
now and then, PostgreSQL itself crashes, and the carrier answers late, twice, never, with 500 or with garbage. Without
``--keys`` the carrier sends whatever it is given, so that a text handed over twice is a text sent twice.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from sqlalchemy import Engine, select

from service.storage.engine import open_engine, reading
from service.storage.migrate import upgrade
from service.storage.tables import outbox
from tests.conftest import PostgresServer
from tests.durability.fickle import FickleCarrier, full_disk, resident_mib, without_keys
from tests.durability.forked import Forked
from tests.durability.harness import Delivering, rules_that_rest
from tests.durability.test_kill import WORDS, check_texts, settle

SENDERS = [f"+1{area}55501{n:02}" for n in range(13, 100) for area in (505, 602, 720)]
BOOKING = (
    "dishwasher not working properly", "water stays in the bottom", "just send someone", "87106", "1200 Invented Rd NE", "2",
)  # fmt: skip
PAUSE_S = 1.2
"""Customers take their time, so that between two kills the sender, too, gets to do what it may be killed at."""

DISK_FULL_EVERY, CRASH_EVERY = 25, 20
"""After so many kills the disk fills up once; PostgreSQL crashes once."""


def texts(count: int, lot: random.Random) -> list[tuple[str, str, str]]:
    """id, sender, text: half of the senders try to book, the others write what comes to mind."""
    given = []
    for n in range(count):
        place, who = divmod(n, len(SENDERS))
        words = BOOKING[place % len(BOOKING)] if who % 2 else lot.choice(WORDS)
        given.append((f"m{n}", SENDERS[who], words))
    return given


class Run:
    """One long run."""

    def __init__(self, kind: str, keys: bool, folder: Path, lot: random.Random) -> None:
        self.keys, self.lot = keys, lot
        self.server = PostgresServer() if kind == "postgresql" else None
        if self.server:
            self.server.stop("fast")
            self.server.start(fsync="on")
            self.url = self.server.fresh()
        else:
            self.url = f"sqlite:///{folder / 'line.sqlite3'}"
            engine = open_engine(self.url)
            upgrade(engine)
            engine.dispose()
        self.carrier = FickleCarrier(keys=keys)
        self.processes = Forked(self.url, rules_that_rest(folder, 0.2), self.carrier, folder)
        if not keys:
            without_keys(self.processes.gateways / "standard.yaml")
        self.done: Counter[str] = Counter()

    def go(self, given: list[tuple[str, str, str]], kills: int) -> None:
        """Deliver *given*, killing *kills* times on the way; AssertionError when a promise is broken."""
        self.processes.start()
        delivering = Delivering(self.processes.port, given, until=time.monotonic() + 3600, pause_s=PAUSE_S)
        lanes = delivering.run(workers=12)
        points = sorted(self.lot.sample(range(20, len(given) - 20), kills))
        for nth, point in enumerate(points, 1):
            delivering.wait_for(point)
            time.sleep(self.lot.uniform(0, PAUSE_S / 2))
            self._strike(nth)
            if nth % 10 == 0 or nth == kills:
                print(f"  {nth} kills, {len(delivering.kept)} texts kept", file=sys.stderr, flush=True)
        delivering.wait_for(len(given))
        for lane in lanes:
            lane.join(60)
        self.carrier.faults = False
        self.processes.restart_ended()
        engine = open_engine(self.url)
        settle(engine)
        memory = resident_mib(self.processes.pids["serve"])
        self.processes.kill()
        check_texts(engine, given)
        self._report(engine, len(given), memory)
        engine.dispose()

    def _strike(self, nth: int) -> None:
        if nth % DISK_FULL_EVERY == 0 and not self.server:
            with full_disk(self.processes.pids["serve"]):
                time.sleep(0.5)
            self.done["disk full"] += 1
        if nth % CRASH_EVERY == 0 and self.server:
            self.server.stop("immediate")
            time.sleep(self.lot.uniform(0, 0.5))
            self.server.start(fsync="on")
            self.done["PostgreSQL crashed"] += 1
        chosen = self.lot.choice([(name,) for name in self.processes.commands] + [self.processes.commands])
        self.processes.kill(*chosen)
        self.done["kills of " + " and ".join(chosen)] += 1
        for command in chosen:
            self.processes.begin(command)
        self.processes.wait()
        self.processes.restart_ended()

    def _report(self, engine: Engine, count: int, memory: float) -> None:
        with reading(engine) as connection:
            rows = connection.execute(select(outbox.c.key, outbox.c.kind, outbox.c.status, outbox.c.attempts)).all()
        states = Counter(row.status for row in rows)
        kinds = {row.key: row.kind for row in rows}
        taken = Counter(key for key, _, _ in self.carrier.accepted)
        twice = {key for key, times in taken.items() if times > 1}
        lost = [row.key for row in rows if row.status == "sent" and row.key not in taken]
        unexplained = [
            key for key in taken if not any(r.key == key and (r.status == "sent" or r.attempts > 0) for r in rows)
        ]
        print(f"texts {count}, each kept once and in exactly one turn: lost 0, taken twice 0")
        print("struck: " + ", ".join(f"{what} {times}" for what, times in sorted(self.done.items())))
        print("the carrier: " + ", ".join(f"{what} {times}" for what, times in sorted(self.carrier.did.items())))
        print("replies: " + ", ".join(f"{state} {times}" for state, times in sorted(states.items())))
        doubled = Counter("danger" if kinds[key] in ("danger", "on_call") else "ordinary" for key in twice)
        print(f"sent twice to the customer: danger {doubled['danger']}, ordinary {doubled['ordinary']}")
        print(f"web process at the end: {memory:.0f} MiB resident")
        assert not lost, f"called sent, but the carrier has none of it: {lost[:5]}"
        assert not unexplained, f"the carrier has what was never tried: {unexplained[:5]}"
        assert not doubled["ordinary"], "an ordinary reply was sent twice"
        assert not (self.keys and twice), "a carrier that knows keys sent twice"
        assert not (self.keys and states["unsure"]), "a carrier that knows keys leaves nobody unsure"

    def close(self) -> None:
        """End what was started."""
        self.processes.close()
        self.carrier.close()
        if self.server:
            self.server.remove()


def main() -> None:
    """As the command line says."""
    said = argparse.ArgumentParser()
    said.add_argument("kind", choices=("sqlite", "postgresql"))
    said.add_argument("--keys", action="store_true")
    said.add_argument("--texts", type=int, default=5000)
    said.add_argument("--kills", type=int, default=200)
    said.add_argument("--seed", type=int, default=1)
    given = said.parse_args()
    lot, begin = random.Random(given.seed), time.monotonic()
    with tempfile.TemporaryDirectory(prefix="pf-long-") as folder:
        run = Run(given.kind, given.keys, Path(folder), lot)
        try:
            run.go(texts(given.texts, lot), given.kills)
        finally:
            run.close()
    print(f"{given.kind}{' with keys' if given.keys else ''}: {time.monotonic() - begin:.0f} s, seed {given.seed}")


if __name__ == "__main__":
    main()
