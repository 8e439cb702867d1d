"""What one shop takes of a process that others share. In memory: a row for it would make a shop's texts wait in line."""

from __future__ import annotations

from datetime import datetime
from threading import Lock

from service.storage.buckets import filled

PER_S = 20.0
"""Texts a second that a shop may take of a process, if nothing else is set; beyond it they are answered a minute later."""

BURST_S = 100
"""So many seconds' worth may come at once."""


class Shares:
    """A token bucket for each shop, full at the beginning. per_s: texts a second that one may take."""

    def __init__(self, per_s: float = PER_S) -> None:
        self._per_s, self._burst = per_s, round(per_s * BURST_S)
        self._left: dict[str, tuple[float, datetime]] = {}
        self._lock = Lock()

    def exceeded(self, shop: str, now: datetime) -> bool:
        """Whether more texts come to *shop* than its share; each call counts one text."""
        with self._lock:
            left, at = self._left.get(shop, (float(self._burst), now))
            tokens = filled(left, at, now, per_second=self._per_s, burst=self._burst)
            self._left[shop] = (tokens - 1 if tokens >= 1 else tokens, now)
        return tokens < 1
