"""A carrier that answers late, twice, never, with 500 or with garbage; a disk that is full for a while."""

from __future__ import annotations

import json
import resource
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.durability.harness import Carrier

LATE_S = 2.5
"""Longer than the service waits in these runs."""


class FickleCarrier(Carrier):
    """
    Fails one call in eight, in every way. keys: it sends a text whose key it knows only once; else all it takes.

    ``did`` counts what it did.
    """

    def __init__(self, *, keys: bool, seed: int = 1) -> None:
        self.keys, self.faults = keys, True
        self.did: Counter[str] = Counter()
        super().__init__(faults=0, seed=seed)

    def take(self, document: dict[str, str], key: str) -> tuple[int, bytes]:
        """Take it or not, and say so or not."""
        with self._lock:
            self.asked += 1
            lot = self._random.random() if self.faults else 1.0
            if lot < 0.04:
                self.did["refused with 500" if lot < 0.03 else "hung up before taking"] += 1
                return (500, b"<html>oops") if lot < 0.03 else (0, b"")
            own = document["key"]
            if self.keys and own in self._keys:
                self.did["knew the key"] += 1
            else:
                self._keys[own] = f"c-{len(self._keys)}"
                self.accepted.append((own, document["to"], document["text"]))
            limits = ((0.06, "hung up after taking"), (0.08, "late"), (0.09, "never"), (0.125, "garbage"))
            what = next((name for below, name in limits if lot < below), "took")
            self.did[what] += 1
        if what == "late":
            time.sleep(LATE_S)
        if what == "never":
            time.sleep(2 * LATE_S)
        answers = {"hung up after taking": (0, b""), "never": (0, b""), "garbage": (200, b"\xff\x00{]")}
        return answers.get(what, (200, json.dumps({"id": self._keys[own]}).encode()))


def without_keys(profile: Path) -> None:
    """Make *profile* one of a gateway that knows no keys."""
    lines = profile.read_text().splitlines(keepends=True)
    profile.write_text("".join(line for line in lines if "idempotency_header" not in line))


@contextmanager
def full_disk(pid: int) -> Iterator[None]:
    """Let no file of process *pid* grow, as on a full disk."""
    _, most = resource.prlimit(pid, resource.RLIMIT_FSIZE)
    resource.prlimit(pid, resource.RLIMIT_FSIZE, (4096, most))
    try:
        yield
    finally:
        resource.prlimit(pid, resource.RLIMIT_FSIZE, (most, most))


def resident_mib(pid: int) -> float:
    """Memory of process *pid* that is resident, in MiB."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    raise RuntimeError(f"process {pid} tells no VmRSS")
