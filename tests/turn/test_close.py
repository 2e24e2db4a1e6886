"""What a closed batch is set beside: one voice an owner, whoever invents how many batches."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import Connection, insert, select

from bot.records import tables as t
from bot.records.case import ended_batches
from bot.records.session import MEMORY, Database
from bot.settings import Settings
from bot.turn.close import past_of
from bot.wiring import cooperative_values

NOW = datetime(2026, 3, 4, 6, 0, tzinfo=UTC)


def _owner(connection: Connection, place: int, batches: int) -> None:
    """A farmer with so many closed batches."""
    made = {"cooperative_id": 1, "language": "en", "created_at": NOW}
    person = connection.execute(insert(t.person).values(made).returning(t.person.c.id)).scalar_one()
    number = {"number": f"+25470000000{place}", "consent": "active", "person_id": person}
    values = {"cooperative_id": 1, "created_at": NOW, **number}
    phone = connection.execute(insert(t.phone).values(values).returning(t.phone.c.id)).scalar_one()
    for _ in range(batches):
        batch = {"phone_id": phone, "person_id": person, "state": "closed", "created_at": NOW}
        connection.execute(insert(t.batch).values(batch))


def test_who_invents_many_batches_has_one_voice_beside_the_others() -> None:
    db = Database(MEMORY)
    db.create_all()
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(Settings())))
        for place, batches in enumerate((2, 9, 1, 1)):
            _owner(connection, place, batches)
        mine = min(connection.execute(select(t.batch.c.id)).scalars())
        looked_at = next(one for one in ended_batches(connection, 1, 99) if one.id == mine)
        past = past_of(connection, 1, looked_at)
    assert len(past.own) == 1
    assert len(past.others) == 3
    assert len({one.owner_id for one in past.others}) == 3
