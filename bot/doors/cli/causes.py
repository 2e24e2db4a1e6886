"""`broodpost causes [CONTENT]`: draws the evidence model for those who keep it.

In: a content folder, else the project's own. Out, on standard output: a table of signs against
causes with the question that asks for each sign, then what is missing; `--picture FILE` also draws
the table as SVG. A slip in the files is one line that names file and key, as everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from xml.sax.saxutils import escape

import click

from bot.diagnosis.chart import Chart, chart, only_one, unsaid
from bot.handbook.causes import load_causes
from bot.handbook.husbandry import load_husbandry
from bot.handbook.load import content_folder
from bot.handbook.shape_causes import Causes
from bot.handbook.shape_texts import Texts
from bot.handbook.texts import load_texts

MARKS = {2: "#", 1: "+", 0: ".", -1: "-"}
COLOURS = {2: "#1b5e3f", 1: "#8cc7a1", 0: "#f4f4f0", -1: "#d98b7f"}
LEGEND = "# speaks strongly for it  + speaks for it  . says little  - speaks against it"
CELL, LEFT, TOP, RIGHT = 22, 250, 120, 230  # pixels


@click.command("causes")
@click.argument("content", default="")
@click.option(
    "--picture",
    type=click.Path(path_type=Path, dir_okay=False),
    help="draw the table into this file, as SVG",
)
def causes_command(content: str, picture: Path | None) -> None:
    """Draw causes, signs and questions, and list what is missing.

    \b
    Example:
      broodpost causes
      broodpost causes content --picture causes.svg
    """
    folder = content_folder(content)
    causes = load_causes(folder, load_husbandry(folder).sources.by_id)
    found = chart(causes)
    for line in (*table(causes, found), "", *gaps(causes, found, load_texts(folder))):
        click.echo(line)
    if picture is not None:
        picture.write_text(drawing(causes, found), encoding="utf-8")


def table(causes: Causes, found: Chart) -> Iterator[str]:
    """Signs down, causes across, the question at the end of each row."""
    yield from (
        f"{letter}  {code}" for letter, code in zip(_letters(), causes.causes, strict=False)
    )
    yield LEGEND
    wide = max(map(len, causes.signs))
    yield f"{'':{wide}}  {' '.join(_letters()[: len(causes.causes)])}  asked by"
    for sign in causes.signs:
        marks = " ".join(MARKS[found.marks[sign, code]] for code in causes.causes)
        yield f"{sign:{wide}}  {marks}  {_asked(found, sign)}"


def _letters() -> str:
    return "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def _asked(found: Chart, sign: str) -> str:
    name = found.reached[sign]
    return "only told" if name is None else name.replace("sign:", "ask_")


def gaps(causes: Causes, found: Chart, texts: Texts) -> Iterator[str]:
    """What no question reaches, what nothing tells apart, what is not worded, what has no second
    action."""
    yield from _listed("Signs that no question can reach", found.unreached)
    yield from _listed(
        "Causes that no question tells apart",
        (
            f"{one} and {other}: " + (f"only {sign}, told unasked" if sign else "nothing does")
            for one, other, sign in found.alike
        ),
    )
    yield from _listed("Actions without a text", sorted(set(_unworded(causes, texts))))
    yield from _listed(
        "Nothing more to try after the first action", map(" ".join, only_one(causes))
    )


def _unworded(causes: Causes, texts: Texts) -> Iterator[str]:
    for tongue in texts.tongues.values():
        for code, house, heat, key in unsaid(causes, tongue.wordings):
            yield f"{tongue.code}: {key} ({code}, {house}, {heat})"


def _listed(title: str, lines: Iterator[str] | tuple[str, ...] | list[str]) -> Iterator[str]:
    found = list(lines)
    yield f"{title}: {len(found) or 'none'}"
    yield from (f"  {line}" for line in found)


def drawing(causes: Causes, found: Chart) -> str:
    """The table as SVG."""
    width = LEFT + CELL * len(causes.causes) + RIGHT
    height = TOP + CELL * len(causes.signs) + 40
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" font-family="sans-serif" font-size="12" role="img">',
        "<title>Which sign speaks for which cause, and the question that asks for it</title>",
        f'<rect width="{width}" height="{height}" fill="white"/>',
    ]
    for column, code in enumerate(causes.causes):
        x = LEFT + CELL * column + CELL // 2 + 4
        parts.append(
            f'<text transform="translate({x} {TOP - 6}) rotate(-60)">{escape(code)}</text>'
        )
    for row, sign in enumerate(causes.signs):
        parts += _row(row, sign, causes, found)
    parts.append(f'<text x="10" y="{height - 12}">{escape(LEGEND)}</text>')
    return "\n".join([*parts, "</svg>"]) + "\n"


def _row(row: int, sign: str, causes: Causes, found: Chart) -> Iterator[str]:
    y = TOP + CELL * row
    yield f'<text x="{LEFT - 8}" y="{y + 15}" text-anchor="end">{escape(sign)}</text>'
    for column, code in enumerate(causes.causes):
        mark = found.marks[sign, code]
        x = LEFT + CELL * column
        ink = "white" if mark == 2 else "black"
        side = f'width="{CELL - 2}" height="{CELL - 2}"'
        yield f'<rect x="{x}" y="{y}" {side} fill="{COLOURS[mark]}"/>'
        yield f'<text x="{x + 7}" y="{y + 15}" fill="{ink}">{MARKS[mark]}</text>'
    asked = escape(_asked(found, sign))
    yield f'<text x="{LEFT + CELL * len(causes.causes) + 8}" y="{y + 15}">{asked}</text>'
