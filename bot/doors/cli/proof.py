"""`broodpost proof [CONTENT]`: proofreads the content, one line a fault, exit 1 where there is any.

In: a content folder, else the project's own. Out, on standard output: the faults, or what was read
and what a language still leaves to another. Called by scripts/check and by whoever changes a text.
"""

from __future__ import annotations

import sys
import textwrap

import click

from bot.handbook.load import content_folder
from bot.handbook.shape_texts import Texts
from bot.handbook.texts import load_texts
from bot.proof.heard import check_heard
from bot.proof.keys import unworded
from bot.proof.proofread import proofread


@click.command("proof")
@click.argument("content", default="")
def proof_command(content: str) -> None:
    """Proofread the content: texts in every language, figures, calendar, fire rules, dangers heard.

    \b
    Example:
      broodpost proof content
    """
    folder = content_folder(content)
    faults = proofread(folder) or tuple(check_heard(folder))
    for fault in faults:
        click.echo(str(fault))
    if faults:
        click.echo(f"{len(faults)} to put right")
        sys.exit(1)
    _tell(load_texts(folder))


def _tell(texts: Texts) -> None:
    for tongue, file, keys in unworded(texts):
        instead = texts.tongues[tongue.falls_back_to or ""].own_name
        line = f"{file}: {len(keys)} not yet worded, said in {instead}: {', '.join(keys)}"
        click.echo(textwrap.fill(line, 100, subsequent_indent="  "))
    languages = ", ".join(sorted(texts.tongues))
    count = f"{len(texts.shapes)} texts, {len(texts.tongues)} languages"
    click.echo(f"content is right: {count} ({languages})")
