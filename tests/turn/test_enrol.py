"""A list carried out, on both databases: who is asked, who is not, and what it costs."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from sqlalchemy import func, insert, select, update
from sqlalchemy.exc import IntegrityError

from bot.cooperative.columns import Entry
from bot.cooperative.enrol import Outcome, counted
from bot.facts.limits import House
from bot.records import tables as t
from bot.records.case import cooperative_of
from bot.records.forgetting import forget
from bot.records.session import Database
from bot.settings import Settings
from bot.turn.enrol import Lists
from bot.turn.invite import remind
from bot.wiring import Thinking, cooperative_values
from tests.doors.desk.world import counted as statements_of

AT = datetime(2026, 3, 2, 7, tzinfo=UTC)
KEY = b"a key of the house"


@pytest.fixture
def lists(thinking: Thinking) -> Lists:
    return Lists(thinking.handbook, House(key=KEY), {"sw": ["Swahili"]}, "+254700000100")


@pytest.fixture
def both(db: Database) -> Database:
    """Two cooperatives."""
    with db.write() as connection:
        for number in (1, 2):
            values = cooperative_values(Settings()) | {"name": f"C{number}"}
            connection.execute(insert(t.cooperative).values(id=number, **values))
    return db


def entries(first: int, last: int) -> list[Entry]:
    """Rows with invented numbers."""
    return [
        Entry(n, f"07000{n:05}", f"Farmer {n}", f"M{n}", "Swahili", "Kilima")
        for n in range(first, last + 1)
    ]


def enrol(db: Database, lists: Lists, rows: list[Entry], cooperative: int = 1) -> list[Outcome]:
    """Try, then carry out."""
    with db.write() as connection:
        ours = cooperative_of(connection, cooperative)
        outcomes = lists.tried(connection, ours, rows)
        lists.carried_out(connection, ours, outcomes, AT)
    return outcomes


def number_of(db: Database, table: str) -> int:
    with db.read() as connection:
        query = select(func.count()).select_from(t.metadata.tables[table])
        return int(connection.execute(query).scalar_one())


def test_five_thousand_rows_are_a_fixed_handful_of_statements(both: Database, lists: Lists) -> None:
    with statements_of(both) as statements:
        enrol(both, lists, entries(1001, 6000))
    assert len(set(statements)) < 25, set(statements)
    assert number_of(both, "phone") == number_of(both, "outbox") == 5000
    assert number_of(both, "question") == number_of(both, "consent_record") == 5000
    with both.read() as connection:
        rows = connection.execute(
            select(t.phone.c.number, t.person.c.name, t.outbox.c.to_number, t.outbox.c.text)
            .join(t.person, t.person.c.id == t.phone.c.person_id)
            .join(t.outbox, t.outbox.c.phone_id == t.phone.c.id)
        ).all()
    assert all(row.number[-5:] == f"{int(row.name.split()[1]):05}" for row in rows)
    assert all(row.number == row.to_number and row.text.startswith("C1: ") for row in rows)


def test_the_same_list_a_second_time_changes_nothing(both: Database, lists: Lists) -> None:
    enrol(both, lists, entries(1001, 1100))
    again = enrol(both, lists, entries(1001, 1100))
    assert counted(again)["same"] == 100
    assert number_of(both, "outbox") == number_of(both, "person") == 100


def test_another_cooperatives_list_gets_no_word_of_who_is_known(
    both: Database, lists: Lists
) -> None:
    enrol(both, lists, entries(1001, 1003))
    found = enrol(both, lists, entries(1001, 1004), 2)
    assert [one.status for one in found] == ["wrong", "wrong", "wrong", "new"]
    assert {why.key for one in found for why in one.why} == {"phone_shut"}
    assert all(one.known is None for one in found)


def test_who_wished_to_be_forgotten_is_left_alone(both: Database, lists: Lists) -> None:
    enrol(both, lists, entries(1001, 1002))
    with both.write() as connection:
        number = t.phone.c.number == "+254700001001"
        phone = connection.execute(select(t.phone.c.id).where(number)).scalar_one()
        forget(connection, phone, KEY, AT)
        kept = connection.execute(
            select(t.person.c.name, t.person.c.member_number, t.person.c.place)
        ).all()
    assert sorted(kept, key=str)[1] == (None, None, None)
    found = enrol(both, lists, entries(1001, 1001))
    assert [why.key for why in found[0].why] == ["phone_shut"]
    assert number_of(both, "phone") == 2


def test_a_wrong_number_is_put_right_before_anybody_agreed(both: Database, lists: Lists) -> None:
    enrol(both, lists, [Entry(2, "0700001001", "Amina", "M1")])
    enrol(both, lists, [Entry(2, "0700001002", "Amina", "M1")])
    with both.read() as connection:
        texts = connection.execute(
            select(t.outbox.c.to_number, t.outbox.c.state).order_by(t.outbox.c.id)
        ).all()
        people = connection.execute(select(func.count()).select_from(t.person)).scalar_one()
    assert [tuple(one) for one in texts] == [
        ("+254700001001", "cancelled"), ("+254700001002", "waiting"),
    ]  # fmt: skip
    assert people == 1
    later = AT.replace(day=3, hour=8)
    with both.write() as connection:
        assert remind(connection, lists.handbook, later) == 1


def test_a_list_is_carried_out_whole_or_not_at_all(both: Database, lists: Lists) -> None:
    with both.read() as connection:
        ours = cooperative_of(connection, 1)
        outcomes = lists.tried(connection, ours, entries(1001, 1010))
    enrol(both, lists, entries(1005, 1005))
    with pytest.raises(IntegrityError), both.write() as connection:
        lists.carried_out(connection, ours, outcomes, AT)
    assert number_of(both, "phone") == number_of(both, "person") == 1


def test_an_invitation_waits_for_the_hours_of_the_cooperative(both: Database, lists: Lists) -> None:
    with both.write() as connection:
        connection.execute(update(t.cooperative).values(quiet=["09:00-12:00"]))
    enrol(both, lists, entries(1001, 1001))
    with both.read() as connection:
        moment = connection.execute(select(t.outbox.c.not_before)).scalar_one()
    assert moment == AT.replace(hour=9)
