"""
Memory of the line over many turns: the real process on SQLite, texted without a pause, its resident memory beside the count.

Run: python -m tests.benchmarks.bench_memory [turns]. Flat means that the second half of the run adds next to nothing.
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
from pathlib import Path

from service.storage.engine import open_engine
from service.storage.migrate import upgrade
from tests.benchmarks.bench_turn import Load
from tests.durability.fickle import resident_mib
from tests.durability.harness import Carrier, Processes, rules_that_rest

SAMPLES = 20


def run(turns: int, folder: Path) -> list[tuple[int, float]]:
    """Texts answered so far and resident MiB of the line, sampled over the run."""
    url = f"sqlite:///{folder / 'line.sqlite3'}"
    engine = open_engine(url)
    upgrade(engine)
    engine.dispose()
    carrier = Carrier(faults=0)
    line = Processes(url, rules_that_rest(folder, 0), carrier, folder)
    samples: list[tuple[int, float]] = []
    try:
        line.start()
        (process,) = line.running.values()
        done, first = 0, 0
        while done < turns:
            load = Load(line.port, first)
            asyncio.run(load.run(5))
            done, first = done + len(load.taken_s), load.next
            if not samples or done >= samples[-1][0] + turns // SAMPLES or done >= turns:
                samples.append((done, resident_mib(process.pid)))
                print(f"{done:8} turns  {samples[-1][1]:7.1f} MiB", flush=True)
    finally:
        line.kill()
        carrier.close()
    return samples


def main() -> None:
    """Print the samples, and what the second half added to each thousand turns."""
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    with tempfile.TemporaryDirectory() as folder:
        samples = run(turns, Path(folder))
    half = [sample for sample in samples if sample[0] >= turns / 2]
    (start, low), (end, high) = half[0], half[-1]
    print(f"the second half added {(high - low) / (end - start) * 1000:.3f} MiB to each thousand turns")


if __name__ == "__main__":
    main()
