"""The migrations lead to exactly the tables of the code, and back, on both databases."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from bot.errors import BroodpostError
from bot.records.migrate import check, downgrade, upgrade
from bot.records.session import Database
from bot.records.tables import metadata


@pytest.fixture(params=["sqlite", "postgresql"])
def empty(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A database without a table."""
    if request.param == "sqlite":
        url = f"sqlite:///{tmp_path / 'empty.db'}"
    else:
        base = Database(request.getfixturevalue("postgres_url"))
        with base.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            connection.execute(text("DROP DATABASE IF EXISTS migrations WITH (FORCE)"))
            connection.execute(text("CREATE DATABASE migrations"))
        base.close()
        url = base.url.replace("/postgres?", "/migrations?")
    db = Database(url)
    yield db
    db.close()


def test_migrating_up_gives_the_tables_of_the_code(empty: Database) -> None:
    upgrade(empty)
    with empty.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
    check(empty)


def test_migrating_down_leaves_no_table_and_up_again_works(empty: Database) -> None:
    upgrade(empty)
    downgrade(empty)
    assert set(inspect(empty.engine).get_table_names()) <= {"alembic_version"}
    upgrade(empty)
    check(empty)


def test_a_database_that_was_never_migrated_is_named_as_such(empty: Database) -> None:
    with pytest.raises(BroodpostError, match="migration None"):
        check(empty)
