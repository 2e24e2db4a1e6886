"""An installation moves from SQLite to PostgreSQL with nothing lost, or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from sqlalchemy import insert, select

from bot.doors.cli.group import broodpost
from bot.errors import BroodpostError
from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.move import move
from bot.records.session import Database
from bot.turn.take import take_turn
from bot.turn.tick import tick
from bot.wiring import Thinking
from tests.bench.databases import Place
from tests.kill.plain import ACCOUNT, MORNING, SERVICE, add_cooperative, add_farms, number

TALK = ("3 dead", "they are piled up near the stove", "temp 29", "undo", "qwerty uiop", "STOP")


@pytest.fixture
def lived(tmp_path: Path, thinking: Thinking) -> Iterator[Database]:
    """A SQLite installation on which farms have talked and been told their morning."""
    db = Database(f"sqlite:///{tmp_path / 'broodpost.db'}")
    upgrade(db)
    add_cooperative(db)
    add_farms(db, 3)
    tick(db, thinking.handbook, MORNING)
    for place, said in enumerate(TALK):
        at = MORNING + timedelta(minutes=5 * place)
        incoming = Incoming(f"SM{place}", ACCOUNT, number(1), SERVICE, said, at)
        take_turn(db, thinking.handbook, thinking.reader, incoming)
    yield db
    db.close()


@pytest.fixture
def empty(postgres_url: str) -> Iterator[Database]:
    db = Database(Place("postgresql", postgres_url).make("moved"))
    yield db
    db.close()


def everything(db: Database) -> dict[str, list[tuple[object, ...]]]:
    with db.read() as connection:
        return {
            table.name: [
                tuple(row)
                for row in connection.execute(
                    select(table).order_by(*table.primary_key.columns)
                ).all()
            ]
            for table in t.metadata.sorted_tables
        }


def test_every_row_is_the_same_after_the_move_and_life_goes_on(
    lived: Database, empty: Database, tmp_path: Path, thinking: Thinking
) -> None:
    command = ["move", "--data", str(tmp_path), "--to", empty.url]
    told = CliRunner().invoke(broodpost, command, env={"BROODPOST_UNSIGNED": "1"})
    assert (told.exit_code, "batch: 3" in told.output) == (0, True)
    before = everything(lived)
    assert everything(empty) == before
    assert all(before[name] for name in ("turn", "event", "complaint", "outbox", "consent_record"))
    incoming = Incoming("SM99", ACCOUNT, number(2), SERVICE, "2 dead", MORNING)
    assert take_turn(empty, thinking.handbook, thinking.reader, incoming).texts
    assert tick(empty, thinking.handbook, MORNING + timedelta(days=1)) >= 1


def test_a_database_that_holds_something_is_not_moved_into(
    lived: Database, empty: Database
) -> None:
    upgrade(empty)
    add_cooperative(empty)
    with pytest.raises(BroodpostError, match="holds rows in cooperative already"):
        move(lived, empty)
    assert everything(empty)["turn"] == []


def test_where_a_row_does_not_fit_nothing_is_moved(lived: Database, empty: Database) -> None:
    upgrade(empty)
    with lived.write() as connection:  # SQLite keeps a name of any length
        connection.execute(
            insert(t.person).values(
                cooperative_id=1, language="en", name="n" * 60, created_at=MORNING
            )
        )
    with pytest.raises(Exception, match="too long"):
        move(lived, empty)
    assert all(rows == [] for rows in everything(empty).values())
