"""The metadata with every table in it: whoever makes, checks or empties all of them takes it from here."""

from __future__ import annotations

from service.storage import ledgers, tables
from service.storage.columns import metadata

__all__ = ["ledgers", "metadata", "tables"]
