"""Finds the columns of a list: the row of headings and which column holds what, in any order and in
any language's words. In: lines of cells as a spreadsheet holds them. Out: entries, one a farm.
Pure. Called by turn.enrol.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bot.errors import BroodpostError

COLUMNS = ("phone", "name", "member", "language", "place")
HEADED_WITHIN = 15  # rows: lists often have a title above the headings
MOST_ROWS = 10_000
LONGEST_CELL = 200

Headings = Mapping[str, str]  # a folded heading -> the column it stands for


class ListFault(BroodpostError):
    """A list that can't be read as a whole. key: under `enrol.fault` in desk.yaml."""

    def __init__(self, key: str, **values: object) -> None:
        super().__init__(key)
        self.key = key
        self.values = values


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a spreadsheet. number: as the spreadsheet counts it, from 1."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One farm as it stands in a list, cell by cell; "" for what is not there."""

    row: int
    phone: str = ""
    name: str = ""
    member: str = ""
    language: str = ""
    place: str = ""


@dataclass(frozen=True, slots=True)
class Listed:
    """What a list holds. unused: headings that nothing was taken from."""

    entries: tuple[Entry, ...]
    unused: tuple[str, ...] = ()


def fold(text: str) -> str:
    """A heading or a language's name without accents, capitals and punctuation."""
    bare = unicodedata.normalize("NFKD", text.casefold())
    letters = "".join(one for one in bare if not unicodedata.combining(one))
    return " ".join(re.findall(r"[^\W_]+", letters))


def headings_of(words: Mapping[str, Sequence[str]]) -> Headings:
    """Folded headings from lists of words by column, "Phone, Mobile number, ..."."""
    return {
        fold(word): column
        for column, lists in words.items()
        for one in lists
        for word in one.split(",")
    }


def read_list(lines: Sequence[Line], headings: Headings) -> Listed:
    """The entries of a list. ListFault where no row of headings names a phone, where two columns
    say that they are the same, and where there is nothing below or too much."""
    at = next((n for n, line in enumerate(lines[:HEADED_WITHIN]) if _heads(line, headings)), None)
    if at is None:
        raise ListFault("no_phone_column")
    named = [(cell, headings.get(fold(cell))) for cell in lines[at].cells]
    columns = [column for _, column in named]
    for column in COLUMNS:
        same = [cell for cell, of in named if of == column]
        if len(same) > 1:
            raise ListFault("column_twice", first=same[0], second=same[1])
    entries = tuple(_entries(lines[at + 1 :], columns))
    if not entries:
        raise ListFault("no_rows")
    if len(entries) > MOST_ROWS:
        raise ListFault("too_many_rows", most=MOST_ROWS)
    return Listed(entries, tuple(cell for cell, of in named if of is None and cell.strip()))


def _heads(line: Line, headings: Headings) -> bool:
    return any(headings.get(fold(cell)) == "phone" for cell in line.cells)


def _entries(lines: Sequence[Line], columns: Sequence[str | None]) -> Iterator[Entry]:
    for line in lines:
        cells = dict(zip(columns, (_tidy(cell) for cell in line.cells), strict=False))
        known = {column: cells[column] for column in COLUMNS if cells.get(column)}
        if known:
            yield Entry(line.number, **known)


def _tidy(cell: str) -> str:
    """A cell without what can't be seen, on one line; an apostrophe that only says "text" goes."""
    seen = unicodedata.normalize("NFC", cell[:LONGEST_CELL])
    shown = "".join(one if one.isprintable() else " " for one in seen)
    return " ".join(shown.split()).removeprefix("'")
