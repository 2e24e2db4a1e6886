"""The clock's way: what is due is worded into the outbox. Every minute, or at any moment.

In: the database, the handbook, the moment. Out: how many texts were put. A tick that comes late,
twice, beside another, or is killed half way does no harm: each chunk is one transaction, and every
text stands under a business key that is unique. Called by the minute loop, by planners on many
machines and by rehearsals.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from sqlalchemy import Connection

from bot.day.quiet import opens
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line
from bot.facts.writes import ChangeBatch, TellAdviser, Write
from bot.handbook.shapes import Handbook
from bot.records.apply import apply, begin
from bot.records.case import cases_of_phones
from bot.records.heartbeat import beat
from bot.records.outbox_rows import Text, put
from bot.records.people import owner_phones
from bot.records.planning import (
    Ahead,
    Asked,
    Told,
    advance,
    ask_all,
    change_all,
    claim_due,
    tell_all,
)
from bot.records.session import Database
from bot.turn.invite import remind
from bot.turn.plan import Planned, Planner, Worded

CHUNK = 2000  # batches a transaction
AT_ONCE = 3  # chunks, where so many are due: the database takes some 40 % of the time of each
CHUNK_EMBEDDED = 200  # where a farmer's text waits while the one writer is at it
AFTER_FAULT = timedelta(hours=1)
OWNER_KEPT = timedelta(hours=3)  # the owner's weekly line is of that evening

_log = logging.getLogger(__name__)


def tick(db: Database, handbook: Handbook, now: datetime, room: int = 0) -> int:
    """Put every text that is due at `now`; returns how many. room: batches a transaction."""
    planner = Planner(handbook, now)
    room = room or (CHUNK_EMBEDDED if db.is_sqlite else CHUNK)
    said, full = 0 if db.is_sqlite else _side_by_side(db, planner, room), True
    while full:
        with db.write() as connection:
            found, texts = plan_chunk(connection, planner, room)
            said += texts
            full = found == room
            if not full:
                said += remind(connection, handbook, now)
                beat(connection, "tick", now)
    return said


def _side_by_side(db: Database, planner: Planner, room: int) -> int:
    """Three chunks at once until few are due: while the database is at one, the words of another
    are worked out. Each is a transaction of its own, as of two planners; what they pass over for
    each other is left to the next chunk."""

    def plan(_: int) -> int:
        said, found = 0, room
        while found == room:
            with db.write() as connection:
                found, texts = plan_chunk(connection, planner, room)
            said += texts
        return said

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return sum(pool.map(plan, range(AT_ONCE)))


def plan_chunk(connection: Connection, planner: Planner, room: int) -> tuple[int, int]:
    """Plan up to `room` batches that are due; returns how many were, and the texts put."""
    found = claim_due(connection, planner.now, room)
    if not found:
        return 0, 0
    phone_ids = list({phone_id: None for _, phone_id in found})
    cases = cases_of_phones(connection, phone_ids, planner.now, planning=True)
    chunk = _Chunk()
    for batch_id, phone_id in found:
        case = cases[phone_id]
        batch = next((one for one in case.batches if one.id == batch_id), None)
        if batch is None:
            chunk.ahead.append(Ahead(batch_id, None, ""))  # closed: never again
        else:
            _add(chunk, case, batch, planner)
    chunk.texts += _to_owners(connection, chunk.owners, planner)
    _write(connection, chunk, planner.now)
    return len(found), len(chunk.texts)


def _to_owners(
    connection: Connection, owners: Sequence[tuple[Case, Batch, tuple[Line, ...]]], planner: Planner
) -> list[Text]:
    """The weekly line on the phones of an owner that have no daily texts, in their language."""
    phones = owner_phones(connection, [batch.id for _, batch, _ in owners]) if owners else {}
    return [
        Text(
            business_key=f"{batch.id}:{batch.placement_version}:{case.today}:owner:{one.phone_id}",
            phone_id=one.phone_id,
            to_number=one.number,
            klass="routine",
            text=planner.worded(lines, case, one.language),
            at=case.now,
            not_before=opens(case.cooperative, case.now, "routine"),
            expires_at=case.now + OWNER_KEPT,
            batch_id=batch.id,
        )
        for case, batch, lines in owners
        for one in phones.get(batch.id, ())
        if not one.daily
    ]


@dataclass
class _Chunk:
    """What is written for the batches of one transaction."""

    texts: list[Text] = field(default_factory=list)
    ahead: list[Ahead] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    told: list[Told] = field(default_factory=list)
    changed: list[tuple[int, Mapping[str, object]]] = field(default_factory=list)
    writes: list[tuple[Case, Write]] = field(default_factory=list)
    owners: list[tuple[Case, Batch, tuple[Line, ...]]] = field(default_factory=list)


def _add(chunk: _Chunk, case: Case, batch: Batch, planner: Planner) -> None:
    """Plan one batch; one that can't be planned keeps no other from its text."""
    try:
        planned = planner.plan(case, batch)
    except Exception:
        _log.exception("batch %s could not be planned; it is tried again later", batch.id)
        chunk.ahead.append(Ahead(batch.id, planner.now + AFTER_FAULT, ""))
        return
    chunk.ahead.append(Ahead(batch.id, planned.next_due, planned.lines))
    for one in planned.texts:
        chunk.texts.append(_text(one, case, batch))
        if one.question is not None:
            before = case.question.id if case.question else None
            chunk.asked.append(Asked(case.phone.id, batch.id, one.question, before))
    if planned.owner:
        chunk.owners.append((case, batch, planned.owner))
    _add_writes(chunk, case, batch, planned)


def _text(one: Worded, case: Case, batch: Batch) -> Text:
    return Text(
        business_key=f"{batch.id}:{batch.placement_version}:{one.on_date}:{one.slot}",
        phone_id=case.phone.id,
        to_number=case.phone.number,
        klass=one.klass,
        text=one.text,
        at=case.now,
        not_before=one.not_before,
        expires_at=one.expires_at,
        batch_id=batch.id,
    )


def _add_writes(chunk: _Chunk, case: Case, batch: Batch, planned: Planned) -> None:
    for write in planned.writes:
        if isinstance(write, TellAdviser):
            chunk.told.append(Told(case.cooperative.id, case.phone.id, batch.id, write))
        elif isinstance(write, ChangeBatch):
            chunk.changed.append((batch.id, write.changes))
        else:
            chunk.writes.append((case, write))


def _write(connection: Connection, chunk: _Chunk, now: datetime) -> None:
    change_all(connection, chunk.changed)
    for case, write in chunk.writes:
        doing = begin(connection, case)
        apply(doing, (write,))
        doing.rows.write(connection)
    put(connection, *chunk.texts)
    ask_all(connection, _last_of_phone(chunk.asked), now)
    tell_all(connection, chunk.told, now)
    advance(connection, chunk.ahead)


def _last_of_phone(asked: Sequence[Asked]) -> list[Asked]:
    """A phone that is asked twice has only the later question open."""
    return list({one.phone_id: one for one in asked}.values())
