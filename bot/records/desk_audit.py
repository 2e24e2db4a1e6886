"""The audit of the desk: who did what, when, about what; rows are only added. In: a connection
inside a transaction. Called by every page of the desk that changes or exports something, and by
`broodpost staff`."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, insert, select

from bot.records import tables as t


@dataclass(frozen=True, slots=True)
class Deed:
    """One row. who: None where it was done on the command line."""

    id: int
    at: datetime
    who: str | None
    what: str
    about: str


def note(
    connection: Connection,
    cooperative_id: int,
    staff_id: int | None,
    what: str,
    about: str,
    now: datetime,
) -> None:
    """Write down a deed. what: a key under `deed` in desk.yaml. about: ids and figures, like
    "batch 7"; never a name, a number or a text of a person, for nothing here can be forgotten."""
    connection.execute(
        insert(t.audit).values(
            cooperative_id=cooperative_id, staff_id=staff_id, at=now, what=what, about=about
        )
    )


def deeds(
    connection: Connection, cooperative_id: int, most: int, before: int | None = None
) -> list[Deed]:
    """The newest deeds first; before: only those older than the row of that id."""
    query = (
        select(t.audit, t.staff.c.name)
        .select_from(t.audit.outerjoin(t.staff, t.staff.c.id == t.audit.c.staff_id))
        .where(t.audit.c.cooperative_id == cooperative_id)
        .order_by(t.audit.c.id.desc())
        .limit(most)
    )
    if before is not None:
        query = query.where(t.audit.c.id < before)
    return [
        Deed(row.id, row.at, row.name, row.what, row.about) for row in connection.execute(query)
    ]
