"""Forgets a person: what they wrote and what was written to them is erased, and a keyed hash of the
number stays, so that nobody invites it again. In: a connection inside a transaction. Called by
turn.take, and by the adviser's command for a wish that came by another way.

The counts of a farm (deaths, feed, weights) stay without a person: they name nobody. Consent
records stay as well, under the phone's row, which holds the hash for a number.
"""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, delete, or_, select, update

from bot.records import tables as t
from bot.records.desk_enrol import drop_lists
from bot.records.marks import mark_of
from bot.records.people import end_contacts, hand_back


def forget(connection: Connection, phone_id: int, key: bytes, now: datetime) -> None:
    """Forget the person who holds the phone. Where another farmer shares it the phone goes on for
    them; else its number is suppressed."""
    phone = connection.execute(select(t.phone).where(t.phone.c.id == phone_id)).one()
    other = connection.execute(
        select(t.contact.c.person_id)
        .where(
            t.contact.c.phone_id == phone_id,
            t.contact.c.role == "owner",
            t.contact.c.state == "active",
        )
        .limit(1)
    ).scalar()
    if phone.person_id is not None:
        _forget_person(connection, phone.person_id, phone_id)
    if other is not None:
        values: dict[str, object] = {"person_id": other}
    else:
        hand_back(connection, phone_id, now)
        end_contacts(connection, phone_id, now)
        mark = mark_of(phone.number, key)
        _erase_texts(connection, phone_id, phone.number, mark)
        connection.execute(
            update(t.adviser)
            .where(t.adviser.c.phone_id == phone_id, t.adviser.c.done_at.is_(None))
            .values(done_at=now)
        )
        values = {"number": mark, "person_id": None, "consent": "stopped"}
    connection.execute(update(t.phone).where(t.phone.c.id == phone_id).values(**values))


def _forget_person(connection: Connection, person_id: int, phone_id: int) -> None:
    gone = {"name": None, "member_number": None, "place": None}
    connection.execute(update(t.person).where(t.person.c.id == person_id).values(**gone))
    connection.execute(update(t.visit).where(t.visit.c.person_id == person_id).values(note=""))
    drop_lists(connection, person_id)
    mine = or_(t.batch.c.person_id == person_id, t.batch.c.person_id.is_(None))
    connection.execute(
        update(t.batch)
        .where(t.batch.c.phone_id == phone_id, mine)
        .values(name=None, state="closed", next_due=None)
    )


def _erase_texts(connection: Connection, phone_id: int, number: str, mark: str) -> None:
    theirs = t.turn.c.sender == number
    turns = select(t.turn.c.id).where(theirs)
    connection.execute(update(t.unread).where(t.unread.c.turn_id.in_(turns)).values(text=""))
    connection.execute(
        update(t.turn).where(theirs).values(sender=mark, body="", reply=None, why=None)
    )
    connection.execute(delete(t.ussd_session).where(t.ussd_session.c.number == number))
    connection.execute(
        update(t.outbox).where(t.outbox.c.phone_id == phone_id).values(to_number=mark, text="")
    )
