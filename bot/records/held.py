"""All that is held of a phone, for whoever asks for it. In: a connection, a row of the phone. Out:
JSON Lines. Called by `broodpost people` and the desk."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, select

from bot.records import tables as t


def held(connection: Connection, phone: Any) -> Iterator[str]:
    """Everything that is held of a number, a JSON object a line."""
    mine = {"phone": t.phone.c.id == phone.id, "person": t.person.c.id == phone.person_id,
            "consent_record": t.consent_record.c.phone_id == phone.id,
            "contact": t.contact.c.phone_id == phone.id,
            "batch": t.batch.c.phone_id == phone.id, "turn": t.turn.c.sender == phone.number,
            "outbox": t.outbox.c.phone_id == phone.id,
            "visit": t.visit.c.person_id == phone.person_id}  # fmt: skip
    for name, condition in mine.items():
        table = t.metadata.tables[name]
        yield from rows_as_json(
            connection, name, select(table).where(condition).order_by(table.c.id)
        )
    events = select(t.event).join(t.batch).where(mine["batch"]).order_by(t.event.c.id)
    yield from rows_as_json(connection, "event", events)


def rows_as_json(connection: Connection, kind: str, query: Any) -> Iterator[str]:
    """The rows of a query, each with what it is."""
    for row in connection.execute(query):
        yield json.dumps({"kind_of_row": kind, **row._mapping}, default=str, ensure_ascii=False)
