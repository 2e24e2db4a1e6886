"""Puts texts into the outbox: the ledger of what was said. Called by `turn.take` and `day`.

One row a text, under a business key that is unique, written in the same transaction as the
decision; so nothing is said twice, and nothing decided goes unsaid.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from bot.records import tables as t
from bot.records.rows import Rows
from bot.say.segments import measure


@dataclass(frozen=True, slots=True)
class Text:
    """One text to be said, or said already in the answer of a door (state "answered").

    klass: danger, reply, check_back, routine, night, system. at: when it was decided. not_before:
    when it may go, where that is later.
    """

    business_key: str
    phone_id: int
    to_number: str
    klass: str
    text: str
    at: datetime
    state: str = "waiting"
    expires_at: datetime | None = None
    batch_id: int | None = None
    turn_id: int | None = None
    not_before: datetime | None = None


def put(connection: Connection, *texts: Text) -> None:
    """Write texts; one whose business key stands already is left as it is."""
    rows = Rows()
    add_texts(rows, *texts)
    rows.write(connection)


def add_texts(rows: Rows, *texts: Text) -> None:
    """Gather texts among the rows that are written together."""
    rows.add(t.outbox, *(_row(one) for one in texts))


def _row(one: Text) -> dict[str, object]:
    parts = measure(one.text)
    return {
        "business_key": one.business_key,
        "phone_id": one.phone_id,
        "batch_id": one.batch_id,
        "turn_id": one.turn_id,
        "to_number": one.to_number,
        "klass": one.klass,
        "text": one.text,
        "parts": parts.parts,
        "encoding": parts.encoding,
        "state": one.state,
        "attempt": 0,
        "not_before": one.not_before or one.at,
        "expires_at": one.expires_at,
        "created_at": one.at,
        "sent_at": one.at if one.state == "answered" else None,
    }
