"""`broodpost enrol`: a list of farms to invite, tried first and then confirmed.

In: the data folder and a spreadsheet. Out: what each row does, and the code that confirms exactly
this. With the code: invitations, in one transaction.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

import click
from sqlalchemy import Connection, select

from bot.cooperative.columns import ListFault, headings_of, read_list
from bot.cooperative.enrol import Outcome, counted, seal, texts_of
from bot.doors.result import (
    Words,
    fault_told,
    heading_words,
    language_names,
    result_rows,
    told,
)
from bot.doors.sheets import LARGEST_FILE, read_lines, write_csv, write_xlsx
from bot.errors import BroodpostError
from bot.facts.farm import Cooperative
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.pages import DESK, load_pages
from bot.handbook.shape_texts import BASE
from bot.records import tables as t
from bot.records.case import cooperative_of
from bot.records.desk_audit import note
from bot.records.session import Database
from bot.settings import read_settings
from bot.turn.enrol import Lists, digest_of
from bot.wiring import database_url


@click.command("enrol")
@click.argument("file", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.option("--cooperative", type=int, help="its number, where there are several")
@click.option("--confirm", metavar="CODE", default="", help="invite: the code that the trial gave")
@click.option("--result", type=click.Path(path_type=Path, dir_okay=False),
              help="write a result file, .xlsx or .csv")  # fmt: skip
@click.option("--language", default=BASE, help="of what is printed; a language code")
def enrol_command(
    file: Path,
    data: Path,
    cooperative: int | None,
    confirm: str,
    result: Path | None,
    language: str,
) -> None:
    """Try a list of farms (CSV or XLSX), then invite them.

    Columns: Phone is needed; Name, Member number, Language, Place; in any order, headed in
    English, French or Swahili. A list invites: each phone says yes or no for itself.

    \b
    Example:
      broodpost enrol farms.xlsx --data data
      broodpost enrol farms.xlsx --data data --confirm 3f0c9a1be2d47788 --result done.xlsx
    """
    settings = read_settings(os.environ)
    content = content_folder(settings.content)
    pages = load_pages(content, DESK)
    if language not in pages:
        raise BroodpostError(f"language {language!r}: known are {', '.join(pages)}")
    words = pages[language]
    names = language_names(pages)
    lists = Lists(load_handbook(content), settings.house, names, settings.sender)
    whole = _bytes(file)
    try:
        entries = read_list(read_lines(whole), headings_of(heading_words(pages)))
    except ListFault as fault:
        raise BroodpostError(fault_told(fault, words)) from fault
    now = datetime.now(UTC)
    db = Database(database_url(settings, data))
    with db.write() as connection:
        ours = _cooperative(connection, cooperative)
        outcomes = lists.tried(connection, ours, entries.entries)
        code = seal(settings.house.key, ours.id, digest_of(whole), outcomes)
        if confirm and confirm != code:
            raise BroodpostError(
                "this code is of another list, or something has changed since it was tried: "
                "try the list again"
            )
        if confirm:
            lists.carried_out(connection, ours, outcomes, now)
            note(connection, ours.id, None, "enrolled", _figures(outcomes), now)
    _print(outcomes, words)
    if entries.unused:
        click.echo(words["enrol.unused"].format(columns=", ".join(entries.unused)))
    if result is not None:
        _write(result, outcomes, words)
    _close(outcomes, words, code, done=bool(confirm))


def _bytes(file: Path) -> bytes:
    """No more than a list may have, and one."""
    with file.open("rb") as opened:
        return opened.read(LARGEST_FILE + 1)


def _cooperative(connection: Connection, number: int | None) -> Cooperative:
    found = connection.execute(select(t.cooperative.c.id).order_by(t.cooperative.c.id))
    ids = list(found.scalars())
    if not ids:
        raise BroodpostError("there is no cooperative yet: start the service once")
    chosen = ids[0] if number is None and len(ids) == 1 else number
    if chosen is None or chosen not in ids:
        raise BroodpostError(f"--cooperative: one of {', '.join(map(str, ids))}")
    return cooperative_of(connection, chosen)


def _figures(outcomes: Sequence[Outcome]) -> str:
    return ", ".join(f"{n} {status}" for status, n in counted(outcomes).items())


def _print(outcomes: Sequence[Outcome], words: Words) -> None:
    for outcome in outcomes:
        one = told(outcome, words)
        cells = "  ".join(cell for cell in one.cells if cell)
        click.echo(f"{one.row:>6}  {one.status:<10}  {cells}")
        for more in (one.why, one.fix):
            if more:
                click.echo(f"{'':20}{more}")


def _write(path: Path, outcomes: Sequence[Outcome], words: Words) -> None:
    rows = result_rows(outcomes, words)
    is_csv = path.suffix.lower() == ".csv"
    path.write_bytes(write_csv(rows) if is_csv else write_xlsx(rows, words["enrol.title"]))


def _close(outcomes: Sequence[Outcome], words: Words, code: str, *, done: bool) -> None:
    found = counted(outcomes)
    names = (f"{words[f'enrol.status.{status}']} {n}" for status, n in found.items())
    click.echo(", ".join(names))
    figures = {"n": texts_of(outcomes), "changed": found["changed"]}
    if done:
        click.echo(words["enrol.done"].format(**figures))
    elif not found["new"] + found["changed"]:
        click.echo(words["enrol.nothing"])
    else:
        click.echo(words["enrol.nothing_yet"])
        click.echo(f"{words['enrol.go'].format(**figures)}: --confirm {code}")
