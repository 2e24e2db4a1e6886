"""Asks phones to join, on behalf of a cooperative: one question, one reminder the next day, and
nothing more until the phone itself agrees. In: a connection inside a transaction, the handbook, a
number. Out: whether a text was put. Called by the adviser's commands, the desk and turn.tick.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Connection, exists, insert, select, update

from bot.day.quiet import opens
from bot.decide.contacts import ask_join, ask_new_phone
from bot.facts.talk import Question
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.case import cooperative_of
from bot.records.marks import mark_of
from bot.records.outbox_rows import Text, put
from bot.records.people import add_person, keep_contact, leave_number
from bot.records.planning import Asked, ask_all
from bot.say.render import Voice, compose

REMINDED_AFTER, REMINDED_UNTIL = timedelta(days=1), timedelta(days=3)
KEPT = timedelta(days=1)
ROOM = 200  # reminders a tick


@dataclass(frozen=True, slots=True)
class Guest:
    """Who is asked: a number (E.164) of a cooperative's list."""

    cooperative_id: int
    number: str
    language: str
    name: str | None = None


def invite(
    connection: Connection, handbook: Handbook, guest: Guest, key: bytes, now: datetime
) -> bool:
    """Ask a number to join. False where it is known in any way: it was asked, joined, stopped or
    wished to be forgotten."""
    numbers = (guest.number, mark_of(guest.number, key))
    if connection.execute(select(t.phone.c.id).where(t.phone.c.number.in_(numbers))).first():
        return False
    person_id = add_person(connection, guest.cooperative_id, guest.language, guest.name, now)
    made = connection.execute(
        insert(t.phone).values(
            cooperative_id=guest.cooperative_id,
            person_id=person_id,
            number=guest.number,
            consent="invited",
            invited_at=now,
            created_at=now,
        )
    ).inserted_primary_key
    assert made is not None
    connection.execute(
        insert(t.consent_record).values(
            phone_id=made[0], state="invited", how="list of the cooperative",
            language=guest.language, wording="ask_join", channel="sms", at=now,
        )
    )  # fmt: skip
    _say(connection, handbook, int(made[0]), ask_join(), f"invite:{made[0]}:1", now)
    return True


def remind(connection: Connection, handbook: Handbook, now: datetime) -> int:
    """Ask those once more who did not answer for a day; returns how many."""
    phones = _silent(connection, now)
    for phone_id in phones:
        _say(connection, handbook, phone_id, ask_join(), f"invite:{phone_id}:2", now)
    if phones:
        connection.execute(update(t.phone).where(t.phone.c.id.in_(phones)).values(reminded_at=now))
    return len(phones)


def _silent(connection: Connection, now: datetime) -> list[int]:
    asked_otherwise = exists().where(t.contact.c.phone_id == t.phone.c.id)
    return list(
        connection.execute(
            select(t.phone.c.id)
            .where(
                t.phone.c.invited_at > now - REMINDED_UNTIL,
                t.phone.c.invited_at <= now - REMINDED_AFTER,
                t.phone.c.reminded_at.is_(None),
                t.phone.c.consent == "invited",
                t.phone.c.suspended.is_(False),
                ~asked_otherwise,
            )
            .limit(ROOM)
            .with_for_update(skip_locked=True)
        ).scalars()
    )


def give_new_phone(
    connection: Connection, handbook: Handbook, old: str, new: str, now: datetime
) -> bool:
    """A known farmer has another phone, so says the adviser, who asked them. The old number is a
    stranger's from now on; the new one agrees by itself before anything goes there. False where the
    old one is not known, or the new one has stopped."""
    phone = connection.execute(select(t.phone).where(t.phone.c.number == old)).first()
    if phone is None or phone.person_id is None:
        return False
    fresh = connection.execute(select(t.phone).where(t.phone.c.number == new)).first()
    if fresh is not None and fresh.consent == "stopped":
        return False
    former = old if "~" in old else leave_number(connection, phone.id, old, now)
    connection.execute(
        update(t.phone).where(t.phone.c.id == phone.id).values(number=former, consent="stopped")
    )
    if fresh is None:
        made = connection.execute(
            insert(t.phone).values(
                cooperative_id=phone.cooperative_id,
                number=new,
                consent="invited",
                invited_at=now,
                created_at=now,
            )
        ).inserted_primary_key
        assert made is not None
        new_id = int(made[0])
    else:
        new_id = fresh.id
    contact_id = keep_contact(connection, phone.person_id, new_id, "owner", "asked", now)
    key = f"phone:{contact_id}:{int(now.timestamp())}"
    language = connection.execute(
        select(t.person.c.language).where(t.person.c.id == phone.person_id)
    ).scalar_one()
    _say(connection, handbook, new_id, ask_new_phone(), key, now, language)
    return True


def _say(
    connection: Connection,
    handbook: Handbook,
    phone_id: int,
    question: Question,
    key: str,
    now: datetime,
    language: str = "",
) -> None:
    """Put the question into the outbox and open it on the phone. language: else that of whoever
    holds the phone."""
    row = connection.execute(
        select(t.phone, t.person.c.language)
        .select_from(t.phone.outerjoin(t.person))
        .where(t.phone.c.id == phone_id)
    ).one()
    cooperative = cooperative_of(connection, row.cooperative_id)
    voice = Voice(
        language or row.language or cooperative.language, cooperative.name, cooperative.vet_number
    )
    text = compose((), question, voice, handbook.texts, pushed=True)
    at = opens(cooperative, now, "system")
    put(
        connection,
        Text(key, phone_id, row.number, "system", text, now, expires_at=at + KEPT, not_before=at),
    )
    ask_all(connection, [Asked(phone_id, None, question, None)], now)
