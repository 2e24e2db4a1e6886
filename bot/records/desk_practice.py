"""The row of a cooperative, to practise with. In: a connection, its id. Called by the page
"Practice phone"."""

from __future__ import annotations

from sqlalchemy import Connection, select

from bot.records import tables as t


def row_of(connection: Connection, cooperative_id: int) -> dict[str, object]:
    """Every setting of a cooperative by its column, but for its id and what it may spend."""
    row = connection.execute(
        select(t.cooperative).where(t.cooperative.c.id == cooperative_id)
    ).one()
    return {name: value for name, value in row._mapping.items() if name not in ("id", "budget")}
