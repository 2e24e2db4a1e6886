"""Brings a database to the newest shape. Called at start by `wiring`, and by tests both ways."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util.exc import CommandError
from sqlalchemy import inspect
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from bot.errors import BroodpostError
from bot.records.session import Database
from bot.records.tables import metadata

FOLDER = Path(__file__).parent / "migrations"


def upgrade(db: Database, secret: bytes = b"") -> None:
    """All migrations that are missing, whole or not at all. secret: that of the settings, for what
    is kept sealed. BroodpostError in plain words where the database can't be opened or written, or
    is not what its migration number says."""
    try:
        with db.engine.connect() as connection:
            command.upgrade(_config(connection, secret), "head")
            connection.commit()
        check(db)
    except (SQLAlchemyError, CommandError) as error:
        why = str(error.orig) if isinstance(error, DBAPIError) else str(error)
        raise BroodpostError(
            f"the database can't be brought to its newest shape ({why.splitlines()[0]}); "
            "nothing was changed"
        ) from error


def downgrade(db: Database) -> None:
    """Back to an empty database."""
    go_to(db, "base", down=True)


def go_to(db: Database, revision: str, *, down: bool = False, secret: bytes = b"") -> None:
    """To one migration, from below or from above."""
    with db.engine.connect() as connection:
        (command.downgrade if down else command.upgrade)(_config(connection, secret), revision)
        connection.commit()


def check(db: Database) -> None:
    """BroodpostError when the database is not at the newest migration, or lacks a table that this
    migration made."""
    newest = ScriptDirectory(str(FOLDER)).get_current_head()
    with db.engine.connect() as connection:
        here = MigrationContext.configure(connection).get_current_revision()
    if here != newest:
        raise BroodpostError(f"the database is at migration {here}, needed is {newest}")
    lacking = sorted(set(metadata.tables) - set(inspect(db.engine).get_table_names()))
    if lacking:
        raise BroodpostError(
            f"the database says that it is at migration {here} but lacks {', '.join(lacking)}: "
            "restore a backup"
        )


def _config(connection: object, secret: bytes) -> Config:
    config = Config()
    config.set_main_option("script_location", str(FOLDER))
    config.attributes["connection"] = connection
    config.attributes["secret"] = secret
    return config
