"""The migrations make exactly the tables that the code uses."""

from __future__ import annotations

from sqlalchemy import Engine, inspect

from service.storage.every_table import metadata
from service.storage.migrate import differences, upgrade


def test_a_migrated_database_has_the_tables_of_the_code(engine: Engine) -> None:
    assert differences(engine) == []
    assert set(inspect(engine).get_table_names()) == {*metadata.tables, "alembic_version"}


def test_migrating_twice_changes_nothing(engine: Engine) -> None:
    upgrade(engine)

    assert differences(engine) == []
