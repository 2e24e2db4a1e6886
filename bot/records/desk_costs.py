"""What a cooperative's texts cost, as the desk counts it. In: a connection, the cooperative's id, a
moment. Called by the page Costs; each function is one statement."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, and_, case, func, select

from bot.cooperative.costs import Sent
from bot.records import tables as t
from bot.records.desk_farms import LETTER
from bot.records.spending import month, name_of
from bot.records.tally import counted

PERSON = "person"  # the kind of what a person wrote


def sent_since(connection: Connection, cooperative_id: int, since: datetime) -> list[Sent]:
    """Texts that went since a moment, by day (UTC) and kind: the outbox's class, or "person"."""
    row = t.outbox.c
    day = func.date(row.sent_at).label("day")
    kind = case((row.business_key.startswith(LETTER), PERSON), else_=row.klass).label("kind")
    found = connection.execute(
        select(day, kind, func.count().label("texts"), func.sum(row.parts).label("parts"))
        .select_from(t.outbox.join(t.phone, t.phone.c.id == row.phone_id))
        .where(t.phone.c.cooperative_id == cooperative_id, row.sent_at >= since)
        .group_by("day", "kind")
    )
    return [Sent(_as_date(one.day), one.kind, one.texts, one.parts) for one in found]


def _as_date(value: Any) -> date:
    return value if isinstance(value, date) else date.fromisoformat(value)


def used(connection: Connection, cooperative_id: int, now: datetime) -> int:
    """The parts of this month that count against the budget."""
    return counted(connection, name_of(cooperative_id), month(now))


def parts_of_ended(connection: Connection, cooperative_id: int, most: int) -> list[int]:
    """The parts that went to each of the batches that ended last."""
    ended = (
        select(t.batch.c.id, t.batch.c.phone_id)
        .join(t.phone, t.phone.c.id == t.batch.c.phone_id)
        .where(t.phone.c.cooperative_id == cooperative_id, t.batch.c.state == "closed")
        .order_by(t.batch.c.id.desc())
        .limit(most)
        .subquery()
    )
    row = t.outbox.c
    theirs = and_(row.phone_id == ended.c.phone_id, row.batch_id == ended.c.id)
    found = connection.execute(
        select(func.sum(row.parts).label("parts"))
        .select_from(ended.join(t.outbox, theirs))
        .where(row.sent_at.is_not(None))
        .group_by(ended.c.id)
    )
    return [int(one.parts) for one in found]
