"""Brings a database to the newest shape. Called at start by `wiring`, and by tests both ways."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from bot.errors import BroodpostError
from bot.records.session import Database

FOLDER = Path(__file__).parent / "migrations"


def upgrade(db: Database) -> None:
    """All migrations that are missing, in one transaction each."""
    with db.engine.connect() as connection:
        command.upgrade(_config(connection), "head")
        connection.commit()


def downgrade(db: Database) -> None:
    """Back to an empty database."""
    with db.engine.connect() as connection:
        command.downgrade(_config(connection), "base")
        connection.commit()


def check(db: Database) -> None:
    """BroodpostError when the database is not at the newest migration."""
    newest = ScriptDirectory(str(FOLDER)).get_current_head()
    with db.engine.connect() as connection:
        here = MigrationContext.configure(connection).get_current_revision()
    if here != newest:
        raise BroodpostError(f"the database is at migration {here}, needed is {newest}")


def _config(connection: object) -> Config:
    config = Config()
    config.set_main_option("script_location", str(FOLDER))
    config.attributes["connection"] = connection
    return config
