"""`broodpost figure NAME key=value ...`: one husbandry figure as one line of JSON.

In: a name and its inputs. Out, on standard output: the figure with unit, range, source and basis;
outside the valid range or on bad input {"error", "valid"} and exit code 2. `figure --list` prints
an example of each. Runs offline through the same functions as the service.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence

import click

from bot.errors import OutsideRange
from bot.handbook.husbandry import load_husbandry
from bot.handbook.load import content_folder
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.asking import ECHOED, Answer, Asked, Inputs
from bot.husbandry.figures import figure, help_lines
from bot.say.segments import measure

BAD_INPUT = 2


def _parts(inputs: Inputs, h: Husbandry) -> Answer:
    """What a text costs on the air. It stands here because texts are no husbandry."""
    found = measure(inputs.raw_text("text"))
    extra = {"encoding": found.encoding, "units": found.units}
    return Answer(found.parts, "parts", (h.text_part,), h.text_part.note, extra=extra)


MORE = {"parts": Asked("parts", 'text="Day 4: add heat"', "what a text costs", _parts)}


@click.command("figure", context_settings={"ignore_unknown_options": True})
@click.option("--list", "listing", is_flag=True, help="Print an example of every figure.")
@click.argument("name", required=False)
@click.argument("inputs", nargs=-1, type=click.UNPROCESSED)
def figure_command(listing: bool, name: str | None, inputs: Sequence[str]) -> None:
    """One husbandry figure with its source: figure NAME key=value ..."""
    if listing:
        for line in help_lines(MORE):
            click.echo(line)
        return
    try:
        _check_letters((name or "", *inputs))
        found = figure(name or "", _read(inputs), load_husbandry(content_folder()), MORE)
    except OutsideRange as error:
        _print({"error": error.name, "valid": error.valid})
        sys.exit(BAD_INPUT)
    _print(found.as_dict())


def _check_letters(words: Sequence[str]) -> None:
    """OutsideRange for bytes that are no letters: they could not be printed again as JSON."""
    for word in words:
        if any("\ud800" <= letter <= "\udfff" for letter in word):
            raise OutsideRange(f"{ascii(word)[:ECHOED]} can't be read", "letters in UTF-8")


def _read(inputs: Sequence[str]) -> dict[str, str]:
    """key=value words as a mapping; a key twice or a word without = is refused."""
    found: dict[str, str] = {}
    for word in inputs:
        key, equals, value = word.partition("=")
        if not equals or not key:
            raise OutsideRange(f"{word[:ECHOED]} is not an input", "key=value, such as age_days=3")
        if key in found:
            raise OutsideRange(f"{key[:ECHOED]} was given twice", "each key once")
        found[key] = value
    return found


def _print(line: dict[str, object]) -> None:
    click.echo(json.dumps(line, ensure_ascii=False))
