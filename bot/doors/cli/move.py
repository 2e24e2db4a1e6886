"""`broodpost move`: a SQLite installation becomes one on PostgreSQL, with nothing lost."""

from __future__ import annotations

import os
from pathlib import Path

import click

from bot.errors import BroodpostError
from bot.records.migrate import upgrade
from bot.records.move import move
from bot.records.session import Database
from bot.settings import read_settings


@click.command("move")
@click.option(
    "--data",
    type=click.Path(path_type=Path, file_okay=False, exists=True),
    required=True,
    help="the data folder of the installation, which must not be running",
)
@click.option("--to", "url", required=True, help="address of an empty PostgreSQL database")
def move_command(data: Path, url: str) -> None:
    """Copy all that an installation holds from SQLite into an empty PostgreSQL database.

    The SQLite file is left as it is. All rows are counted before anything is kept; on an error
    nothing was moved. Afterwards start the service with BROODPOST_DATABASE_URL set to the new
    address.

    \b
    Example:
      broodpost move --data data --to postgresql+psycopg://broodpost@db/broodpost
    """
    file = data / "broodpost.db"
    if not file.is_file():
        raise BroodpostError(f"there is no {file}")
    secret = read_settings(os.environ).house.key
    source, target = Database(f"sqlite:///{file}"), Database(url)
    try:
        for db in (source, target):
            upgrade(db, secret)
        for table, rows in move(source, target).items():
            click.echo(f"{table}: {rows}")
    finally:
        source.close()
        target.close()
