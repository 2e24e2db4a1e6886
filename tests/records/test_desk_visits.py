"""What the pages Visits and Say to many ask of the database, on both kinds."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
from sqlalchemy import insert, select

from bot.cooperative.many import Wish
from bot.cooperative.visits import LONGEST
from bot.records import tables as t
from bot.records.desk_many import (
    circulars,
    delivery,
    keep_circular,
    phones_meant,
    places,
    send_circular,
    stop_circular,
)
from bot.records.desk_staff import NewMember, add_member
from bot.records.desk_visits import (
    NewVisit,
    held,
    keep_visit,
    last_visits,
    settle_line,
    visits_of,
    waiting,
)
from bot.records.session import Database
from bot.settings import Settings
from bot.wiring import cooperative_values

NOW = datetime(2026, 3, 10, 6, 0, tzinfo=UTC)
ONE, OTHER = 1, 2


@pytest.fixture
def two(db: Database) -> Database:
    """Two cooperatives, each with a farm that is held, a line about it, and one of the staff."""
    with db.write() as connection:
        for own in (ONE, OTHER):
            values = {**cooperative_values(Settings()), "id": own}
            connection.execute(insert(t.cooperative).values(**values))
            connection.execute(insert(t.person).values(
                id=own, cooperative_id=own, language="sw", name=f"Amina {own}", place="Mtoni",
                created_at=NOW))  # fmt: skip
            connection.execute(insert(t.phone).values(
                id=own, cooperative_id=own, person_id=own, number=f"+25470000000{own}",
                consent="active", created_at=NOW))  # fmt: skip
            connection.execute(insert(t.batch).values(
                id=own, phone_id=own, person_id=own, state="running", count=300, held=True,
                placed_on=date(2026, 3, 1), created_at=NOW))  # fmt: skip
            connection.execute(insert(t.adviser).values(
                id=own, cooperative_id=own, batch_id=own, kind="danger", reason="deaths",
                told={"what": "deaths", "dead": 9}, at=NOW))  # fmt: skip
            new = NewMember(f"Staff {own}", f"staff-{own}", "no hash", "runs", "en")
            assert add_member(connection, own, new, NOW) is not None
    return db


def staff_of(db: Database, cooperative: int) -> int:
    with db.read() as connection:
        mine = select(t.staff.c.id).where(t.staff.c.cooperative_id == cooperative)
        return int(connection.execute(mine).scalar_one())


def test_lines_and_held_batches_come_with_their_own_farms_only(two: Database) -> None:
    with two.read() as connection:
        [(farm, line)] = waiting(connection, ONE, NOW - LONGEST)
        assert (farm.person_id, farm.place, farm.number) == (ONE, "Mtoni", "+254700000001")
        assert (line.told, line.at) == ({"what": "deaths", "dead": 9}, NOW)
        assert line.flock is not None
        assert not line.flock.troubled
        assert waiting(connection, ONE, NOW - LONGEST, OTHER) == []
        assert [one.person_id for one, _ in held(connection, ONE)] == [ONE]


def test_a_visit_settles_what_was_seen_and_nothing_of_the_other(two: Database) -> None:
    new = NewVisit(ONE, ONE, staff_of(two, ONE), "there", "all dry now", date(2026, 3, 9), OTHER)
    with two.write() as connection:
        keep_visit(connection, ONE, new, NOW)
        assert not settle_line(connection, ONE, OTHER, NOW)
    with two.read() as connection:
        assert waiting(connection, ONE, NOW - LONGEST) == []
        assert len(waiting(connection, OTHER, NOW - LONGEST)) == 1
        assert last_visits(connection, ONE, [ONE, OTHER]) == {ONE: date(2026, 3, 9)}
        [seen] = visits_of(connection, ONE, ONE)
        assert (seen.note, seen.by) == ("all dry now", "Staff 1")
        assert visits_of(connection, OTHER, ONE) == []


def test_a_text_to_many_reaches_its_own_cooperative_once_and_can_be_stopped(two: Database) -> None:
    wish = Wish("Mtoni", "sw", 5, 15)
    staff = staff_of(two, ONE)
    with two.write() as connection:
        assert places(connection, ONE) == ["Mtoni"]
        phones = phones_meant(connection, ONE, wish, NOW.date(), NOW)
        assert phones == [ONE]
        assert phones_meant(connection, ONE, Wish(from_day=20), NOW.date(), NOW) == []
        circular = keep_circular(connection, ONE, staff, "Meeting", 1, phones, NOW)
        later = NOW + timedelta(hours=1)
        assert not send_circular(connection, OTHER, circular, None, later, NOW)
        assert send_circular(connection, ONE, circular, None, later, NOW)
        assert not send_circular(connection, ONE, circular, None, later, NOW)
        assert delivery(connection, circular) == [("waiting", 1)]
        assert stop_circular(connection, OTHER, circular) is None
        assert stop_circular(connection, ONE, circular) == 1
        assert delivery(connection, circular) == [("cancelled", 1)]
        assert circulars(connection, OTHER) == []
        assert [one.state for one in circulars(connection, ONE, circular)] == ["stopped"]
