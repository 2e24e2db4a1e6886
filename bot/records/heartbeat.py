"""When each loop last did its work: for health and for outages. One row a loop."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from bot.records import tables as t


def beat(connection: Connection, name: str, now: datetime) -> None:
    """Note that the loop `name` did its work at `now`."""
    insert = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
    statement = insert(t.heartbeat).values(name=name, at=now)
    connection.execute(statement.on_conflict_do_update(index_elements=["name"], set_={"at": now}))


def last_beat(connection: Connection, name: str) -> datetime | None:
    """When the loop last did its work; None when it never did."""
    found: datetime | None = connection.execute(
        select(t.heartbeat.c.at).where(t.heartbeat.c.name == name)
    ).scalar()
    return found
