"""A shop with one user, and hashing cheap enough for tests."""

from __future__ import annotations

import pytest
from sqlalchemy import Engine

from service.access.passwords import Passwords
from service.access.users import create_user
from service.storage import shops
from service.storage.engine import writing
from service.storage.users import UserRow
from tests.conftest import Clock
from tests.pages.small_rules import small_rulebook

PASSWORD = "teal kettle under nine maps"


@pytest.fixture(scope="session")
def passwords() -> Passwords:
    return Passwords(memory_kib=64, passes=1, lanes=1)


@pytest.fixture
def olive(engine: Engine, passwords: Passwords, clock: Clock) -> UserRow:
    with writing(engine) as connection:
        shops.install(connection, small_rulebook(), clock())
        return create_user(
            connection,
            passwords,
            shop="demo",
            login="Olive",
            name="Olive Baca",
            password=PASSWORD,
            role="office",
            now=clock(),
        )
