"""
Throughput and latency of a whole turn beside the floor, in one run on one machine: only the ratio carries over.

Run: python -m tests.benchmarks.bench_turn [sqlite|postgresql] [rounds]. A whole turn: signed webhook, one transaction
with reading, deciding, state, reasons and replies; the sender works beside it. The mix of turns is ``TALK``, taken by
fresh numbers again and again, each text on its own (no rest); who books cancels, so that the diary does not fill up. The
floor and the line take turns of a few seconds, for a shared machine's pace changes by more than what is measured.
"""

from __future__ import annotations

import asyncio
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from sqlalchemy import func, select

from service.edge.verify import sign_standard
from service.storage.engine import open_engine, reading
from service.storage.migrate import upgrade
from service.storage.tables import messages
from tests.conftest import ROOT, PostgresServer
from tests.durability.harness import SHOP_NUMBER, SIGNING, Carrier, Processes, rules_that_rest
from tests.edge.running import free_port

TALK = (
    "dishwasher not working properly", "water stays in the bottom", "no gurgle in the sink", "cleaned the filter, no change",
    "just send someone", "87106", "1200 Invented Rd NE", "2", "please cancel the visit", "yes",
)  # fmt: skip
CONNECTIONS = 8
SLICE_S = 4.0
"""How long the floor or the line is loaded before the other has its turn."""


def request_bytes(port: int, number: int) -> bytes:
    """The n-th text of the run: all of ``TALK`` for a number, in order."""
    sender, place = divmod(number, len(TALK))
    # More numbers than are set aside for fiction, so of a country code that nobody has; they never leave this machine.
    body = json.dumps({"from": f"+999{sender:09}", "to": SHOP_NUMBER, "text": TALK[place]}).encode()
    at = int(time.time())
    signature = sign_standard(SIGNING, f"b{number}", at, body)
    head = (
        f"POST /hooks/demo/standard HTTP/1.1\r\nhost: 127.0.0.1:{port}\r\ncontent-type: application/json\r\n"
        f"webhook-id: b{number}\r\nwebhook-timestamp: {at}\r\nwebhook-signature: {signature}\r\n"
        f"content-length: {len(body)}\r\n\r\n"
    )
    return head.encode() + body


class Load:
    """Keep-alive connections; each takes whole conversations, so that a number's texts stay in order."""

    def __init__(self, port: int, first: int) -> None:
        self.port, self.next, self.taken_s = port, first, list[float]()

    async def run(self, seconds: float, pace: float | None = None) -> float:
        """Texts a second over *seconds*; with *pace* at most so many are begun a second."""
        begin = time.perf_counter()
        end = begin + seconds
        await asyncio.gather(*(self._connection(end, pace) for _ in range(CONNECTIONS)))
        return len(self.taken_s) / (time.perf_counter() - begin)

    async def _connection(self, end: float, pace: float | None) -> None:
        reader, writer = await asyncio.open_connection("127.0.0.1", self.port)
        chance, due = random.Random(self.next), time.perf_counter()
        while time.perf_counter() < end:
            first, self.next = self.next, self.next + len(TALK)
            for number in range(first, first + len(TALK)):
                if pace:  # texts come when they come: a wait for a connection that is still taken counts as well
                    due += chance.expovariate(pace / CONNECTIONS)
                    await asyncio.sleep(max(0, due - time.perf_counter()))
                await self._one(reader, writer, number, due if pace else time.perf_counter())
        writer.close()
        await writer.wait_closed()

    async def _one(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter, number: int, begin: float) -> None:
        writer.write(request_bytes(self.port, number))
        head = await reader.readuntil(b"\r\n\r\n")
        length = int(head.lower().split(b"content-length:")[1].split(b"\r\n")[0])
        await reader.readexactly(length)
        if b" 200 " not in head.split(b"\r\n")[0] + b" ":
            raise SystemExit(f"not taken: {head.decode()}")
        self.taken_s.append(time.perf_counter() - begin)


def share(taken_s: list[float], part: float) -> float:
    """The latency, in ms, that *part* of the texts did not exceed."""
    ordered = sorted(taken_s)
    return ordered[min(len(ordered) - 1, int(part * len(ordered)))] * 1000


@dataclass
class Side:
    """The floor or the line: where it listens, and what it took under full and under half load."""

    name: str
    port: int
    first: int = 0
    rates: list[float] = field(default_factory=list)
    full_s: list[float] = field(default_factory=list)
    half_s: list[float] = field(default_factory=list)

    def load(self, seconds: float, pace: float | None = None) -> tuple[float, list[float]]:
        """Texts a second, and how long each of them took, seconds."""
        load = Load(self.port, self.first)
        rate = asyncio.run(load.run(seconds, pace))
        self.first = load.next
        return rate, load.taken_s

    def slice(self, rested: Callable[[], None]) -> None:
        """Full load for a while, then half of what was reached; *rested* waits for what still goes on afterwards."""
        rate, taken_s = self.load(SLICE_S)
        self.rates.append(rate)
        self.full_s += taken_s
        rested()
        self.half_s += self.load(SLICE_S, pace=rate / 2)[1]
        rested()

    @property
    def rate(self) -> float:
        """Texts a second at full load, over all slices."""
        return sum(self.rates) / len(self.rates)

    def told(self) -> str:
        """What was measured, for people."""
        full, half = self.full_s, self.half_s
        return (
            f"{self.name:>6}: {self.rate:7.0f} texts/s   full load p50 {share(full, 0.5):6.1f} ms p99 "
            f"{share(full, 0.99):6.1f} ms   half load p50 {share(half, 0.5):6.1f} ms p99 {share(half, 0.99):6.1f} ms"
        )


def at_rest(carrier: Carrier) -> None:
    """Wait until the sender has nothing left to send."""
    seen = -1
    while seen != len(carrier.accepted):
        seen = len(carrier.accepted)
        time.sleep(0.5)


def without_a_turn(url: str) -> int:
    """How many texts that came had no turn of their own: put off, or taken together with others."""
    engine = open_engine(url)
    came = select(func.count(), func.count(messages.c.turn.distinct())).where(messages.c.direction == "in")
    with reading(engine) as connection:
        texts, turns = connection.execute(came).one()
    engine.dispose()
    return int(texts - turns)


@contextmanager
def floor_running(url: str) -> Iterator[int]:
    """The floor on a port of its own."""
    port = free_port()
    environment = os.environ | {"FLOOR_DATABASE": url, "FLOOR_SIGNING": SIGNING}
    program = [sys.executable, "-m", "uvicorn", "tests.benchmarks.floor:app", "--port", str(port), "--no-access-log"]
    process = subprocess.Popen(program, env=environment, cwd=ROOT, stderr=subprocess.DEVNULL)
    try:
        deadline = time.monotonic() + 30
        while time.monotonic() < deadline:
            try:
                asyncio.run(_knock(port))
                break
            except OSError:
                time.sleep(0.1)
        yield port
    finally:
        process.terminate()
        process.wait()


async def _knock(port: int) -> None:
    _, writer = await asyncio.open_connection("127.0.0.1", port)
    writer.close()
    await writer.wait_closed()


def run(kind: str, rounds: int, folder: Path) -> None:
    """The floor and the line by turns, on fresh databases of the same kind."""
    server = PostgresServer() if kind == "postgresql" else None
    if server:
        server.stop("fast")
        server.start(fsync="on")
    urls = [server.fresh() if server else f"sqlite:///{folder / name}.sqlite3" for name in ("floor", "line")]
    if not server:
        engine = open_engine(urls[1])
        upgrade(engine)
        engine.dispose()
    carrier = Carrier(faults=0)
    line = Processes(urls[1], rules_that_rest(folder, 0), carrier, folder)
    try:
        line.start()
        with floor_running(urls[0]) as port:
            floor, turn = Side("floor", port), Side("turn", line.port)
            for side in (floor, turn):
                side.load(2.0)
            for _ in range(rounds):
                floor.slice(lambda: None)
                turn.slice(lambda: at_rest(carrier))
        if lacking := without_a_turn(urls[1]):
            raise SystemExit(f"{lacking} texts had no turn of their own: what was measured is no whole turn")
        print(floor.told(), turn.told(), sep="\n")
        ratios = sorted(t / f for t, f in zip(turn.rates, floor.rates, strict=True))
        print(
            f"{kind}: a whole turn reaches {turn.rate / floor.rate:.2f} of the floor ({ratios[0]:.2f} to {ratios[-1]:.2f} "
            f"in {rounds} rounds); {len(carrier.accepted)} replies sent beside it"
        )
    finally:
        line.kill()
        carrier.close()
        if server:
            server.remove()


def main() -> None:
    """As the command line says."""
    kind = sys.argv[1] if len(sys.argv) > 1 else "sqlite"
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    with tempfile.TemporaryDirectory(prefix="pf-bench-") as folder:
        run(kind, rounds, Path(folder))


if __name__ == "__main__":
    main()
