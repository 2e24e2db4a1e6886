"""Enrol, as a trainer goes through it: try, look, confirm, take the result file away."""

from __future__ import annotations

import re
from datetime import timedelta
from io import BytesIO

import pytest
from openpyxl import load_workbook
from sqlalchemy import func, select, update

from bot.doors.sheets import LARGEST_FILE, write_csv, write_xlsx
from bot.records import tables as t
from tests.doors.desk.world import MOST_BYTES, NOW, World

HEADINGS = ["Simu", "Jina", "Numéro de membre", "Acres"]
ROWS = [
    HEADINGS,
    ["0700000011", "Ouma", "M11", "1"],
    ["0700000012", "Neema", "M12", "2"],
    ["0700000011", "Ouma again", "", ""],
    ["700000013", "Lost zero", "", ""],
    ["0700000001", "Mkulima Amina W.", "M1", ""],
]


def bring(world: World, whole: bytes, name: str = "farms.xlsx") -> str:
    """The address of the list that was tried."""
    answer = world.visitor("enrols").post("/desk/enrol/try", list=(BytesIO(whole), name))
    assert answer.status_code == 303, answer.text
    return str(answer.headers["Location"])


def seal_on(page: str) -> str:
    found = re.search(r'name="seal" value="(\w+)"', page)
    assert found is not None
    return found[1]


def count(world: World, table: str) -> int:
    with world.db.read() as connection:
        query = select(func.count()).select_from(t.metadata.tables[table])
        return int(connection.execute(query).scalar_one())


def test_a_tried_list_shows_what_each_row_would_do_and_sends_nothing(world: World) -> None:
    page = world.visitor("enrols").get(bring(world, write_xlsx(ROWS, "x"))).text
    for said in ("new: 2", "changed: 1", "double: 1", "wrong: 1", "Row 2 has the same phone.",
                 "If it is +254700000013, write it so.", "Acres",
                 "Name: Mkulima Amina, now Mkulima Amina W."):  # fmt: skip
        assert said in page, said
    assert count(world, "phone") == 2
    assert count(world, "outbox") == 2


@pytest.mark.parametrize("made", [lambda: write_xlsx(ROWS, "x"), lambda: write_csv(ROWS)])
def test_what_is_confirmed_is_invited_once_and_the_second_time_all_is_as_before(
    world: World, made: object
) -> None:
    whole = made()  # type: ignore[operator]
    visitor, address = world.visitor("enrols"), bring(world, whole)
    seal = seal_on(visitor.get(address).text)
    for _ in range(2):
        assert visitor.post(f"{address}/invite", seal=seal).status_code == 303
    assert "Phones that are asked: 2. Rows changed: 1." in visitor.get(address).text
    with world.db.read() as connection:
        invited = connection.execute(
            select(t.phone.c.number, t.person.c.name, t.person.c.member_number)
            .join(t.person, t.person.c.id == t.phone.c.person_id)
            .where(t.phone.c.consent == "invited")
            .order_by(t.phone.c.id)
        ).all()
        texts = connection.execute(
            select(t.outbox.c.text).where(t.outbox.c.business_key.like("invite:%"))
        ).scalars()
        assert all("1 yes 2 no" in text for text in texts)
        states = connection.execute(select(t.consent_record.c.state)).scalars().all()
    assert [tuple(row) for row in invited] == [
        ("+254700000011", "Ouma", "M11"), ("+254700000012", "Neema", "M12"),
    ]  # fmt: skip
    assert states == ["invited", "invited"]
    again = visitor.get(bring(world, whole)).text
    assert "as before: 3" in again
    assert "There is nothing to do" in again


def test_a_confirmation_fits_only_the_list_that_was_shown(world: World) -> None:
    visitor = world.visitor("enrols")
    first = bring(world, write_csv(ROWS))
    other = bring(world, write_csv([*ROWS, ["0700000014", "Wanjala", "", ""]]))
    answer = visitor.post(f"{other}/invite", seal=seal_on(visitor.get(first).text))
    assert "anew" in answer.headers["Location"]
    assert count(world, "phone") == 2


def test_what_changed_since_is_shown_before_it_counts(world: World) -> None:
    visitor = world.visitor("enrols")
    first, second = (bring(world, write_csv(ROWS)) for _ in range(2))
    seals = [seal_on(visitor.get(one).text) for one in (first, second)]
    visitor.post(f"{first}/invite", seal=seals[0])
    answer = visitor.post(f"{second}/invite", seal=seals[1])
    page = visitor.get(answer.headers["Location"]).text
    assert "There is nothing to do" in page or "Something has changed" in page
    assert "as before: 3" in page
    assert count(world, "phone") == 4


def test_a_list_is_kept_for_a_day(world: World) -> None:
    address = bring(world, write_csv(ROWS))
    with world.db.write() as connection:
        connection.execute(update(t.enrolment).values(made_at=NOW - timedelta(hours=25)))
    page = world.visitor("enrols").get(address)
    assert page.status_code == 404
    assert "a list is kept for one day" in page.text


def test_the_result_file_can_be_mended_and_brought_again(world: World) -> None:
    address = bring(world, write_csv(ROWS))
    answer = world.visitor("enrols").post(f"{address}/result", **{"as": "xlsx"})
    sheet = load_workbook(BytesIO(answer.data)).active
    assert sheet is not None
    cells = [[cell.value for cell in row] for row in sheet.iter_rows()]
    assert cells[0][:4] == ["Row", "Phone", "Name", "Member number"]
    assert {cell.data_type for row in sheet.iter_rows() for cell in row if cell.value} == {"s"}
    assert "5 rows" not in bring(world, answer.data)
    csv = world.visitor("enrols").post(f"{address}/result", **{"as": "csv"})
    assert csv.mimetype == "text/csv"
    assert count(world, "audit") == 2


def test_a_farm_is_enrolled_alone(world: World) -> None:
    visitor = world.visitor("enrols")
    answer = visitor.post("/desk/enrol/one", phone="0700000015", name="Juma", language="sw")
    address = answer.headers["Location"]
    visitor.post(f"{address}/invite", seal=seal_on(visitor.get(address).text))
    assert count(world, "phone") == 3


def test_one_farm_that_is_wrong_stays_in_the_form_with_what_to_do(world: World) -> None:
    answer = world.visitor("enrols").post("/desk/enrol/one", phone="12", name="Juma")
    assert answer.status_code == 400
    assert "too few or too many" in answer.text
    assert 'value="Juma"' in answer.text


@pytest.mark.parametrize(
    ("whole", "said"),
    [
        (b"", "The file is empty"),
        (b"Name\nAmina\n", "No column is called Phone"),
        (b"x" * (LARGEST_FILE + 1), "larger than 2 MB"),
        (b"PK\x03\x04", "read as a table"),
    ],
)
def test_a_file_that_is_no_list_says_what_to_do(world: World, whole: bytes, said: str) -> None:
    answer = world.visitor("enrols").post("/desk/enrol/try", list=(BytesIO(whole), "x"))
    assert answer.status_code == 400
    assert said in answer.text.replace("&#39;", "'")


def test_a_number_of_another_cooperative_is_not_told_from_one_that_was_forgotten(
    world: World,
) -> None:
    rows = [["Phone"], ["0700000002"]]
    page = world.visitor("enrols").get(bring(world, write_csv(rows))).text
    assert "This phone can't be asked from a list." in page.replace("&#39;", "'")
    assert "Zebra" not in page


def test_a_long_list_is_shown_in_parts_each_of_them_small(world: World) -> None:
    rows = [HEADINGS] + [
        [f"+25470000{n:04}", f"Farmer with a long name {n}", f"M{n}", "a long cell of no use"]
        for n in range(1000, 2000)
    ]
    address, visitor = bring(world, write_xlsx(rows, "x")), world.visitor("enrols")
    page = visitor.get(address)
    assert len(page.data) < MOST_BYTES
    assert "Rows 1 to 50 of 1000" in page.text
    assert "Rows 951 to 1000 of 1000" in visitor.get(f"{address}?only=new&from=951").text
