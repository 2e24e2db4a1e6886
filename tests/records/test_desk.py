"""What the desk asks of the database, on both kinds: dates, unions, counts, the audit's guard."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import insert, select
from sqlalchemy.exc import DBAPIError

from bot.cooperative.costs import Sent
from bot.cooperative.may import IDLE
from bot.records import tables as t
from bot.records.desk_audit import deeds, note
from bot.records.desk_costs import parts_of_ended, sent_since
from bot.records.desk_farms import farm_of, farms_listed, texts_of
from bot.records.desk_staff import (
    NewMember,
    add_member,
    members,
    open_session,
    own_lock,
    prove,
    signed_in,
)
from bot.records.desk_tries import forget_tries, let_try
from bot.records.migrate import upgrade
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values
from tests.bench.databases import Place

NOW = datetime(2026, 3, 10, 22, 30, tzinfo=UTC)
ONE, OTHER = 1, 2


@pytest.fixture
def two(db: Database) -> Database:
    """Two cooperatives, each with a person, two phones and an ended and a running batch."""
    with db.write() as connection:
        for own in (ONE, OTHER):
            values = {**cooperative_values(Settings()), "id": own}
            connection.execute(insert(t.cooperative).values(**values))
            person = {"id": own, "cooperative_id": own, "language": "sw", "name": f"Amina {own}"}
            connection.execute(insert(t.person).values(**person, created_at=NOW))
            for at in (0, 10):
                phone: dict[str, object] = {"id": own + at, "cooperative_id": own, "person_id": own}
                phone |= {"number": f"+2547000000{own + at:02}", "consent": "active"}
                connection.execute(insert(t.phone).values(**phone, created_at=NOW))
                batch: dict[str, object] = {
                    "id": own + at,
                    "phone_id": own + at,
                    "person_id": own,
                    "count": 300,
                }
                batch |= {"state": "running" if at else "closed", "placed_on": NOW.date()}
                connection.execute(insert(t.batch).values(**batch, created_at=NOW))
    return db


def add_text(db: Database, key: str, phone: int, at: datetime, **changed: object) -> None:
    values = {"business_key": key, "phone_id": phone, "batch_id": phone, "to_number": "x",
              "klass": "routine", "text": key, "parts": 2, "encoding": "gsm7", "state": "sent",
              "not_before": at, "created_at": at, "sent_at": at}  # fmt: skip
    with db.write() as connection:
        connection.execute(insert(t.outbox).values(**{**values, **changed}))


def add_heard(db: Database, key: str, phone: int, at: datetime) -> None:
    values = {"account": "AC", "message_id": key, "sender": f"+2547000000{phone:02}",
              "recipient": "x", "channel": "sms", "body": key, "at": at}  # fmt: skip
    with db.write() as connection:
        connection.execute(insert(t.turn).values(**values, phone_id=phone))


def test_texts_of_several_phones_stand_in_one_row_and_older_ones_behind(two: Database) -> None:
    for at in range(4):
        moment = NOW - timedelta(hours=4 - at)
        add_text(two, f"said {at}", 1 if at % 2 else 11, moment)
        add_heard(two, f"heard {at}", 11 if at % 2 else 1, moment + timedelta(minutes=1))
    add_text(two, "theirs", 2, NOW)
    with two.read() as connection:
        farm = farm_of(connection, ONE, 1)
        assert farm is not None
        newest = texts_of(connection, farm.phones, 9, None)
        older = texts_of(connection, farm.phones, 9, NOW - timedelta(hours=3))
    assert sorted(one.body for one in newest) == [
        *(f"heard {at}" for at in range(4)), *(f"said {at}" for at in range(4))
    ]  # fmt: skip
    assert sorted(one.body for one in older) == ["heard 0", "said 0"]
    assert all(one.at.tzinfo for one in newest)


def test_a_farm_has_its_own_phones_and_batches_and_no_other_cooperatives(two: Database) -> None:
    with two.read() as connection:
        farm = farm_of(connection, ONE, 1)
        assert farm_of(connection, ONE, OTHER) is None
        found = farms_listed(connection, ONE, 10)
    assert farm is not None
    assert [one.id for one in farm.phones] == [11, 1]
    assert [one.id for one in farm.batches] == [11, 1]
    assert [(one.person_id, one.batch_id, one.birds) for one in found] == [(1, 11, 300)]


@pytest.mark.parametrize(("wanted", "many"), [("AMINA", 1), ("0700000011", 1), ("Zawadi", 0)])
def test_a_farm_is_found_by_name_or_number(two: Database, wanted: str, many: int) -> None:
    with two.read() as connection:
        assert len(farms_listed(connection, ONE, 10, wanted=wanted)) == many


def test_parts_are_summed_by_day_and_kind(two: Database) -> None:
    add_text(two, "a", 1, NOW)
    add_text(two, "b", 11, NOW)
    add_text(two, "desk:1:x", 1, NOW + timedelta(hours=2), klass="reply")
    add_text(two, "early", 1, NOW - timedelta(days=9))
    add_text(two, "waits", 1, NOW, sent_at=None)
    add_text(two, "theirs", 2, NOW)
    with two.read() as connection:
        found = sent_since(connection, ONE, NOW - timedelta(days=5))
        batches = parts_of_ended(connection, ONE, 10)
    assert sorted(found, key=lambda one: one.kind) == [
        Sent(date(2026, 3, 11), "person", 1, 2),
        Sent(date(2026, 3, 10), "routine", 2, 4),
    ]
    assert batches == [6]  # of the ended one, however long ago


def test_a_sign_in_name_is_taken_once_and_a_second_proof_stays(two: Database) -> None:
    new = NewMember("Amina", " Amina ", "hash", "owns", "sw")
    with two.write() as connection:
        own = add_member(connection, ONE, new, NOW)
        assert own is not None
        assert add_member(connection, OTHER, new, NOW) is None
        open_session(connection, own, "token", NOW)
        who = signed_in(connection, "token", NOW)
        assert who is not None
        assert who.must_prove
        prove(connection, who, 7, NOW)
        prove(connection, who, 9, NOW + timedelta(days=1))
    with two.read() as connection:
        again = signed_in(connection, "token", NOW + timedelta(minutes=59))
        assert again is not None
        assert (again.proved, again.second, again.cooperative.id) == (True, True, ONE)
        assert signed_in(connection, "token", NOW + IDLE) is None
        assert signed_in(connection, "tokem", NOW) is None
        lock = own_lock(connection, own)
        assert (lock.second_since, lock.second_step) == (NOW, 9)
        assert [one.seen_at for one in members(connection, ONE)] == [NOW]
        assert members(connection, OTHER) == []


def test_tries_are_counted_and_forgotten(two: Database) -> None:
    with two.write() as connection:
        let = [let_try(connection, "code", "7", NOW) for _ in range(6)]
        assert let == [True] * 5 + [False]
        forget_tries(connection, NOW + timedelta(minutes=15))
        assert connection.execute(select(t.tally)).all() == []


@pytest.fixture(params=["made", "migrated"])
def guarded(request: pytest.FixtureRequest, db: Database) -> Iterator[Database]:
    """A database whose tables were made by the code, or by the migrations."""
    if request.param == "made":
        yield db
        return
    if db.is_sqlite:
        found = Database(db.url.replace("test.db", "migrated.db"))
    else:
        place = Place("postgresql", request.getfixturevalue("postgres_url"))
        found = Database(place.make("desk_migrated"))
    upgrade(found)
    yield found
    found.close()


def test_no_deed_is_changed_or_deleted_whichever_way_the_table_was_made(
    guarded: Database,
) -> None:
    with guarded.write() as connection:
        values = {**cooperative_values(Settings()), "id": ONE}
        connection.execute(insert(t.cooperative).values(**values))
        note(connection, ONE, None, "wrote", "farm 7", NOW)
    for statement in (t.audit.update().values(what="nothing"), t.audit.delete()):
        with pytest.raises(DBAPIError, match="append-only"), guarded.write() as connection:
            connection.execute(statement)
    with guarded.read() as connection:
        assert [(one.what, one.who) for one in deeds(connection, ONE, 9)] == [("wrote", None)]
