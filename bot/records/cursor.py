"""A cursor of PostgreSQL that takes statements as they are ($1), and tells names and types of a
result's columns and no more. Made by records.session, for every connection.
"""

from __future__ import annotations

from typing import Any

from psycopg import RawCursor


class NamedColumns(RawCursor[Any]):
    """psycopg describes each column by an object that looks up its type among all that are known.
    SQLAlchemy asks for it at every statement and reads the name and the number of the type; for the
    columns of a case it took as long as carrying the statement out. Likewise psycopg would look
    through a long statement for its own marks of parameters at each use."""

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
