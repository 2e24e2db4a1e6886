"""Whether the service does its work. In: the database and the moment. Out: what is wrong, in plain
words; nothing when all is well. Called by GET /health and the operator's command."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from bot.records.heartbeat import beat, last_beat
from bot.records.session import Database

LATE = timedelta(minutes=2)
PROBE = "health"  # the heartbeat by which we see that something can be written
_LOOPS = {"tick": "the clock", "send": "the sender"}
_WORDS = (
    ("readonly", "it is read-only"),
    ("read-only", "it is read-only"),
    ("is full", "it or its disk is full"),
    ("No space left", "it or its disk is full"),
    ("locked", "someone else holds it"),
    ("unable to open", "it can't be opened"),
    ("no such table", "a table is missing"),
    ("does not exist", "a table is missing"),
    ("onnection", "it can't be reached"),
)


def complaints(db: Database, now: datetime) -> list[str]:
    """One line for each thing that is wrong. Writes one row, to see that this works."""
    try:
        with db.write() as connection:
            beat(connection, PROBE, now)
            beats = {name: last_beat(connection, name) for name in _LOOPS}
            full = _is_full(connection)
    except SQLAlchemyError as error:
        return [f"the database does not work: {in_words(error)}"]
    found = ["the database does not work: it or its disk is full"] if full else []
    for name, at in beats.items():
        if at is None:
            found.append(f"{_LOOPS[name]} has not worked yet")
        elif now - at > LATE:
            found.append(f"{_LOOPS[name]} last worked at {at:%Y-%m-%d %H:%M} UTC")
        elif at - now > LATE:
            found.append(f"{_LOOPS[name]} worked at {at:%Y-%m-%d %H:%M} UTC, which is yet to come")
    return found


def in_words(error: SQLAlchemyError) -> str:
    """What a database error means for an operator; its own kind where we don't know."""
    said = str(error.orig) if isinstance(error, DBAPIError) else str(error)
    return next((words for sign, words in _WORDS if sign in said), type(error).__name__)


def _is_full(connection: Connection) -> bool:
    """Whether an SQLite file may not grow and has no room left inside."""
    if connection.dialect.name != "sqlite":
        return False
    pages, most, free = (
        connection.exec_driver_sql(f"PRAGMA {name}").scalar_one()
        for name in ("page_count", "max_page_count", "freelist_count")
    )
    return bool(pages >= most and free == 0)
