"""One reader for all tests of this room: the demo shop's rules, compiled once."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader
from tests.reading.score import demo_reader


@pytest.fixture(scope="session")
def reader() -> Reader:
    return demo_reader()
