"""`broodpost teach`: learns from the examples anew, after some were added."""

from __future__ import annotations

import sys

import click

from bot.doors.cli.collected import all_examples
from bot.doors.cli.lines import content_option
from bot.doors.context import case_of, read_context
from bot.errors import BroodpostError
from bot.facts.talk import Meaning
from bot.handbook.learned import save_learned
from bot.handbook.load import content_folder
from bot.handbook.shape_words import Example
from bot.handbook.words import load_words
from bot.turn.take import hearing
from bot.understand.index import build_index
from bot.understand.read import Reader


@click.command("teach")
@content_option
def teach_command(content: str) -> None:
    """Learn from the examples of all languages, and write content/languages/learned.npz.

    To be run after examples were added: what is learned stands beside the words, and does not
    change by itself. Takes some minutes, and needs scikit-learn (the extra "dev").

    \b
    Example:
      broodpost teach --content /tmp/new
    """
    try:
        from bot.understand.teach import teach
    except ImportError as missing:
        raise BroodpostError("teach needs scikit-learn: pip install 'broodpost[dev]'") from missing
    folder = content_folder(content)
    examples = list(all_examples(folder))
    index = build_index(load_words(folder))
    reader = Reader(index)

    def by_words(one: Example) -> Meaning:
        context = read_context(one.language, one.context)
        return reader.read(one.text, hearing(case_of(context), context.today))

    learned = teach(examples, by_words, index, _tell)
    path = save_learned(learned, folder)
    click.echo(f"{len(examples)} examples, {len(learned.names)} things to tell apart: {path}")


def _tell(what: str, done: int, of: int) -> None:
    sys.stderr.write(f"\r{what} {done} of {of}" + ("\n" if done == of else ""))
    sys.stderr.flush()
