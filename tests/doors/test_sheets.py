"""Spreadsheets that come in and go out: every way they are saved, and files made to do harm."""

from __future__ import annotations

import csv
import zipfile
from collections.abc import Callable
from io import BytesIO, StringIO

import pytest
from openpyxl import Workbook, load_workbook

from bot.cooperative.columns import Line, ListFault
from bot.doors.sheets import LARGEST_FILE, MOST_LINES, read_lines, write_csv, write_xlsx

ROWS = [("Téléphone", "Nom"), ("0700000001", "Amélie"), ("+254700000002", "Juma, W.")]


def as_csv(coding: str, separator: str = ",") -> bytes:
    file = StringIO()
    csv.writer(file, delimiter=separator).writerows(ROWS)
    return file.getvalue().encode(coding)


def as_xlsx(change: Callable[[Workbook], None] | None = None) -> bytes:
    book = Workbook()
    for row in ROWS:
        book.active.append(row)  # type: ignore[union-attr]
    if change is not None:
        change(book)
    file = BytesIO()
    book.save(file)
    return file.getvalue()


def packed(parts: dict[str, bytes]) -> bytes:
    file = BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as into:
        for name, part in parts.items():
            into.writestr(name, part)
    return file.getvalue()


def unpacked(file: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(BytesIO(file)) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_is_read_however_a_spreadsheet_saved_it(coding: str, separator: str) -> None:
    found = read_lines(as_csv(coding, separator))
    assert found == [Line(n, row) for n, row in enumerate(ROWS, start=1)]


def test_an_xlsx_is_read_with_numbers_as_a_person_sees_them() -> None:
    def more(book: Workbook) -> None:
        book.active.append((254700000003, 12.0, True, 1.5))  # type: ignore[union-attr]

    found = read_lines(as_xlsx(more))
    assert [line.cells[:2] for line in found[:3]] == ROWS
    assert found[3].cells == ("254700000003", "12", "true", "1.5")


def test_a_formula_is_not_worked_out() -> None:
    def more(book: Workbook) -> None:
        book.active.append(("=1+1", "Amina"))  # type: ignore[union-attr]

    assert read_lines(as_xlsx(more))[3].cells[0] == ""


def bomb() -> bytes:
    """A workbook whose sheet is 40 MB of spaces."""
    parts = unpacked(as_xlsx())
    sheet = parts["xl/worksheets/sheet1.xml"]
    return packed(parts | {"xl/worksheets/sheet1.xml": sheet + b" " * (40 << 20)})


def laughing() -> bytes:
    """A workbook whose strings are entities of entities."""
    parts = unpacked(as_xlsx())
    entities = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
    return packed(parts | {"xl/sharedStrings.xml": entities + b"<sst><si><t>&b;</t></si></sst>"})


@pytest.mark.parametrize(
    ("file", "why"),
    [
        (b"", "empty"),
        (b" \n ", "empty"),
        (b"x" * (LARGEST_FILE + 1), "too_large"),
        (b"\xd0\xcf\x11\xe0 old", "old_office"),
        (packed({"content.xml": b"<x/>"}), "other_office"),
        (packed({f"x{n}": b"" for n in range(300)}), "unpacks_too_large"),
        (b"PK\x03\x04 broken", "no_table"),
        (as_xlsx()[:-200], "no_table"),
        (b"\x00\x01\x02", "no_table"),
        (b"a" * 200_000, "no_table"),
        (b"Phone\n" + b"1\n" * (MOST_LINES + 1), "too_many_rows"),
    ],
)
def test_what_is_no_list_says_why(file: bytes, why: str) -> None:
    with pytest.raises(ListFault) as caught:
        read_lines(file)
    assert caught.value.key == why


@pytest.mark.parametrize(
    ("made", "why"),
    [(bomb, "unpacks_too_large"), (laughing, "no_table")],
)
def test_a_file_made_to_do_harm_is_refused(made: Callable[[], bytes], why: str) -> None:
    with pytest.raises(ListFault) as caught:
        read_lines(made())
    assert caught.value.key == why


@pytest.mark.parametrize(("row", "column"), [(2, 16_384), (1_048_576, 1)])
def test_a_cell_at_the_far_end_of_a_sheet_is_left_out(row: int, column: int) -> None:
    def more(book: Workbook) -> None:
        book.active.cell(row, column, "x")  # type: ignore[union-attr]

    assert [line.cells for line in read_lines(as_xlsx(more))] == ROWS


FORMULAS = ["=1+1", "+254700000001", "-1", "@SUM(A1)", "\t=1", "\r=1"]


@pytest.mark.parametrize("cell", FORMULAS)
def test_no_cell_of_a_csv_is_a_formula(cell: str) -> None:
    found = list(csv.reader(StringIO(write_csv([[cell]]).decode("utf-8-sig"))))
    assert found[0][0].startswith("'")


@pytest.mark.parametrize("cell", FORMULAS)
def test_every_cell_of_an_xlsx_is_text(cell: str) -> None:
    book = load_workbook(BytesIO(write_xlsx([["Phone"], [cell]], "Result")))
    found = book.active["A2"]  # type: ignore[index]
    assert (found.data_type, found.number_format) == ("s", "@")
    assert found.value == cell.strip("\t\r")


def test_what_was_written_is_read_again() -> None:
    rows = [list(row) for row in ROWS]
    assert [list(line.cells) for line in read_lines(write_xlsx(rows, "x"))] == rows
