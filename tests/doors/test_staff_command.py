"""`broodpost staff`: the first people at the desk, and those who are locked out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import insert, select

from bot.cooperative.proofs import is_right
from bot.doors.cli.staff import staff_command
from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values, database_url

ENVIRONMENT = {"BROODPOST_UNSIGNED": "1"}
PASSWORD = re.compile(r"[a-z2-9]{4}(?:-[a-z2-9]{4}){3}")


@pytest.fixture
def data(tmp_path: Path) -> Path:
    db = Database(database_url(Settings(), tmp_path))
    upgrade(db)
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(Settings())))
    db.close()
    return tmp_path


def staff(data: Path, *given: str) -> Result:
    return CliRunner().invoke(staff_command, ["--data", str(data), *given], env=ENVIRONMENT)


def kept(data: Path, column: str) -> object:
    db = Database(database_url(Settings(), data))
    with db.read() as connection:
        found = connection.execute(select(t.staff.c[column])).scalar_one()
    db.close()
    return found


def add(data: Path, role: str = "owns") -> Result:
    return staff(data, "add", "Amina", "--name", "Amina", "--role", role)


def test_the_first_owner_gets_a_password_that_opens_the_desk(data: Path) -> None:
    password = PASSWORD.search(add(data).output)
    assert password is not None
    assert is_right(str(kept(data, "password")), password[0])
    assert (kept(data, "sign_in"), kept(data, "fresh"), kept(data, "role")) == (
        "amina",
        True,
        "owns",
    )
    assert staff(data, "list").output.split()[:2] == ["amina", "owns"]


def test_a_name_in_use_a_bad_one_and_a_role_that_is_none_are_refused(data: Path) -> None:
    add(data)
    assert isinstance(add(data).exception, BroodpostError)
    bad = staff(data, "add", "a b", "--name", "x", "--role", "looks")
    assert isinstance(bad.exception, BroodpostError)
    assert add(data, "rules").exit_code == 2


def test_of_several_cooperatives_one_must_be_named(data: Path) -> None:
    db = Database(database_url(Settings(), data))
    with db.write() as connection:
        values = {**cooperative_values(Settings()), "name": "Other"}
        connection.execute(insert(t.cooperative).values(id=2, **values))
    db.close()
    assert "--cooperative" in str(add(data).exception)
    named = staff(data, "add", "amina", "--name", "A", "--role", "owns", "--cooperative", "Other")
    assert named.exit_code == 0
    assert kept(data, "cooperative_id") == 2


def test_a_new_password_replaces_the_old_one(data: Path) -> None:
    old = PASSWORD.search(add(data).output)
    new = PASSWORD.search(staff(data, "renew", "AMINA").output)
    assert old is not None
    assert new is not None
    assert not is_right(str(kept(data, "password")), old[0])
    assert is_right(str(kept(data, "password")), new[0])


def test_whoever_is_locked_out_can_be_let_in_again(data: Path) -> None:
    add(data)
    staff(data, "lock-out", "amina")
    assert kept(data, "disabled") is True
    assert "locked out" in staff(data, "list").output
    staff(data, "lock-out", "amina", "--let-in")
    assert kept(data, "disabled") is False
    assert isinstance(staff(data, "lock-out", "nobody").exception, BroodpostError)
