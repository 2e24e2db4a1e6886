"""`broodpost people`: what an adviser sees and changes of people and phones."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import insert, select

from bot.doors.cli.people import people_command
from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values, database_url

SETTINGS = {"BROODPOST_UNSIGNED": "1", "BROODPOST_PUBLIC_URL": "http://127.0.0.1:8080"}
AT = datetime(2026, 3, 1, 6, tzinfo=UTC)
OWNER, CARETAKER, SUSPENDED, NEW = (f"+25470000000{one}" for one in (1, 2, 3, 4))


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Amina, whose birds' texts go to Juma's phone, and a number that is no good."""
    db = Database(database_url(Settings(), tmp_path))
    upgrade(db)
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(Settings())))
        for number, name in ((1, "Amina"), (2, "Juma"), (3, None)):
            person = {"id": number, "cooperative_id": 1, "language": "sw", "name": name}
            connection.execute(insert(t.person).values(**person, created_at=AT))
            phone = {"id": number, "cooperative_id": 1, "person_id": number, "consent": "active"}
            phone |= {"number": f"+25470000000{number}", "suspended": number == 3}
            connection.execute(insert(t.phone).values(**phone, created_at=AT))
            record = {"phone_id": number, "state": "active", "how": "own text", "language": "sw"}
            connection.execute(insert(t.consent_record).values(**record, at=AT))
        link = {"person_id": 1, "phone_id": 2, "role": "caretaker", "state": "active", "at": AT}
        connection.execute(insert(t.contact).values(**link))
        batch = {"id": 1, "phone_id": 2, "person_id": 1, "state": "running", "count": 300}
        batch |= {"placed_on": AT.date(), "created_at": AT}
        connection.execute(insert(t.batch).values(**batch))
    db.close()
    return tmp_path


def people(data: Path, *given: str) -> Result:
    return CliRunner().invoke(people_command, ["--data", str(data), *given], env=SETTINGS)


def one(data: Path, query: object) -> object:
    db = Database(database_url(Settings(), data))
    with db.read() as connection:
        found: object = connection.execute(query).scalar_one()  # type: ignore[call-overload]
    db.close()
    return found


def test_each_phone_is_listed_with_its_holder_and_whose_birds_it_serves(data: Path) -> None:
    owner, caretaker, third = people(data).output.splitlines()
    assert owner.split() == [OWNER, "active", "Amina"]
    assert caretaker.split()[:3] == [CARETAKER, "active", "Juma"]
    assert "caretaker of Amina's birds (active)" in caretaker
    assert third.split() == [SUSPENDED, "suspended", "person", "3"]


def test_a_member_is_asked_once_and_joins_only_by_their_own_yes(data: Path) -> None:
    asked = people(data, "--invite", "0700000004", "--name", "Neema", "--language", "fr")
    assert f"{NEW} is asked" in asked.output
    assert one(data, select(t.phone.c.consent).where(t.phone.c.number == NEW)) == "invited"
    assert isinstance(people(data, "--invite", NEW).exception, BroodpostError)


def test_a_suspended_number_is_restored(data: Path) -> None:
    assert "from now on" in people(data, "--restore", "0700000003").output
    assert one(data, select(t.phone.c.suspended).where(t.phone.c.number == SUSPENDED)) is False


def test_the_texts_of_the_birds_are_taken_back_from_a_caretaker(data: Path) -> None:
    assert people(data, "--take-back", OWNER).exit_code == 0
    assert one(data, select(t.batch.c.phone_id)) == 1
    assert one(data, select(t.contact.c.state)) == "ended"


def test_a_new_phone_is_only_asked_until_it_says_yes(data: Path) -> None:
    assert "after its yes" in people(data, "--new-phone", OWNER, NEW).output
    assert one(data, select(t.phone.c.consent).where(t.phone.c.number == NEW)) == "invited"
    assert one(data, select(t.batch.c.phone_id)) == 2


def test_every_consent_is_printed_as_json_lines(data: Path) -> None:
    rows = [json.loads(line) for line in people(data, "--consents").output.splitlines()]
    assert [(row["kind_of_row"], row["state"], row["phone_id"]) for row in rows] == [
        ("consent", "active", phone) for phone in (1, 2, 3)
    ]


def test_what_is_held_of_a_number_is_printed_and_nothing_of_anybody_else(data: Path) -> None:
    rows = [json.loads(line) for line in people(data, "--held", OWNER).output.splitlines()]
    assert {row["kind_of_row"] for row in rows} == {"phone", "person", "consent_record"}
    assert "Juma" not in json.dumps(rows)


def test_a_person_is_forgotten_with_the_number(data: Path) -> None:
    assert people(data, "--forget", SUSPENDED).output == "forgotten\n"
    assert SUSPENDED not in people(data).output
    assert isinstance(people(data, "--held", SUSPENDED).exception, BroodpostError)


@pytest.mark.parametrize(
    "given",
    [
        ("--held", "nonsense"),
        ("--held", "+254700000099"),
        ("--restore", "12"),
        ("--new-phone", "+254700000099", NEW),
        ("--forget", "+254700000099"),
    ],
)
def test_a_number_that_is_none_or_not_known_is_said_and_changes_nothing(
    data: Path, given: tuple[str, ...]
) -> None:
    before = people(data).output
    assert isinstance(people(data, *given).exception, BroodpostError)
    assert people(data).output == before
