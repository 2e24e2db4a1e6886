"""Reads all we know of a phone: the Case. In: a connection and phone ids or a number. Out: Case.

Called by `turn.take` (one phone) and `day.run` (a chunk of phones at once): the number of
statements does not depend on how many phones are asked for.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any

from sqlalchemy import Connection, Row, SelectLabelStyle, and_, func, or_, select

from bot.facts.farm import (
    Batch,
    Case,
    Complaint,
    Cooperative,
    Event,
    OpenQuestion,
    Person,
    Phone,
    Recent,
    Said,
)
from bot.ledger.settle import settled
from bot.records import tables as t

QUESTION_OPEN = timedelta(hours=24)
SAME_TEXT = timedelta(minutes=10)


def case_of_number(
    connection: Connection, number: str, now: datetime, text: str, turn_id: int | None
) -> Case:
    """The case of one number when `text` has just arrived from it. A number that never joined gets
    a case without a person; the first cooperative answers it. Locks the phone on PostgreSQL, so
    that two texts of one phone are taken in turn."""
    row = connection.execute(
        select(t.phone.c.id).where(t.phone.c.number == number).with_for_update()
    ).first()
    if row is None:
        case = _stranger(connection, number, now)
    else:
        case = cases_of_phones(connection, [row.id], now)[row.id]
    ended = _ended(connection, case.phone.id)
    return _with_recent(connection, replace(case, ended=ended), text, turn_id)


def cases_of_phones(
    connection: Connection, phone_ids: Sequence[int], now: datetime, *, with_said: bool = False
) -> dict[int, Case]:
    """The cases of many phones, by phone id. with_said: the calendar rows already said as well."""
    people = connection.execute(
        select(t.phone, t.cooperative, t.person)
        .set_label_style(_LABELS)
        .select_from(t.phone.join(t.cooperative).outerjoin(t.person, _OWNER))
        .where(t.phone.c.id.in_(phone_ids))
    ).all()
    batches = _batches(connection, phone_ids, with_said=with_said)
    questions = _questions(connection, phone_ids, now)
    return {
        row.phone_id: _case(row, now, batches.get(row.phone_id, ()), questions.get(row.phone_id))
        for row in people
    }


_LABELS = SelectLabelStyle.LABEL_STYLE_TABLENAME_PLUS_COL
_OWNER = t.person.c.id == t.phone.c.person_id


def _case(
    row: Row[Any], now: datetime, batches: tuple[Batch, ...], question: OpenQuestion | None
) -> Case:
    cooperative = _cooperative(row._mapping, "cooperative_")
    person = None
    if row.person_id is not None:
        person = Person(row.person_id, row.person_language, row.person_name)
    phone = Phone(
        row.phone_id,
        row.phone_number,
        row.phone_consent,
        row.phone_muted_until,
        row.phone_suspended,
        row.phone_heard_at,
    )
    language = person.language if person else cooperative.language
    return Case(now, cooperative, phone, person, language, batches, question)


def _stranger(connection: Connection, number: str, now: datetime) -> Case:
    row = connection.execute(select(t.cooperative).order_by(t.cooperative.c.id).limit(1)).one()
    cooperative = _cooperative(row._mapping, "")
    return Case(now, cooperative, Phone(0, number, "unknown"), None, cooperative.language)


def _cooperative(row: Mapping[Any, Any], prefix: str) -> Cooperative:
    def at(name: str) -> Any:
        return row[prefix + name]

    return Cooperative(
        id=at("id"),
        name=at("name"),
        timezone=at("timezone"),
        region=at("region"),
        language=at("language"),
        vet_number=at("vet_number"),
        routine_at=at("routine_at"),
        night_at=at("night_at"),
        allowed_from=at("allowed_from"),
        allowed_to=at("allowed_to"),
        water_mix=at("water_mix"),
        normals=tuple((high, low) for high, low in at("normals")),
        forecast={date.fromisoformat(day): (high, low)
                  for day, (high, low) in at("forecast").items()},
        prices=at("prices"),
    )  # fmt: skip


def _batches(
    connection: Connection, phone_ids: Sequence[int], *, with_said: bool
) -> dict[int, tuple[Batch, ...]]:
    rows = connection.execute(
        select(t.batch)
        .where(t.batch.c.phone_id.in_(phone_ids), or_(_open, _resting) if with_said else _open)
        .order_by(t.batch.c.id)
    ).all()
    if not rows:
        return {}
    ids = [row.id for row in rows]
    events = _events(connection, ids)
    complaints = _complaints(connection, ids)
    said = _said(connection, rows) if with_said else {}
    found: dict[int, list[Batch]] = defaultdict(list)
    for row in rows:
        found[row.phone_id].append(
            _batch(row, events.get(row.id, ()), complaints.get(row.id), said.get(row.id, ()))
        )
    return {phone_id: tuple(batches) for phone_id, batches in found.items()}


_open = t.batch.c.state != "closed"
_resting = and_(t.batch.c.state == "closed", t.batch.c.next_due.is_not(None))  # its house is empty


def ended_batches(
    connection: Connection, cooperative_id: int, most: int
) -> tuple[tuple[int, Batch], ...]:
    """(phone id, batch) of the batches of a cooperative that were closed last, so many at most."""
    rows = connection.execute(
        select(t.batch)
        .join(t.phone, t.phone.c.id == t.batch.c.phone_id)
        .where(t.phone.c.cooperative_id == cooperative_id, t.batch.c.state == "closed")
        .order_by(t.batch.c.id.desc())
        .limit(most)
    ).all()
    events = _events(connection, [row.id for row in rows]) if rows else {}
    return tuple((row.phone_id, _batch(row, events.get(row.id, ()), None, ())) for row in rows)


def _ended(connection: Connection, phone_id: int) -> Batch | None:
    """The batch of a phone that was closed last."""
    row = connection.execute(
        select(t.batch)
        .where(t.batch.c.phone_id == phone_id, t.batch.c.state == "closed")
        .order_by(t.batch.c.id.desc())
        .limit(1)
    ).first()
    return None if row is None else _batch(row, _events(connection, [row.id])[row.id], None, ())


def _batch(
    row: Row[Any],
    events: Iterable[Event],
    complaint: Complaint | None,
    said: Iterable[Said],
) -> Batch:
    return Batch(
        id=row.id,
        state=row.state,
        count=row._mapping["count"],
        placed_on=row.placed_on,
        arrived_at=row.arrived_at,
        placement_version=row.placement_version,
        heat=tuple(row.heat.split("+")) if row.heat else (),
        heat_count=row.heat_count,
        thermometer=row.thermometer,
        house=row.house,
        nights=row.nights,
        feathered=row.feathered,
        moved_on=row.moved_on,
        held=row.held,
        name=row.name,
        events=settled(events),
        complaint=complaint,
        said=tuple(said),
    )


def _events(connection: Connection, batch_ids: Sequence[int]) -> dict[int, list[Event]]:
    found: dict[int, list[Event]] = defaultdict(list)
    for row in connection.execute(
        select(t.event).where(t.event.c.batch_id.in_(batch_ids)).order_by(t.event.c.id)
    ):
        found[row.batch_id].append(
            Event(
                row.id,
                row.kind,
                row.on_date,
                row.at,
                row.data,
                row.turn_id,
                row.undone_at is not None,
            )
        )
    return found


def _complaints(connection: Connection, batch_ids: Sequence[int]) -> dict[int, Complaint]:
    rows = connection.execute(
        select(t.complaint)
        .where(t.complaint.c.batch_id.in_(batch_ids), t.complaint.c.state == "open")
        .order_by(t.complaint.c.id)
    )
    return {
        row.batch_id: Complaint(
            id=row.id,
            batch_id=row.batch_id,
            cause=row.cause,
            opened_at=row.opened_at,
            signals=tuple(row.signals),
            not_signals=tuple(row.not_signals),
            asked=tuple(row.asked),
            tried=tuple(row.tried),
            check_at=row.check_at,
            checks=row.checks,
            state=row.state,
        )
        for row in rows
    }


def _said(connection: Connection, batches: Sequence[Row[Any]]) -> dict[int, list[Said]]:
    versions = {row.id: row.placement_version for row in batches}
    found: dict[int, list[Said]] = defaultdict(list)
    for row in connection.execute(select(t.said).where(t.said.c.batch_id.in_(list(versions)))):
        if row.placement_version == versions[row.batch_id]:
            found[row.batch_id].append(Said(row.row, row.on_date, row.slot))
    return found


def _questions(
    connection: Connection, phone_ids: Sequence[int], now: datetime
) -> dict[int, OpenQuestion]:
    """The one open question of each phone, with the one that it closed when it was pushed."""
    asked_before = t.question.alias("earlier")
    rows = connection.execute(
        select(t.question, asked_before)
        .set_label_style(_LABELS)
        .select_from(
            t.question.outerjoin(asked_before, asked_before.c.id == t.question.c.before_id)
        )
        .where(
            t.question.c.phone_id.in_(phone_ids),
            t.question.c.closed_at.is_(None),
            t.question.c.asked_at > now - QUESTION_OPEN,
        )
        .order_by(t.question.c.id)
    )
    found: dict[int, OpenQuestion] = {}
    for row in rows:
        values = row._mapping
        before = None if values["earlier_id"] is None else _question(values, "earlier_", None)
        found[values["question_phone_id"]] = _question(values, "question_", before)
    return found


def _question(row: Mapping[Any, Any], prefix: str, before: OpenQuestion | None) -> OpenQuestion:
    return OpenQuestion(
        id=row[prefix + "id"],
        name=row[prefix + "name"],
        kind=row[prefix + "kind"],
        prompt=row[prefix + "prompt"],
        asked_at=row[prefix + "asked_at"],
        options=tuple(row[prefix + "options"]),
        low=row[prefix + "low"],
        high=row[prefix + "high"],
        about=row[prefix + "about"],
        batch_id=row[prefix + "batch_id"],
        pushed=row[prefix + "pushed"],
        before=before,
    )


def _with_recent(connection: Connection, case: Case, text: str, turn_id: int | None) -> Case:
    """The same case with what came lately from this number (the turn at hand left out)."""
    midnight = datetime.combine(case.today, time.min, case.cooperative.zone)
    since = min(case.now - timedelta(days=1), midnight)
    rows = connection.execute(
        select(t.turn.c.at, t.turn.c.body, t.turn.c.understood, t.turn.c.danger, t.turn.c.reply)
        .where(
            t.turn.c.sender == case.phone.number,
            t.turn.c.at > since,
            t.turn.c.id != (turn_id or 0),
        )
        .order_by(t.turn.c.id)
    ).all()
    danger: dict[str, int] = defaultdict(int)
    for row in rows:
        if row.danger and row.at >= midnight:
            danger[row.danger] += 1
    recent = Recent(
        answers_hour=sum(1 for row in rows if row.reply and row.at > case.now - timedelta(hours=1)),
        answers_day=sum(1 for row in rows if row.reply and row.at > case.now - timedelta(days=1)),
        misses=_misses(rows),
        same=sum(1 for row in rows if row.body == text and row.at > case.now - SAME_TEXT),
        danger_today=dict(danger),
        last_said=_last_said(connection, case.phone.id),
    )
    return replace(case, recent=recent)


def _misses(rows: Sequence[Any]) -> int:
    count = 0
    for row in reversed(rows):
        if row.understood is not False:
            break
        count += 1
    return count


def _last_said(connection: Connection, phone_id: int) -> str | None:
    row = connection.execute(
        select(t.outbox.c.text)
        .where(t.outbox.c.phone_id == phone_id)
        .order_by(t.outbox.c.id.desc())
        .limit(1)
    ).first()
    return row.text if row else None


def due_phones(
    connection: Connection, now: datetime, limit: int, after: int = 0
) -> list[tuple[int, int]]:
    """(batch id, phone id) of batches whose next moment has come, in the order of their ids."""
    rows = connection.execute(
        select(t.batch.c.id, t.batch.c.phone_id)
        .where(
            t.batch.c.next_due <= now,
            t.batch.c.id > after,
            t.batch.c.state.in_(("planned", "running", "closed")),
        )
        .order_by(t.batch.c.id)
        .limit(limit)
    ).all()
    return [(row.id, row.phone_id) for row in rows]


def next_due_of_all(connection: Connection) -> datetime | None:
    """The earliest moment at which any batch may need a text; None when none does."""
    found: datetime | None = connection.execute(
        select(func.min(t.batch.c.next_due)).where(t.batch.c.state != "draft")
    ).scalar()
    return found
