"""Puts texts into the outbox: the ledger of what was said. Called by `turn.take` and `day`.

One row a text, under a business key that is unique, written in the same transaction as the
decision; so nothing is said twice, and nothing decided goes unsaid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from bot.records import tables as t
from bot.records.dialects import as_json, listed
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
    if not texts:
        return
    rows = _rows(texts)
    if connection.dialect.name == "postgresql" and len(rows) > 1:
        connection.execute(_PUT_ALL, as_json(rows))
    else:
        connection.execute(_PUT[connection.dialect.name], rows if len(rows) > 1 else rows[0])


_PUT = {
    name: dialect.insert(t.outbox).on_conflict_do_nothing(index_elements=["business_key"])
    for name, dialect in (("sqlite", sqlite), ("postgresql", postgresql))
}


def _put_all() -> Any:
    names = (
        "business_key phone_id batch_id turn_id to_number klass text parts encoding state "
        "not_before expires_at created_at sent_at"
    ).split()
    rows = listed("texts", {name: t.outbox.c[name].type for name in names})
    return (
        postgresql.insert(t.outbox)
        .from_select(names, select(*(rows.c[name] for name in names)))
        .on_conflict_do_nothing(index_elements=["business_key"])
    )


_PUT_ALL = _put_all()


def _rows(texts: Sequence[Text]) -> list[dict[str, object]]:
    rows: list[dict[str, object]] = []
    for one in texts:
        parts = measure(one.text)
        rows.append(
            {
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
                "not_before": one.not_before or one.at,
                "expires_at": one.expires_at,
                "created_at": one.at,
                "sent_at": one.at if one.state == "answered" else None,
            }
        )
    return rows
