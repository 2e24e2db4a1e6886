"""Opens the database: SQLite (one process, one writer) or PostgreSQL (many).

`Database.write()` is a whole transaction: it commits at the end or rolls back. On SQLite it takes
an in-process lock and BEGIN IMMEDIATE, so that writers wait in a queue instead of failing; a
reader waits for nobody.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import StaticPool

from bot.records.tables import metadata

MEMORY = "sqlite://"
READING = {"reading": True}  # on SQLite a reader takes no lock: it sees what was committed last


class Database:
    """An engine and the way to write through it."""

    def __init__(self, url: str, *, pool_size: int = 10) -> None:
        self.url = url
        self.engine = _engine(url, pool_size)
        self.is_sqlite = self.engine.dialect.name == "sqlite"
        self._writing = threading.RLock() if self.is_sqlite else None

    @contextmanager
    def write(self) -> Iterator[Connection]:
        """One transaction. Never speak to the network inside it."""
        if self._writing is None:
            with self.engine.begin() as connection:
                yield connection
            return
        with self._writing, self.engine.begin() as connection:
            yield connection

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A connection for reading. In-memory SQLite has one connection for all, so it queues."""
        if self.url == MEMORY:
            with self.write() as connection:
                yield connection
            return
        with self.engine.connect() as connection:
            yield connection.execution_options(**READING)

    def create_all(self) -> None:
        """Make the tables directly: for rehearsals and tests in memory. Real ones migrate."""
        metadata.create_all(self.engine)

    def close(self) -> None:
        self.engine.dispose()


def _engine(url: str, pool_size: int) -> Engine:
    if not url.startswith("sqlite"):
        from bot.records.cursor import NamedColumns  # SQLite needs no driver of PostgreSQL

        return create_engine(
            url,
            paramstyle="numeric_dollar",  # PostgreSQL's own: nothing is looked for in the statement
            connect_args={"options": "-c timezone=UTC", "cursor_factory": NamedColumns},
            pool_size=pool_size,
            max_overflow=10,
            pool_pre_ping=True,
            hide_parameters=True,
        )
    arguments: dict[str, Any] = {
        "connect_args": {"check_same_thread": False, "timeout": 30},
        "hide_parameters": True,  # an error's words never hold a number or a text
    }
    if url == MEMORY:
        arguments["poolclass"] = StaticPool
    engine = create_engine(url, **arguments)
    event.listen(engine, "connect", _tune_sqlite)
    event.listen(engine, "begin", _begin)
    return engine


def _tune_sqlite(connection: Any, _record: object) -> None:
    connection.isolation_level = None  # we say BEGIN ourselves
    cursor = connection.cursor()
    cursor.execute("PRAGMA journal_mode=WAL")
    cursor.execute("PRAGMA synchronous=FULL")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.close()


def _begin(connection: Connection) -> None:
    reading = connection.get_execution_options().get("reading", False)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")
