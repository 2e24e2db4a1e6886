"""The pace of a sender number, kept in the database and so shared by all workers on all machines.
A moment and a wish come in, how many texts may go now goes out. Called by outbox.dispatch, as
outbox.bucket is where one process sends.

One row holds one moment: when the last text granted is paid for at the number's pace (the virtual
scheduling form of the leaky bucket, ITU-T I.371).
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Protocol

from sqlalchemy import Connection, select
from sqlalchemy.dialects import postgresql, sqlite

from bot.records import tables as t
from bot.records.heartbeat import beat
from bot.records.session import Database

ROW = "pace"
LONG_AGO = datetime(2000, 1, 1, tzinfo=UTC)


class Pace(Protocol):
    """What says how many texts may go."""

    def take(self, wanted: int, now: datetime) -> int:
        """Take up to `wanted` tokens; returns how many there were."""

    def give_back(self, tokens: int) -> None:
        """Return tokens that no text was found for."""


class SharedPace:
    """`per_second` texts, `burst` of them at once where none went lately."""

    def __init__(self, db: Database, per_second: float, burst: int) -> None:
        if per_second <= 0 or burst < 1:
            raise ValueError("a pace is above 0 and has room for one text")
        self._db = db
        self._each = timedelta(seconds=1 / per_second)
        self._burst = burst

    def take(self, wanted: int, now: datetime) -> int:
        """Take up to `wanted`; a clock that jumps fills it at most once."""
        with self._db.write() as connection:
            longest = now + self._burst * self._each
            paid = min(max(_paid(connection, now), now), longest)
            granted = min(wanted, (longest - paid) // self._each)
            beat(connection, ROW, paid + granted * self._each)
        return granted

    def give_back(self, tokens: int) -> None:
        """Return tokens that no text was found for."""
        if tokens <= 0:
            return
        with self._db.write() as connection:
            beat(connection, ROW, _paid(connection, LONG_AGO) - tokens * self._each)


def _paid(connection: Connection, now: datetime) -> datetime:
    """The moment in the row, which is ours until the transaction ends; `now` in a new row."""
    found = connection.execute(_ROW).scalar()
    if found is None:
        insert = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
        made = insert(t.heartbeat).values(name=ROW, at=now).on_conflict_do_nothing()
        connection.execute(made)
        found = connection.execute(_ROW).scalar_one()
    moment: datetime = found
    return moment


_ROW = select(t.heartbeat.c.at).where(t.heartbeat.c.name == ROW).with_for_update()
