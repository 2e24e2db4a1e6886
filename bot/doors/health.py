"""Whether the service does its work. In: the database and the moment. Out: what is wrong, in plain
words; nothing when all is well. Called by GET /health and the operator's command."""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy.exc import SQLAlchemyError

from bot.records.heartbeat import last_beat
from bot.records.session import Database

LATE = timedelta(minutes=2)
_LOOPS = {"tick": "the clock", "send": "the sender"}


def complaints(db: Database, now: datetime) -> list[str]:
    """One line for each thing that is wrong."""
    try:
        with db.read() as connection:
            beats = {name: last_beat(connection, name) for name in _LOOPS}
    except SQLAlchemyError as error:
        return [f"the database cannot be read ({type(error).__name__})"]
    found = []
    for name, at in beats.items():
        if at is None:
            found.append(f"{_LOOPS[name]} has not worked yet")
        elif now - at > LATE:
            found.append(f"{_LOOPS[name]} last worked at {at:%Y-%m-%d %H:%M} UTC")
    return found
