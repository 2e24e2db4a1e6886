"""`broodpost adviser`: what waits for a person, on the command line.

In: the data folder. Out: the open lines of the adviser's list and the texts that were not
understood; `--done` ticks one off, `--release` ends a batch's hold after the vet has seen it.
"""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import click
from sqlalchemy import select, update

from bot.records import tables as t
from bot.records.session import Database
from bot.settings import read_settings
from bot.wiring import database_url


@click.command("adviser")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.option("--done", type=int, help="number of a line that is dealt with")
@click.option("--release", type=int, help="number of a batch that the vet has cleared")
def adviser_command(data: Path, done: int | None, release: int | None) -> None:
    """List the farms that need a person, and the texts the machine could not read.

    \b
    Example:
      broodpost adviser --data data
      broodpost adviser --data data --done 7
      broodpost adviser --data data --release 3
    """
    db = Database(database_url(read_settings(os.environ), data))
    now = datetime.now(UTC)
    if done is not None:
        _tick_off(db, done, now)
    if release is not None:
        _release(db, release, now)
    for line in open_lines(db):
        print(line)


def open_lines(db: Database) -> list[str]:
    """One line for each thing that waits, the oldest first."""
    with db.read() as connection:
        waiting = connection.execute(
            select(t.adviser, t.phone.c.number)
            .select_from(t.adviser.outerjoin(t.phone))
            .where(t.adviser.c.done_at.is_(None))
            .order_by(t.adviser.c.id)
        ).all()
        unread = connection.execute(
            select(t.unread, t.turn.c.sender)
            .select_from(t.unread.join(t.turn))
            .where(t.unread.c.done_at.is_(None))
            .order_by(t.unread.c.id)
        ).all()
    lines = [
        f"{row.id:>5}  {row.at:%d %b %H:%M}  {row.kind:<8}  batch {row.batch_id or '-'}  "
        f"{row.number or '-'}  {row.reason}"
        for row in waiting
    ]
    lines += [f"unread  {row.at:%d %b %H:%M}  {row.sender}  {row.text[:80]!r}" for row in unread]
    return lines or ["Nothing waits."]


def _tick_off(db: Database, line: int, now: datetime) -> None:
    with db.write() as connection:
        connection.execute(update(t.adviser).where(t.adviser.c.id == line).values(done_at=now))


def _release(db: Database, batch: int, now: datetime) -> None:
    """The hold ends; the next tick works out what the batch needs."""
    with db.write() as connection:
        connection.execute(
            update(t.batch).where(t.batch.c.id == batch).values(held=False, next_due=now)
        )
