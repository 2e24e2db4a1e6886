"""A clock that is killed in the middle of a tick. Run as a process: database, in which chunk it
dies, with the chunk's texts put but not committed."""

from __future__ import annotations

import sys

from bot.records.session import Database
from bot.turn.tick import tick
from tests.kill.plain import MORNING, die_at, handbook

CHUNK = 4


def main(database: str, chunk: str) -> None:
    db = Database(database)
    die_at(db, "INSERT INTO outbox", int(chunk))
    tick(db, handbook(), MORNING, CHUNK)


if __name__ == "__main__":
    main(*sys.argv[1:])
