"""What one shop takes of a process that others share. In memory: a row for it would make a shop's texts wait in line."""

from __future__ import annotations

from datetime import datetime
from threading import Lock

from service.storage.buckets import filled

BURST, PER_S = 2000, 20.0
"""What one shop's texts may take of a process. Beyond it they are kept and answered a minute later."""


class Shares:
    """A token bucket for each shop, full at the beginning."""

    def __init__(self) -> None:
        self._left: dict[str, tuple[float, datetime]] = {}
        self._lock = Lock()

    def exceeded(self, shop: str, now: datetime) -> bool:
        """Whether more texts come to *shop* than its share; each call counts one text."""
        with self._lock:
            left, at = self._left.get(shop, (float(BURST), now))
            tokens = filled(left, at, now, per_second=PER_S, burst=BURST)
            self._left[shop] = (tokens - 1 if tokens >= 1 else tokens, now)
        return tokens < 1
