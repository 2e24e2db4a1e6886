"""What is held of a person of a cooperative, given out or forgotten. In: a connection inside a
transaction, the cooperative's id, a person's. Called by the desk's page of a person."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, select, update

from bot.records import tables as t
from bot.records.forgetting import forget
from bot.records.held import held, rows_as_json


def held_of_person(connection: Connection, cooperative_id: int, person_id: int) -> list[str]:
    """All of it, a JSON object a line: of each phone that they hold, and of their batches that are
    texted elsewhere."""
    lines = [
        line for phone in _phones(connection, cooperative_id, person_id)
        for line in held(connection, phone)
    ]  # fmt: skip
    elsewhere = t.batch.c.person_id == person_id
    lines += rows_as_json(connection, "batch", select(t.batch).where(elsewhere))
    events = select(t.event).join(t.batch).where(elsewhere)
    lines += rows_as_json(connection, "event", events)
    return list(dict.fromkeys(lines))


def forget_person(
    connection: Connection, cooperative_id: int, person_id: int, key: bytes, now: datetime
) -> None:
    """Forget a person on every phone that they hold; the counts of their birds stay, without
    them."""
    for phone in _phones(connection, cooperative_id, person_id):
        forget(connection, phone.id, key, now)
    connection.execute(
        update(t.person)
        .where(t.person.c.id == person_id, t.person.c.cooperative_id == cooperative_id)
        .values(name=None)
    )
    connection.execute(
        update(t.visit)
        .where(t.visit.c.person_id == person_id, t.visit.c.cooperative_id == cooperative_id)
        .values(note="")
    )
    connection.execute(
        update(t.batch)
        .where(t.batch.c.person_id == person_id, t.batch.c.state != "closed")
        .values(name=None, state="closed", next_due=None)
    )


def _phones(connection: Connection, cooperative_id: int, person_id: int) -> list[Row[Any]]:
    found = select(t.phone).where(
        t.phone.c.person_id == person_id, t.phone.c.cooperative_id == cooperative_id
    )
    return list(connection.execute(found.order_by(t.phone.c.id)).all())
