"""`broodpost changes CHANGED`: what a changed content folder would change, before it goes live.

In: the changed folder, the live one, texts. Out, on standard output: every text that would be
understood otherwise, with what it was taken for and what it would be; exit 1 where an example that
held is broken or a danger is lost. A trainer runs it after adding a word or a phrase.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TextIO

import click

from bot.doors.cli.collected import Collected, examples, from_lines, not_understood
from bot.doors.cli.compare import Change, compare
from bot.errors import BroodpostError, HandbookError
from bot.handbook.load import content_folder
from bot.records.migrate import check
from bot.records.session import Database
from bot.wiring import Thinking, build_thinking

TELL_EVERY = 1000  # texts


@click.command("changes")
@click.argument("changed", type=click.Path(exists=True, file_okay=False))
@click.option("--against", default="", help="the live content folder; else the one installed")
@click.option(
    "--data",
    type=click.Path(path_type=Path, exists=True, file_okay=False),
    help="data folder of a service: reads the texts of its adviser's list too",
)
@click.option(
    "--texts",
    type=click.File(encoding="utf-8"),
    help='more texts, one a line: {"text": "2 dead", "lang": "en"}; other keys as of an example',
)
def changes_command(changed: str, against: str, data: Path | None, texts: TextIO | None) -> None:
    """Show what a changed content folder changes, for every text ever collected.

    Reads each example of every language, the texts that the service failed on (--data) and texts
    of your own (--texts) with the live content and with the changed one. Prints only what changes.

    \b
    Example: try a new word in a copy, then look
      cp -r content /tmp/new
      (add the word to /tmp/new/languages/en/words.yaml, the text to examples.yaml)
      broodpost changes /tmp/new --data /var/lib/broodpost
    """
    live = content_folder(against)
    collected = examples(live, content_folder(changed))
    if data is not None:
        collected += _from_service(data)
    if texts is not None:
        collected += from_lines(texts.name, texts)
    began = time.monotonic()
    tally = Tally()
    for change in compare(_thinking(live), _thinking(Path(changed)), _watched(collected)):
        tally.count(change)
        click.echo(change.shown())
    click.echo(tally.line(collected, time.monotonic() - began))
    sys.exit(1 if tally.bad else 0)


def _thinking(folder: Path) -> Thinking:
    try:
        return build_thinking(str(folder))
    except HandbookError as error:
        raise BroodpostError(f"{folder} can't be read: {error}") from error


def _from_service(data: Path) -> list[Collected]:
    file = data / "broodpost.db"
    if not file.is_file():
        raise BroodpostError(f"{data} holds no broodpost.db: is it the data folder of a service?")
    db = Database(f"sqlite:///{file}")
    check(db)
    return not_understood(db)


def _watched(collected: Sequence[Collected]) -> Iterator[Collected]:
    """The texts one by one; where there are many, how far it has come goes to standard error."""
    for done, one in enumerate(collected):
        if done and done % TELL_EVERY == 0:
            print(f"{done} of {len(collected)} texts read", file=sys.stderr, flush=True)
        yield one


@dataclass(slots=True)
class Tally:
    """Counts for the last line."""

    seen: Counter[str] = field(default_factory=Counter)

    def count(self, change: Change) -> None:
        """Add one change."""
        self.seen["changed"] += change.before.shown() != change.after.shown()
        self.seen["met"] += change.met
        self.seen["broken"] += change.broken
        self.seen["lost"] += bool(change.lost)
        self.seen["unmet"] += change.one.fresh and bool(change.missed_after)
        if change.one.example is None:
            self.seen["understood"] += change.before.unread and not change.after.unread
            self.seen["no longer"] += change.after.unread and not change.before.unread

    @property
    def bad(self) -> bool:
        return bool(self.seen["broken"] or self.seen["lost"])

    def line(self, collected: Sequence[Collected], took_s: float) -> str:
        """The last line."""
        known = sum(1 for one in collected if one.example is not None)
        seen = self.seen
        return (
            f"{len(collected)} texts read in {took_s:.0f} s ({known} examples, "
            f"{len(collected) - known} others): {seen['changed']} change; "
            f"examples: {seen['met']} now met, {seen['broken']} broken, {seen['unmet']} new ones "
            f"not met; others: {seen['understood']} now understood, {seen['no longer']} no longer; "
            f"dangers lost: {seen['lost']}"
        )
