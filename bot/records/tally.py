"""Counts by the day, the minute or the month, whichever worker they come from. In: a connection
inside a transaction. Out: the count. Called by turn.caps and records.spending."""

from __future__ import annotations

from sqlalchemy import Connection, delete, select
from sqlalchemy.dialects import postgresql, sqlite

from bot.records import tables as t

_DIALECTS = {"sqlite": sqlite, "postgresql": postgresql}


def count_up(connection: Connection, name: str, period: str, by: int = 1) -> int:
    """Add to a count; returns what it is now."""
    made = _DIALECTS[connection.dialect.name].insert(t.tally).values(name=name, period=period, n=by)
    counted = made.on_conflict_do_update(
        index_elements=["name", "period"], set_={"n": t.tally.c.n + made.excluded.n}
    ).returning(t.tally.c.n)
    return int(connection.execute(counted).scalar_one())


def counted(connection: Connection, name: str, period: str) -> int:
    """What a count is now."""
    found = select(t.tally.c.n).where(t.tally.c.name == name, t.tally.c.period == period)
    return int(connection.execute(found).scalar() or 0)


def forget_before(connection: Connection, name: str, period: str) -> None:
    """Drop the counts of earlier periods."""
    connection.execute(delete(t.tally).where(t.tally.c.name == name, t.tally.c.period < period))
