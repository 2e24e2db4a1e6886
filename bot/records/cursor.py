"""A cursor of PostgreSQL that tells names and types of a result's columns, and no more. Made by
records.session, for every connection.
"""

from __future__ import annotations

from typing import Any

from psycopg import Cursor


class NamedColumns(Cursor[Any]):
    """psycopg describes each column by an object that looks up its type among all that are known.
    SQLAlchemy asks for it at every statement and reads the name and the number of the type; for the
    ninety columns of a case it took as long as carrying the statement out."""

    @property
    def description(self) -> Any:
        """As PEP 249 has it: a tuple of seven a column, or None where no rows were asked for."""
        found = self.pgresult
        if found is None or not found.nfields:
            return None
        return [
            ((found.fname(at) or b"").decode(), found.ftype(at), None, None, None, None, None)
            for at in range(found.nfields)
        ]
