"""Moves all that one database holds into another, empty one: a SQLite installation to PostgreSQL.

In: two databases at the newest migration, the second without a row; nobody else may be writing into
either. Out: rows moved, by table. All of it in one transaction, counted before it is kept. Called
by `broodpost move`.
"""

from __future__ import annotations

from sqlalchemy import Connection, Table, func, insert, select, text

from bot.errors import BroodpostError
from bot.records.migrate import check
from bot.records.session import Database
from bot.records.tables import metadata

ROWS = 5000


def move(source: Database, target: Database) -> dict[str, int]:
    """Copy every row. BroodpostError where the target holds something already or where not every
    row arrived; then the target is as it was."""
    check(source)
    check(target)
    moved: dict[str, int] = {}
    with source.read() as old, target.write() as new:
        for table in metadata.sorted_tables:
            if _count(new, table):
                raise BroodpostError(f"the database to move to holds rows in {table.name} already")
        for table in metadata.sorted_tables:
            moved[table.name] = _copy(old, new, table)
            if not moved[table.name] == _count(new, table) == _count(old, table):
                raise BroodpostError(f"not every row of {table.name} arrived; nothing was moved")
            _number_on(new, table)
    return moved


def _copy(old: Connection, new: Connection, table: Table) -> int:
    copied = 0
    found = old.execution_options(yield_per=ROWS).execute(select(table))
    for rows in found.partitions():
        new.execute(insert(table), [dict(row._mapping) for row in rows])
        copied += len(rows)
    return copied


def _count(connection: Connection, table: Table) -> int:
    return int(connection.execute(select(func.count()).select_from(table)).scalar_one())


def _number_on(connection: Connection, table: Table) -> None:
    """The next row gets a number that none has yet."""
    if connection.dialect.name != "postgresql" or "id" not in table.c:
        return
    highest = connection.execute(select(func.max(table.c.id))).scalar()
    if highest is not None:
        connection.execute(
            text("SELECT setval(pg_get_serial_sequence(:name, 'id'), :highest)"),
            {"name": table.name, "highest": highest},
        )
