"""A shop installed in a fresh database."""

from __future__ import annotations

import pytest
from sqlalchemy import Engine

from service.rulebook.loading import load_rulebook
from service.rulebook.model import Rulebook
from service.storage import shops
from service.storage.engine import writing
from tests.conftest import RULES, Clock


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    """The demo shop's rules."""
    return load_rulebook(RULES, "demo")


@pytest.fixture
def shop_engine(engine: Engine, rulebook: Rulebook, clock: Clock) -> Engine:
    """An engine whose database knows the demo shop."""
    with writing(engine) as connection:
        shops.install(connection, rulebook, clock())
    return engine
