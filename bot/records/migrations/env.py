"""Alembic's entry: runs the migrations on the connection that `records.migrate` hands over."""

from __future__ import annotations

from alembic import context

from bot.records.tables import metadata

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=metadata,
    render_as_batch=connection.dialect.name == "sqlite",
    compare_type=True,
)
with context.begin_transaction():
    context.run_migrations()
