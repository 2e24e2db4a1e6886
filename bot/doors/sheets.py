"""Spreadsheets in and out, XLSX and CSV. In: the bytes of a file that a stranger may have made.
Out: lines of cells, or bytes to save. Called by the desk's lists and `broodpost enrol`.

Nothing in a file is worked out: formulas give the value that was saved with them. What is unpacked
is bounded before it is read, and a part that declares entities is refused.
"""

from __future__ import annotations

import csv
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from io import BytesIO, StringIO
from typing import Any

from openpyxl import Workbook, load_workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Font

from bot.cooperative.columns import HEADED_WITHIN, MOST_ROWS, Line, ListFault
from bot.say.cells import safe_cell

LARGEST_FILE = 2 * 1024 * 1024
LARGEST_UNPACKED = 24 * 1024 * 1024
MOST_PARTS = 200
MOST_LINES = MOST_ROWS + HEADED_WITHIN + 1000  # rows that are empty may stand between
MOST_COLUMNS = 60
SEPARATORS = ",;\t|"
BLANK = " \t\r\n"
_OLD_OFFICE = b"\xd0\xcf\x11\xe0"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def read_lines(file: bytes) -> list[Line]:
    """The rows of a file, whatever its name says it is. ListFault where it can't be read."""
    if not file.strip():
        raise ListFault("empty")
    if len(file) > LARGEST_FILE:
        raise ListFault("too_large", most=LARGEST_FILE // 1024 // 1024)
    if file.startswith(_OLD_OFFICE):
        raise ListFault("old_office")
    return list(_xlsx(file) if file.startswith(b"PK") else _csv(file))


def _csv(file: bytes) -> Iterator[Line]:
    text = _decoded(file)
    try:
        rows = list(csv.reader(StringIO(text, newline=""), delimiter=_separator(text)))
    except csv.Error as error:
        raise ListFault("no_table") from error
    for number, cells in enumerate(rows[:MOST_LINES], start=1):
        yield Line(number, tuple(cells[:MOST_COLUMNS]))
    if len(rows) > MOST_LINES:
        raise ListFault("too_many_rows", most=MOST_ROWS)


def _decoded(file: bytes) -> str:
    """As spreadsheets save text: UTF-8, UTF-16 with its mark, else the letters of Western Europe.
    ListFault where it is no text."""
    if file.startswith((b"\xff\xfe", b"\xfe\xff")):
        tried: tuple[str, ...] = ("utf-16",)
    else:
        tried = ("utf-8-sig", "cp1252")
    for coding in tried:
        try:
            text = file.decode(coding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text
    raise ListFault("no_table")


def _separator(text: str) -> str:
    """What stands between cells: the sign that most of the first lines hold."""
    begun = [line for line in text.splitlines()[:HEADED_WITHIN] if line.strip(BLANK)]
    return max(SEPARATORS, key=lambda sign: sum(line.count(sign) for line in begun))


def _xlsx(file: bytes) -> Iterator[Line]:
    _look_inside(file)
    try:
        book = load_workbook(BytesIO(file), read_only=True, data_only=True, keep_links=False)
        sheet = book.worksheets[0]
        rows = sheet.iter_rows(max_row=MOST_LINES + 1, max_col=MOST_COLUMNS, values_only=True)
        found = [_cells(row) for row in rows]
    except Exception as error:  # whatever a mangled file makes the library raise
        raise ListFault("no_table") from error
    while found and not found[-1]:
        found.pop()
    if len(found) > MOST_LINES:
        raise ListFault("too_many_rows", most=MOST_ROWS)
    for number, cells in enumerate(found, start=1):
        yield Line(number, cells)


def _look_inside(file: bytes) -> None:
    """ListFault for what is packed but no workbook, unpacks to too much, or declares entities."""
    try:
        with zipfile.ZipFile(BytesIO(file)) as packed:
            parts = packed.infolist()
            if len(parts) > MOST_PARTS or sum(one.file_size for one in parts) > LARGEST_UNPACKED:
                raise ListFault("unpacks_too_large")
            if "xl/workbook.xml" not in packed.namelist():
                raise ListFault("other_office")
            for one in parts:
                if one.filename.endswith((".xml", ".rels")):
                    _plain_part(packed.read(one))
    except (zipfile.BadZipFile, zlib.error, RuntimeError, OSError, EOFError) as error:
        raise ListFault("no_table") from error


def _plain_part(part: bytes) -> None:
    if b"<!DOCTYPE" in part or b"<!ENTITY" in part or b"\x00" in part:
        raise ListFault("no_table")


def _cells(row: Sequence[Any]) -> tuple[str, ...]:
    """A row up to its last cell that holds something."""
    found = [_cell(value) for value in row]
    while found and not found[-1]:
        found.pop()
    return tuple(found)


def _cell(value: Any) -> str:
    """A cell as a person would read it. A whole number has no decimals."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() else repr(value)
    if isinstance(value, (datetime, date)):
        return value.isoformat()
    return str(value)


def write_csv(rows: Iterable[Sequence[str]]) -> bytes:
    """Rows as UTF-8 with its mark, so that spreadsheets read the accents; no cell is a formula."""
    file = StringIO()
    writer = csv.writer(file)
    for row in rows:
        writer.writerow([safe_cell(cell) for cell in row])
    return file.getvalue().encode("utf-8-sig")


def write_xlsx(rows: Iterable[Sequence[str]], title: str) -> bytes:
    """Rows in one sheet, the first of them bold. Every cell is text, so that no number loses its
    zeros and nothing is a formula."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet(title[:31])
    sheet.freeze_panes = "A2"
    for number, row in enumerate(rows):
        sheet.append([_text_cell(sheet, cell, heading=number == 0) for cell in row])
    file = BytesIO()
    book.save(file)
    return file.getvalue()


def _text_cell(sheet: Any, text: str, *, heading: bool) -> Any:
    cell = WriteOnlyCell(sheet, value="")
    cell.value = "".join(one for one in text if one.isprintable())
    cell.data_type = "s"
    cell.number_format = "@"
    if heading:
        cell.font = Font(bold=True)
    return cell
