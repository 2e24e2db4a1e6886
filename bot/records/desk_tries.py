"""How often somebody tried to sign in, counted for all processes together. In: a connection inside
a transaction. Out: whether one more try is let through. Called by the desk's sign-in.

A try is counted before it is looked at, so that many at once gain nothing.
"""

from __future__ import annotations

import hashlib
from datetime import datetime

from sqlalchemy import Connection, delete

from bot.records import tables as t
from bot.records.tally import count_up

QUARTER = 15  # minutes
MOST = {"name": 10, "from": 30, "code": 5}  # tries in a quarter of an hour


def let_try(connection: Connection, kind: str, value: str, now: datetime) -> bool:
    """Whether one more try is let through. kind: "name" (of sign-in), "from" (an address), "code"
    (of somebody's second factor). value: kept as a hash only."""
    mark = hashlib.sha256(value.encode()).hexdigest()[:24]
    return count_up(connection, f"desk:{kind}:{mark}", _quarter(now)) <= MOST[kind]


def forget_tries(connection: Connection, now: datetime) -> None:
    """Drop the counts of earlier quarters."""
    row = t.tally.c
    connection.execute(delete(t.tally).where(row.name.like("desk:%"), row.period < _quarter(now)))


def _quarter(now: datetime) -> str:
    return f"{now:%y%m%d%H}{now.minute // QUARTER}"
