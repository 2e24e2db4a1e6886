"""A clock that is killed in the middle of a tick. Run as a process: database, how many texts it
puts before it dies."""

from __future__ import annotations

import sys

from bot.records.session import Database
from bot.turn.tick import tick
from tests.kill.plain import MORNING, die_at, handbook


def main(database: str, texts: str) -> None:
    db = Database(database)
    die_at(db, "INSERT INTO outbox", int(texts))
    tick(db, handbook(), MORNING)


if __name__ == "__main__":
    main(*sys.argv[1:])
