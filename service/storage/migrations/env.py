"""Alembic's environment: the connection is handed in by ``service.storage.migrate``; there is no ini file."""

from __future__ import annotations

from alembic import context

from service.storage.every_table import metadata

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=metadata, render_as_batch=True, compare_type=True)
with context.begin_transaction():
    context.run_migrations()
