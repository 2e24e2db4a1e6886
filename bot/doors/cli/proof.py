"""`broodpost proof [CONTENT]`: proofreads the content, one line a fault, exit 1 where there is any.

In: a content folder, else the project's own. Out, on standard output: the faults, or what was
read. Called by scripts/check and by whoever changes a text.
"""

from __future__ import annotations

import sys

import click

from bot.handbook.load import content_folder
from bot.handbook.texts import load_texts
from bot.proof.proofread import proofread


@click.command("proof")
@click.argument("content", default="")
def proof_command(content: str) -> None:
    """Proofread the content: texts in every language, figures, calendar, fire rules."""
    folder = content_folder(content)
    faults = proofread(folder)
    for fault in faults:
        click.echo(str(fault))
    if faults:
        click.echo(f"{len(faults)} to put right")
        sys.exit(1)
    texts = load_texts(folder)
    languages = ", ".join(sorted(texts.tongues))
    count = f"{len(texts.shapes)} texts, {len(texts.tongues)} languages"
    click.echo(f"content is right: {count} ({languages})")
