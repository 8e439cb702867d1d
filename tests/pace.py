"""How slow this machine is just now, so that a limit in milliseconds means the same on every machine."""

from __future__ import annotations

import re
import time

REFERENCE_S = 0.0075  # what the work below took where the limits were set; only the ratio to it counts


def pace() -> float:
    """This machine's time for a fixed piece of ordinary work, as a multiple of the reference; above 1 is slower."""
    return max(1.0, min(_took() for _ in range(5)) / REFERENCE_S)


def _took() -> float:
    began = time.thread_time()
    words = re.findall(r"[a-z]+", "the washer fills and does not spin, water stays in the tub " * 400)
    seen: dict[str, int] = {}
    for place, word in enumerate(words):
        seen[word] = seen.get(word, 0) + place
    total = sum(len(word) * count for word, count in sorted(seen.items()))
    for number in range(100_000):
        total += number % 7
    assert total
    return time.thread_time() - began
