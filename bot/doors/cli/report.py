"""`broodpost report`: the report of a batch, as a page that stands alone or as short texts.

In: the data folder and which batch. Out, on standard output: one HTML page with its curves, or the
closing as a farmer gets it. For a lender the page names neither person nor phone.
"""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import click

from bot.day.closing import Past, closing_lines
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.pages import load_pages, page_terms
from bot.handbook.shapes import Handbook
from bot.pages.report import READERS, Report, Visit, report_page
from bot.proof.medicine import load_forbidden, named_in
from bot.records.desk_visits import Visited, visits_of_batch
from bot.records.owned import Owned, batch_of, batches_listed
from bot.records.session import Database
from bot.say.render import Voice, word
from bot.settings import read_settings
from bot.turn.close import past_of
from bot.wiring import database_url


@click.command("report")
@click.option(
    "--data", type=click.Path(path_type=Path, file_okay=False), required=True, help="data folder"
)
@click.option("--batch", "number", type=int, help="number of the batch; without it they are listed")
@click.option("--for", "reader", type=click.Choice(READERS), default="farmer", show_default=True)
@click.option("--lang", help="language code; else the farmer's own")
@click.option("--text", is_flag=True, help="the short texts instead of the page")
def report_command(
    data: Path, number: int | None, reader: str, lang: str | None, text: bool
) -> None:
    """Make the report of a batch: one page that prints, with its curves, or a short text.

    \b
    Example:
      broodpost report --data data
      broodpost report --data data --batch 7 > report.html
      broodpost report --data data --batch 7 --for lender --lang fr > report.html
      broodpost report --data data --batch 7 --text
    """
    db = Database(database_url(read_settings(os.environ), data))
    if number is None:
        for line in _listed(db):
            click.echo(line)
        return
    handbook = load_handbook(content_folder())
    now = datetime.now(UTC)
    with db.read() as connection:
        owned = batch_of(connection, number, now)
        if owned is None:
            raise click.ClickException(f"no batch {number}; without --batch they are listed")
        past = past_of(connection, owned.cooperative.id, owned.batch)
        visited = visits_of_batch(connection, number)
    language = lang or owned.language
    if language not in handbook.texts.tongues:
        known = ", ".join(sorted(handbook.texts.tongues))
        raise click.BadParameter(f"one of {known}", param_hint="--lang")
    if text:
        for one in closing_lines(owned.batch, past, handbook.husbandry):
            click.echo(word(one, Voice(language), handbook.texts))
        return
    made = _report(owned, past, reader, language, handbook, now)
    click.echo(report_page(replace(made, visits=_visits(visited, reader))), nl=False)


def _listed(db: Database) -> list[str]:
    """One line a batch, newest first."""
    with db.read() as connection:
        found = batches_listed(connection)
    lines = [
        f"{one.number:>5}  {one.state:<8}  {one.count or '-':>5} chicks  "
        f"{one.placed_on or '-'}  {one.phone}"
        for one in found
    ]
    return lines or ["There is no batch yet."]


def _visits(visited: list[Visited], reader: str) -> list[Visit]:
    """What this reader sees of them. A note that names a medicine is the trainer's record: on the
    farmer's own page it would be taken for advice."""
    forbidden = load_forbidden(content_folder())
    return [
        Visit(
            one.on_date,
            one.how,
            one.by,
            None if reader != "trainer" and named_in(one.note, forbidden) else one.note,
        )
        for one in visited
    ]


def _report(
    owned: Owned, past: Past, reader: str, language: str, handbook: Handbook, now: datetime
) -> Report:
    texts = handbook.texts.tongues
    zone = owned.cooperative.zone
    return Report(
        batch=owned.batch,
        past=past,
        today=now.astimezone(zone).date(),
        zone=zone,
        reader=reader,
        keeper=f"{owned.cooperative.name}, {owned.name or owned.phone}.",
        language=language,
        words=load_pages(content_folder())[language],
        terms=page_terms(content_folder(), texts)[language],
        h=handbook.husbandry,
    )
