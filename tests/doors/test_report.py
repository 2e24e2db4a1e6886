"""`broodpost report`: a batch out of a real database, running or ended, as page and as texts."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import insert

from bot.doors.cli.report import report_command
from bot.records import tables as t
from bot.records.desk_staff import NewMember, add_member
from bot.records.desk_visits import NewVisit, keep_visit
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values, database_url
from tests.pages.reading import read

SETTINGS = {"BROODPOST_UNSIGNED": "1", "BROODPOST_PUBLIC_URL": "http://127.0.0.1:8080"}
AT = datetime(2026, 3, 31, 6, tzinfo=UTC)
EVENTS = (
    ("deaths", date(2026, 4, 4), {"n": 15}),
    ("feed_in", date(2026, 4, 1), {"kg": 991.23}),
    ("sold", date(2026, 5, 14), {"n": 285, "price": 250, "price_per": "kg", "kg": 527.25}),
)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A farm with an ended batch, number 1, and one that is planned, number 2."""
    db = Database(database_url(Settings(), tmp_path))
    upgrade(db)
    with db.write() as connection:
        values = cooperative_values(Settings(name="Mkulima"))
        connection.execute(insert(t.cooperative).values(id=1, **values))
        person = {"id": 1, "cooperative_id": 1, "language": "sw", "name": "Example"}
        connection.execute(insert(t.person).values(**person, created_at=AT))
        phone = {"id": 1, "cooperative_id": 1, "person_id": 1, "number": "+254700000001"}
        connection.execute(insert(t.phone).values(**phone, consent="active", created_at=AT))
        for number, state, placed in ((1, "closed", AT.date()), (2, "planned", date(2026, 6, 1))):
            row = {"id": number, "phone_id": 1, "state": state, "count": 300, "placed_on": placed}
            connection.execute(insert(t.batch).values(**row, created_at=AT))
        for kind, day, told in EVENTS:
            row = {"batch_id": 1, "kind": kind, "on_date": day, "at": AT, "data": told}
            connection.execute(insert(t.event).values(**row))
    db.close()
    return tmp_path


def report(data: Path, *given: str) -> Result:
    return CliRunner().invoke(report_command, ["--data", str(data), *given], env=SETTINGS)


def test_without_a_number_the_batches_are_listed(data: Path) -> None:
    lines = report(data).output.splitlines()
    assert [line.split()[:2] for line in lines] == [["2", "planned"], ["1", "closed"]]


def test_the_page_of_an_ended_batch_is_in_the_farmers_language(data: Path) -> None:
    page = read(report(data, "--batch", "1").output)
    assert page.fetched == []
    assert "Ripoti: vifaranga 300" in page.text
    assert "Mkulima, Example." in page.text
    # Shane, "What's your PEF?" (c.1998), Figure 1: 95 %, 1.85 kg, 44 days, 1.88 gives 212.
    assert "212" in page.text
    assert "1.88" in page.text


def test_a_lenders_page_names_nobody(data: Path) -> None:
    page = read(report(data, "--batch", "1", "--for", "lender", "--lang", "en").output).text
    assert "Example" not in page
    assert "+254" not in page


@pytest.fixture
def visited(data: Path) -> Path:
    """The same, visited once and called twice while the first batch was there."""
    notes = (
        ("there", date(2026, 4, 4), "Litter wet at the drinkers, turned " + "and dried " * 40),
        ("called", date(2026, 4, 6), "They are well again"),
        ("called", date(2026, 4, 9), "The vet gave oxytetracycline"),
    )
    db = Database(database_url(Settings(), data))
    with db.write() as connection:
        new = NewMember("Neema", "neema", "no hash", "advises", "en")
        staff = add_member(connection, 1, new, AT)
        assert staff is not None
        for how, day, note in notes:
            keep_visit(connection, 1, NewVisit(1, 1, staff, how, note, day, 0), AT)
    db.close()
    return data


def test_a_trainers_page_tells_who_came_when_and_what_they_saw_in_short(visited: Path) -> None:
    told = read(report(visited, "--batch", "1", "--for", "trainer", "--lang", "en").output).text
    page = " ".join(told.split())
    first, second = page.index("2026-04-04 visited, Neema"), page.index("2026-04-06 called, Neema")
    assert "Litter wet at the drinkers" in page[first:second]
    assert second - first < 260
    assert "The vet gave oxytetracycline" in page
    other = read(report(visited, "--batch", "2", "--for", "trainer", "--lang", "en").output).text
    assert "Neema" not in other


def test_no_medicine_is_named_on_a_farmers_page_and_nobody_who_came_on_a_lenders(
    visited: Path,
) -> None:
    farmers = read(report(visited, "--batch", "1", "--lang", "en").output).text
    assert "They are well again" in farmers
    assert "oxytetracycline" not in farmers
    assert "The note stands in the trainer's record." in farmers
    lenders = read(report(visited, "--batch", "1", "--for", "lender", "--lang", "en").output).text
    assert "Neema" not in lenders


def test_the_short_text_is_the_closing(data: Path) -> None:
    texts = report(data, "--batch", "1", "--text", "--lang", "en").output.splitlines()
    assert texts[0].startswith("Batch done: 285 sold of 300, 95 of 100 lived, about 1850 g")
    assert all(len(one) <= 160 for one in texts)


def test_a_planned_batch_has_a_page_too(data: Path) -> None:
    assert "300" in read(report(data, "--batch", "2").output).text


def test_what_does_not_exist_is_said(data: Path) -> None:
    assert "no batch 9" in report(data, "--batch", "9").output
    assert "en, fr, sw" in report(data, "--batch", "1", "--lang", "xx").output
