"""The migrations make exactly the tables that the code uses."""

from __future__ import annotations

from alembic import command
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, inspect, text

from service.storage.every_table import metadata
from service.storage.migrate import NEWEST, configuration, differences, upgrade


def test_a_migrated_database_has_the_tables_of_the_code(engine: Engine) -> None:
    assert differences(engine) == []
    assert set(inspect(engine).get_table_names()) == {*metadata.tables, "alembic_version"}


def test_migrating_twice_changes_nothing(engine: Engine) -> None:
    upgrade(engine)

    assert differences(engine) == []


def test_the_newest_migration_is_named(engine: Engine) -> None:
    """Where this is not so, a database that lacks the newest tables would be taken for one that has them."""
    with engine.connect() as connection:
        scripts = ScriptDirectory.from_config(configuration(connection))
        had = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one()
    assert scripts.get_current_head() == had == NEWEST


def test_one_that_had_fewer_is_brought_to_the_newest(engine: Engine) -> None:
    with engine.begin() as connection:
        command.downgrade(configuration(connection), "0004")
    assert differences(engine) != []
    upgrade(engine)
    assert differences(engine) == []
