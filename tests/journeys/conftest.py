"""A demo shop for each journey that goes through the webhook, on each kind of database."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.conftest import Clock
from tests.journeys.served import ServedLine, demo_line


@pytest.fixture
def line(database_url: str, clock: Clock) -> Iterator[ServedLine]:
    """A customer of a demo shop nobody has texted yet."""
    with demo_line(database_url, clock) as served:
        yield served
