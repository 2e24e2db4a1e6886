"""A list of a thousand farms as a cooperative's office might keep it: the forty that it has, thirty
rows with a fault, and new ones. Every number is of the range reserved for fiction."""

from __future__ import annotations

from pathlib import Path

from openpyxl import Workbook

from bot.doors.demo import FIRST_NUMBER

ROWS, KNOWN, FAULTS = 1000, 40, 30
NEW = ROWS - KNOWN - FAULTS
NEWCOMERS = range(980, 1000)  # have joined by themselves, and stand on no list
TAKEN = {100, *range(FIRST_NUMBER, FIRST_NUMBER + KNOWN), *NEWCOMERS}  # 100: the service's own
FAULTY = (
    ("", "There is no phone number."),
    ("ask her son", "is not one phone number."),
    ("07000001", "digits: too few or too many."),
    ("700000999", "seems to have lost its first zero."),
    ("2.547E+11", "The spreadsheet has shortened the number"),
    ("+44 7700 900001", "The number is of a country that is not served."),
)  # numbers of Ofcom's range for drama


def write_list(path: Path) -> list[int]:
    """Write the list; gives the rows of the spreadsheet that are faulty."""
    free = (n for n in range(1000) if n not in TAKEN)
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Place", "Mobile number", "Name of farmer", "Acres"])
    known = iter(range(FIRST_NUMBER, FIRST_NUMBER + KNOWN))
    faulty: list[int] = []
    for row in range(2, ROWS + 2):
        name = f"Farmer {row}"
        if row % 33 == 0:
            phone = FAULTY[len(faulty) % len(FAULTY)][0]
            faulty.append(row)
        else:
            number = next(known, None)
            phone = f"0700000{next(free) if number is None else number:03}"
            name = name if number is None else ""
        sheet.append(["", phone, name, row % 7])
    book.save(path)
    return faulty
