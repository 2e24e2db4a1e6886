"""A database that is read-only, full or half migrated: a clear error, a red health, nothing lost,
and work goes on once it is mended."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import event, text
from sqlalchemy.exc import SQLAlchemyError

from bot.clock import FixedClock
from bot.doors.web import create_app
from bot.errors import BroodpostError
from bot.gateway.client import TwilioCompatible
from bot.records.migrate import check, upgrade
from bot.records.session import Database
from bot.wiring import Bot, Thinking
from tests.kill.plain import (
    MORNING,
    REGISTERS,
    SETTINGS,
    PlainReader,
    add_cooperative,
    add_farms,
    count,
    handbook,
    keys,
    number,
    told,
)
from tests.kill.test_killed import NOBODY, ROOT
from tests.serve.playing import free_port, inbound

FARMS = 3


@pytest.fixture
def bot(db: Database) -> Bot:
    """A service with farms that wait for their morning text; its gateway is away."""
    add_cooperative(db)
    add_farms(db, FARMS)
    gateway = TwilioCompatible(NOBODY, "ACtest", "", "+15005550006", "")
    return Bot(SETTINGS, Thinking(handbook(), PlainReader()), db, gateway, FixedClock(MORNING))


@pytest.fixture
def client(bot: Bot) -> FlaskClient:
    return create_app(bot).test_client()


class Trouble:
    """Something said to the database at the beginning of each connection's use."""

    def __init__(self, db: Database) -> None:
        self.statement = ""
        self._engine = db.engine
        event.listen(self._engine, "checkout", self._said)

    def _said(self, connection: Any, *_: object) -> None:
        if self.statement:
            connection.cursor().execute(self.statement)

    def end(self) -> None:
        event.remove(self._engine, "checkout", self._said)


@pytest.fixture
def trouble(db: Database) -> Iterator[Trouble]:
    made = Trouble(db)
    yield made
    made.end()


def say(client: FlaskClient, message_id: str, body: str = REGISTERS, who: int = 900) -> int:
    form = inbound(number(who), body, MessageSid=message_id, AccountSid="ACtest")
    return client.post("/sms", data=form).status_code


def health(client: FlaskClient) -> tuple[int, list[str]]:
    told = client.get("/health")
    return told.status_code, told.get_json()["wrong"]


def test_a_read_only_database_is_red_refuses_texts_and_loses_nothing(
    db: Database, bot: Bot, client: FlaskClient, trouble: Trouble
) -> None:
    trouble.statement = "PRAGMA query_only=1" if db.is_sqlite else "SET TRANSACTION READ ONLY"
    assert say(client, "SM1") == 503
    assert health(client) == (503, ["the database does not work: it is read-only"])
    with pytest.raises(SQLAlchemyError):
        bot.tick()
    trouble.statement = "PRAGMA query_only=0" if db.is_sqlite else ""
    assert (count(db, "turn"), count(db, "outbox"), told(db)) == (0, 0, 0)
    assert say(client, "SM1") == 200
    assert bot.tick() == FARMS
    bot.send()
    assert health(client) == (200, [])
    assert len(set(keys(db))) == FARMS + 1


def test_a_full_database_is_red_and_keeps_every_text_it_answered(
    tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    db = Database(f"sqlite:///{tmp_path / 'full.db'}")
    db.create_all()
    full = Trouble(db)
    request.addfinalizer(db.close)
    add_cooperative(db)
    gateway = TwilioCompatible(NOBODY, "ACtest", "", "+15005550006", "")
    clock = FixedClock(MORNING)
    bot = Bot(SETTINGS, Thinking(handbook(), PlainReader()), db, gateway, clock)
    client = create_app(bot).test_client()
    with db.read() as connection:
        pages = connection.execute(text("PRAGMA page_count")).scalar_one()
    full.statement = f"PRAGMA max_page_count={pages + 2}"
    answers = []
    for turn in range(12):
        clock.move(timedelta(minutes=2))
        answers.append(say(client, f"SM{turn}", f"{REGISTERS} {turn}" + " and" * 700, turn))
    assert set(answers) == {200, 503}
    assert count(db, "turn") == answers.count(200)
    assert health(client)[1][:1] == ["the database does not work: it or its disk is full"]
    full.statement = f"PRAGMA max_page_count={pages * 1000}"
    again = [say(client, f"SM{turn}", "anything", turn) for turn in range(12)]
    assert set(again) == {200}
    assert count(db, "turn") == 12
    bot.tick()
    bot.send()
    assert health(client) == (200, [])


# A migration that is half done


@pytest.fixture
def half(tmp_path: Path) -> Iterator[Database]:
    """A migrated SQLite database, to be broken."""
    db = Database(f"sqlite:///{tmp_path / 'broodpost.db'}")
    upgrade(db)
    yield db
    db.close()


VERSIONS = Path(ROOT) / "bot/records/migrations/versions"
A_COOPERATIVE = (
    "INSERT INTO cooperative (id, name, timezone, region, language, routine_at, night_at, "
    "allowed_from, allowed_to, water_mix, normals, forecast, prices) VALUES (1, 'Mfano', "
    "'Africa/Nairobi', 'KE', 'en', '06:30', '17:30', '06:00', '20:00', 1, '[]', '{}', '{}')"
)
BROKEN = {
    "DROP TABLE alembic_version": "already exists",
    "UPDATE alembic_version SET version_num = '9999'": "9999",
    "DROP TABLE heartbeat": "lacks heartbeat: restore a backup",
}


@pytest.mark.parametrize("how", BROKEN)
def test_a_database_whose_migrations_are_half_done_is_not_started_and_not_changed(
    half: Database, how: str
) -> None:
    with half.write() as connection:
        connection.exec_driver_sql(how)
        add = (
            "INSERT INTO person (id, cooperative_id, language, created_at) "
            "VALUES (1, 1, 'en', '2026-03-01')"
        )
        connection.exec_driver_sql("PRAGMA defer_foreign_keys=1")
        connection.exec_driver_sql(A_COOPERATIVE)
        connection.exec_driver_sql(add)
    with pytest.raises(BroodpostError, match=BROKEN[how]):
        upgrade(half)
    assert count(half, "person") == 1


def test_a_half_migrated_database_refuses_the_start_in_one_line(
    half: Database, tmp_path: Path
) -> None:
    with half.write() as connection:
        connection.exec_driver_sql("DROP TABLE unread")
    command = [sys.executable, "-m", "bot", "serve", "--port", str(free_port())]
    env = {k: v for k, v in os.environ.items() if not k.startswith("BROODPOST_")}
    ended = subprocess.run(
        [*command, "--data", str(tmp_path)],
        cwd=ROOT,
        env=env | {"BROODPOST_UNSIGNED": "1"},
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    assert (ended.returncode, ended.stdout) == (1, "")
    newest = max(one.name[:4] for one in VERSIONS.glob("[0-9]*.py"))
    assert ended.stderr.strip().splitlines() == [
        f"broodpost: the database says that it is at migration {newest} but lacks unread: "
        "restore a backup"
    ]


def test_a_whole_database_starts_again_as_it_is(half: Database) -> None:
    with half.write() as connection:
        connection.exec_driver_sql(A_COOPERATIVE)
    upgrade(half)
    check(half)
    assert count(half, "cooperative") == 1
