"""Bring a database to the newest tables, or say how far it is from them."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import Connection, Engine

from service.storage.engine import writing
from service.storage.every_table import metadata


def configuration(connection: Connection) -> Config:
    """Alembic's configuration for one open connection."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.attributes["connection"] = connection
    return config


def upgrade(engine: Engine) -> None:
    """Run every migration that this database has not had."""
    with writing(engine) as connection:
        command.upgrade(configuration(connection), "head")


def differences(engine: Engine) -> list[object]:
    """What a database made by the migrations lacks of the tables, or has too much: empty when they agree."""
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        return list(compare_metadata(context, metadata))
