"""The same text again: under its own id or another one, at once or much later."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, insert, select
from sqlalchemy.exc import IntegrityError

from bot.doors.log import Hiding
from bot.facts.talk import Incoming
from bot.records import tables as t
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.settings import Settings
from bot.turn.take import Taken, take_turn
from bot.wiring import cooperative_values
from tests.kill.plain import PlainReader, handbook

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)
FARMER, SERVICE = "+254700000001", "+254700000100"
LONG = "new batch 300 chicks today"
Send = Callable[..., Taken]


@pytest.fixture
def send(db: Database) -> Send:
    """`send(0, "300 chicks")`: a text that comes so many seconds after the first."""
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(Settings())))
    book, reader = handbook(), PlainReader()

    def one(seconds: float, body: str, id: str, *, to: str = SERVICE) -> Taken:
        at = NOW + timedelta(seconds=seconds)
        incoming = Incoming(id, "AC", FARMER, to, body, at)
        return take_turn(db, book, reader, incoming)

    return one


def count(db: Database, table: str) -> int:
    with db.read() as connection:
        found = connection.execute(select(func.count()).select_from(t.metadata.tables[table]))
        return int(found.scalar_one())


def heard_at(db: Database) -> datetime | None:
    with db.read() as connection:
        found: datetime | None = connection.execute(select(t.phone.c.heard_at)).scalar_one()
    return found


def push(db: Database, seconds: float) -> None:
    """A text of the clock reaches the phone."""
    at = NOW + timedelta(seconds=seconds)
    with db.write() as connection:
        put(connection, Text("pushed", 1, FARMER, "routine", "Day 3", at))
        connection.execute(
            t.outbox.update().where(t.outbox.c.business_key == "pushed")
            .values(state="sent", sent_at=at)
        )  # fmt: skip


def test_a_repeat_gets_its_answer_for_ten_minutes_and_an_empty_one_after(
    db: Database, send: Send
) -> None:
    first = send(0, LONG, "SM1")
    assert send(600, LONG, "SM1").texts == first.texts != ()
    late = send(601, LONG, "SM1")
    assert (late.texts, late.repeated) == ((), True)
    assert count(db, "turn") == count(db, "batch") == 1


def test_a_replayed_text_does_not_make_a_silent_phone_heard(db: Database, send: Send) -> None:
    send(0, LONG, "SM1")
    send(60, "1", "SM2")
    before = heard_at(db)
    for seconds in (61, 3600, 40 * 3600):
        assert send(seconds, LONG, "SM1").repeated
    assert heard_at(db) == before == NOW + timedelta(seconds=60)


def test_one_text_under_two_ids_is_taken_once_and_answered_alike(db: Database, send: Send) -> None:
    first = send(0, LONG, "SM1")
    again = send(59, LONG, "SM2")
    assert again.repeated
    assert again.texts == first.texts != ()
    assert (count(db, "batch"), count(db, "turn")) == (1, 2)
    assert send(70, LONG, "SM2").texts == first.texts


def test_a_short_answer_may_rightly_come_twice(send: Send) -> None:
    send(0, LONG, "SM1")
    send(10, "1", "SM2")
    assert not send(20, "1", "SM3").repeated


def test_a_minute_later_or_to_another_number_it_is_a_text_of_its_own(send: Send) -> None:
    send(0, LONG, "SM1")
    assert not send(1, LONG, "SM2", to="+254700000200").repeated
    send(100, "what about tomorrow", "SM3")
    assert not send(160, "what about tomorrow", "SM4").repeated


def test_after_something_was_sent_the_same_words_may_answer_that(db: Database, send: Send) -> None:
    send(0, LONG, "SM1")
    send(10, "they are all well", "SM2")
    push(db, 20)
    assert not send(30, "they are all well", "SM3").repeated


def test_after_another_text_of_the_farmer_the_same_words_count_again(send: Send) -> None:
    send(0, "two more died today", "SM1")
    send(10, "status", "SM2")
    assert not send(20, "two more died today", "SM3").repeated


def test_a_third_time_in_a_minute_is_no_slip_of_the_gateway(send: Send) -> None:
    send(0, LONG, "SM1")
    assert send(10, LONG, "SM2").repeated
    assert not send(20, LONG, "SM3").repeated


def test_neither_a_statement_nor_the_log_shows_the_number_or_the_text(db: Database) -> None:
    row = {"id": 1, "account": None, "sender": FARMER, "body": LONG}
    with pytest.raises(IntegrityError) as wrong, db.write() as connection:
        connection.execute(insert(t.turn).values(**row))
    statement = str(wrong.value).partition("[SQL")[2]
    logged = Hiding("a key").formatException((type(wrong.value), wrong.value, wrong.tb))
    for shown in (statement, logged):
        assert FARMER not in shown
        assert LONG not in shown
