"""The clock's way: what is due is worded into the outbox. Every minute, or at any moment.

In: the database, the handbook, the moment. Out: how many texts were put. A tick that comes late,
twice or is killed half way does no harm: each chunk is one transaction, and every text stands
under a business key that is unique. Called by the minute loop and by rehearsals.
"""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, insert, update

from bot.day.due import Due, due, next_moment
from bot.facts.farm import Batch, Case
from bot.handbook.shapes import Handbook
from bot.records import tables as t
from bot.records.apply import Applying, apply, ask
from bot.records.case import cases_of_phones, due_phones
from bot.records.heartbeat import beat
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.say.render import Voice, compose

CHUNK = 200


def tick(db: Database, handbook: Handbook, now: datetime) -> int:
    """Put every text that is due at `now`; returns how many."""
    said, after, full = 0, 0, True
    while full:
        with db.write() as connection:
            found = due_phones(connection, now, CHUNK, after)
            full = len(found) == CHUNK
            if found:
                after = found[-1][0]
                said += _chunk(connection, handbook, now, found)
            if not full:
                beat(connection, "tick", now)
    return said


def _chunk(
    connection: Connection, handbook: Handbook, now: datetime, found: list[tuple[int, int]]
) -> int:
    phone_ids = list({phone_id for _, phone_id in found})
    cases = cases_of_phones(connection, phone_ids, now, with_said=True)
    said = 0
    for batch_id, phone_id in found:
        case = cases[phone_id]
        batch = next((one for one in case.batches if one.id == batch_id), None)
        if batch is not None:
            said += _batch(connection, handbook, case, batch)
    return said


def _batch(connection: Connection, handbook: Handbook, case: Case, batch: Batch) -> int:
    """Say what is due for one batch, and note when to look again."""
    items = due(case, batch, handbook.calendar, case.now)
    for one in items:
        _one(connection, handbook, case, batch, one)
    if items:
        case = cases_of_phones(connection, [case.phone.id], case.now, with_said=True)[case.phone.id]
        batch = next((one for one in case.batches if one.id == batch.id), batch)
    connection.execute(
        update(t.batch)
        .where(t.batch.c.id == batch.id)
        .values(next_due=next_moment(case, batch, handbook.calendar, case.now))
    )
    return sum(1 for one in items if one.lines or one.question)


def _one(connection: Connection, handbook: Handbook, case: Case, batch: Batch, item: Due) -> None:
    doing = apply(connection, case, item.writes, None)
    if item.rows:
        _note_rows(doing, batch, item)
    if not item.lines and item.question is None:
        return
    if item.question is not None:
        ask(doing, item.question, batch.id, pushed=True)
    voice = Voice(case.language, case.cooperative.name, case.cooperative.vet_number)
    put(
        connection,
        Text(
            business_key=f"{batch.id}:{batch.placement_version}:{item.on_date}:{item.slot}",
            phone_id=case.phone.id,
            to_number=case.phone.number,
            klass=item.klass,
            text=compose(item.lines, item.question, voice, handbook.texts, pushed=True),
            at=case.now,
            expires_at=item.expires_at,
            batch_id=batch.id,
        ),
    )


def _note_rows(doing: Applying, batch: Batch, item: Due) -> None:
    doing.connection.execute(
        insert(t.said),
        [
            {
                "batch_id": batch.id,
                "placement_version": batch.placement_version,
                "row": row,
                "on_date": item.on_date,
                "slot": item.slot,
            }
            for row in item.rows
        ],
    )
