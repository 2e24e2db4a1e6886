"""What was typed into a form of the desk when the session had ended: kept for an hour for this
person and this form, until they have signed in again. In: a connection inside a transaction. Called
by desk.frame and the desk's sign-in.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from sqlalchemy import Connection, delete, insert, select

from bot.records import tables as t
from bot.records.desk_staff import hash_of

KEPT = timedelta(hours=1)


def whose_session(connection: Connection, token: str) -> int | None:
    """Of whom this token was, also where the session is over; None for nobody who may come back.
    Who signed out has left no session."""
    found = connection.execute(
        select(t.staff.c.id)
        .select_from(t.staff_session.join(t.staff))
        .where(t.staff_session.c.token_hash == hash_of(token), t.staff.c.disabled.is_(False))
    ).scalar()
    return None if found is None else int(found)


def keep_typed(
    connection: Connection, staff_id: int, path: str, fields: Mapping[str, str], now: datetime
) -> None:
    """Keep what was typed into the form on the page at that path, in place of what was before."""
    drop_typed(connection, staff_id, path)
    values = {"staff_id": staff_id, "path": path, "fields": dict(fields), "at": now}
    connection.execute(insert(t.typed).values(**values))


def typed(connection: Connection, staff_id: int, path: str, now: datetime) -> dict[str, str]:
    """What this person typed into the form on that page within the hour; nothing else."""
    row = t.typed.c
    found = connection.execute(
        select(row.fields).where(row.staff_id == staff_id, row.path == path, row.at > now - KEPT)
    ).scalar()
    return dict(found or {})


def drop_typed(connection: Connection, staff_id: int, path: str) -> None:
    """The form was sent, or is kept anew."""
    row = t.typed.c
    connection.execute(delete(t.typed).where(row.staff_id == staff_id, row.path == path))


def forget_typed(connection: Connection, now: datetime) -> None:
    """Drop whatever is older than it is kept."""
    connection.execute(delete(t.typed).where(t.typed.c.at <= now - KEPT))
