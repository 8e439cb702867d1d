"""Bring a database to the newest tables, or say how far it is from them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DBAPIError

from service.storage.engine import reading, writing
from service.storage.every_table import metadata

if TYPE_CHECKING:
    from alembic.config import Config

# The library is imported where it is needed: that takes an eighth of all imports, and nearly every start finds
# the tables as they should be.

NEWEST = "0005"
"""The newest migration."""


def configuration(connection: Connection) -> Config:
    """Alembic's configuration for one open connection."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.attributes["connection"] = connection
    return config


def upgrade(engine: Engine) -> None:
    """Run every migration that this database has not had."""
    if _revision(engine) == NEWEST:
        return
    from alembic import command

    with writing(engine) as connection:
        command.upgrade(configuration(connection), "head")


def _revision(engine: Engine) -> str | None:
    """The migration that *engine*'s database had last; None where it had none."""
    try:
        with reading(engine) as connection:
            return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    except DBAPIError:
        return None


def differences(engine: Engine) -> list[object]:
    """What a database made by the migrations lacks of the tables, or has too much: empty when they agree."""
    from alembic.autogenerate import compare_metadata
    from alembic.migration import MigrationContext

    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        return list(compare_metadata(context, metadata))
