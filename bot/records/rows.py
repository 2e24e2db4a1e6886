"""Rows that are written together: gathered table by table, added at once. In: rows, then a
connection inside a transaction. Called by records.apply, records.outbox_rows and records.planning.

Each statement is a journey to PostgreSQL, so there all goes in one; on SQLite in one a table.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, Dialect, Integer, Table, bindparam, insert, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.records import tables as t
from bot.records.dialects import as_json, listed

Row = Mapping[str, Any]
# A text whose business key stands already is left as it is.
_ONCE = {t.outbox: ["business_key"]}


class Rows:
    """Rows to be added, and batches to be looked at. The rows of one table name the same columns,
    and every one that may not be empty; their order among tables is not kept."""

    def __init__(self) -> None:
        self._of: dict[Table, list[Row]] = defaultdict(list)
        self._due: dict[int, datetime] = {}

    def add(self, table: Table, *rows: Row) -> None:
        """Gather rows of a table."""
        if rows:
            self._of[table] += rows

    def due(self, batch_id: int, at: datetime) -> None:
        """The batch is looked at by the first tick from then on."""
        self._due[batch_id] = at

    def write(self, connection: Connection) -> None:
        """Write what was gathered."""
        due = [{"batch": one, "moment": at} for one, at in self._due.items()]
        if connection.dialect.name == "postgresql":
            self._write_at_once(connection, due)
        else:
            for table, rows in self._of.items():
                connection.execute(_ADD[table], rows if len(rows) > 1 else rows[0])
            if due:
                connection.execute(_DUE, due)
        self._of.clear()
        self._due.clear()

    def _write_at_once(self, connection: Connection, due: Sequence[Row]) -> None:
        if not self._of and not due:
            return
        shape = tuple((table.name, *self._of[table][0]) for table in sorted(self._of, key=_name))
        told = {table.name: as_json(rows) for table, rows in self._of.items()}
        if due:
            told["due"] = as_json(due)
        words, names = _at_once(shape, connection.dialect, due=bool(due))
        connection.exec_driver_sql(words, tuple(told[name] for name in names))


def _name(table: Table) -> str:
    return table.name


def _adding(table: Table) -> Any:
    """SQLite's statement for a table. Made once: wording it anew for each turn would cost as much
    as carrying it out."""
    if table in _ONCE:
        return sqlite.insert(table).on_conflict_do_nothing(index_elements=_ONCE[table])
    return insert(table)


_ADD = {table: _adding(table) for table in t.metadata.sorted_tables}
_DUE = (
    update(t.batch)
    .where(t.batch.c.id == bindparam("batch"))
    .values(next_due=bindparam("moment", type_=t.Moment()))
)


@lru_cache(maxsize=256)
def _at_once(
    shape: Sequence[Sequence[str]], dialect: Dialect, *, due: bool
) -> tuple[str, Sequence[str]]:
    """PostgreSQL's statement for these tables, each with the columns that are told of it, and what
    is bound in its order. due: for batches to be looked at as well. Kept as words: SQLAlchemy looks
    a statement up by all of its parts."""
    parts = [_adding_all(t.metadata.tables[name], columns) for name, *columns in shape]
    *others, last = [*parts, _making_due()] if due else parts
    whole = last.add_cte(*(one.cte(f"to_{at}") for at, one in enumerate(others)))
    compiled = whole.compile(dialect=dialect)
    return str(compiled), compiled.positiontup


def _adding_all(table: Table, columns: Sequence[str]) -> Any:
    rows = listed(table.name, {one: table.c[one].type for one in columns})
    told = select(*(rows.c[one] for one in columns))
    adding = postgresql.insert(table).from_select(columns, told, include_defaults=False)
    if table in _ONCE:
        return adding.on_conflict_do_nothing(index_elements=_ONCE[table])
    return adding


def _making_due() -> Any:
    due = listed("due", {"batch": Integer(), "moment": t.Moment()})
    return update(t.batch).where(t.batch.c.id == due.c.batch).values(next_due=due.c.moment)
