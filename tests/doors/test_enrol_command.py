"""`broodpost enrol`: the same list on the command line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from sqlalchemy import func, insert, select

from bot.doors.cli.enrol import enrol_command
from bot.doors.sheets import read_lines, write_csv, write_xlsx
from bot.errors import BroodpostError
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values, database_url

SETTINGS = {"BROODPOST_UNSIGNED": "1", "BROODPOST_PUBLIC_URL": "http://127.0.0.1:8080"}
ROWS = [["Place", "Tel"], ["Kilima", "0700000011"], ["Mto", "0700000012"], ["Mto", "12"]]


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with one cooperative, and the list beside it."""
    db = Database(database_url(Settings(), tmp_path))
    upgrade(db)
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(id=1, **cooperative_values(Settings())))
    db.close()
    (tmp_path / "farms.xlsx").write_bytes(write_xlsx(ROWS, "x"))
    (tmp_path / "farms.csv").write_bytes(write_csv([*ROWS, ["Mto", "0700000013"]]))
    return tmp_path


def enrol(data: Path, file: str, *given: str) -> Result:
    return CliRunner().invoke(
        enrol_command, [str(data / file), "--data", str(data), *given], env=SETTINGS
    )


def phones(data: Path) -> int:
    db = Database(database_url(Settings(), data))
    with db.read() as connection:
        found = connection.execute(select(func.count()).select_from(t.phone)).scalar_one()
    db.close()
    return int(found)


def code_in(output: str) -> str:
    found = re.search(r"--confirm (\w+)", output)
    assert found is not None, output
    return found[1]


def test_a_list_is_tried_then_confirmed_by_its_code(data: Path) -> None:
    tried = enrol(data, "farms.xlsx")
    assert "wrong 1, double 0, new 2" in tried.output
    assert "12 has 2 digits" in tried.output
    assert phones(data) == 0
    done = enrol(data, "farms.xlsx", "--confirm", code_in(tried.output))
    assert "Phones that are asked: 2." in done.output
    assert phones(data) == 2


def test_a_code_of_another_list_invites_nobody(data: Path) -> None:
    code = code_in(enrol(data, "farms.xlsx").output)
    assert isinstance(enrol(data, "farms.csv", "--confirm", code).exception, BroodpostError)
    assert phones(data) == 0


def test_a_code_counts_once(data: Path) -> None:
    code = code_in(enrol(data, "farms.xlsx").output)
    enrol(data, "farms.xlsx", "--confirm", code)
    assert isinstance(enrol(data, "farms.xlsx", "--confirm", code).exception, BroodpostError)


@pytest.mark.parametrize("name", ["result.xlsx", "result.csv"])
def test_a_result_file_is_written_in_the_language_asked_for(data: Path, name: str) -> None:
    enrol(data, "farms.xlsx", "--result", str(data / name), "--language", "fr")
    lines = read_lines((data / name).read_bytes())
    assert lines[0].cells[:2] == ("Ligne", "Téléphone")
    assert [line.cells[6] for line in lines[1:]] == ["nouvelle", "nouvelle", "fausse"]


@pytest.mark.parametrize(
    ("given", "said"),
    [(("--language", "xx"), "known are"), (("--cooperative", "7"), "one of 1")],
)
def test_what_can_not_be_is_said(data: Path, given: tuple[str, ...], said: str) -> None:
    failed = enrol(data, "farms.xlsx", *given)
    assert isinstance(failed.exception, BroodpostError)
    assert said in str(failed.exception)
