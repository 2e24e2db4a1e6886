"""One database for readers and a writer."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import func, select

from bot.records import tables as t
from bot.records.heartbeat import beat
from bot.records.session import Database

NOW = datetime(2026, 3, 5, 6, 0, tzinfo=UTC)


def test_on_sqlite_a_reader_waits_for_no_writer_and_sees_what_was_committed(
    tmp_path: Path,
) -> None:
    db = Database(f"sqlite:///{tmp_path / 'farm.sqlite'}")
    db.create_all()
    rows = select(func.count()).select_from(t.heartbeat)
    with db.write() as writing:
        beat(writing, "send", NOW)
        with db.read() as reading:
            assert reading.execute(rows).scalar_one() == 0
    with db.read() as reading:
        assert reading.execute(rows).scalar_one() == 1
    db.close()
