"""Claims batches whose moment has come, and writes down what was planned for them, each in a
handful of statements however many they are. In: a connection inside a transaction. Called by
turn.tick.

On PostgreSQL any number of planners work side by side: what one has claimed the others pass over,
and a phone whose text is just being answered is left for the next time.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Integer, Text, bindparam, select, update

from bot.facts.talk import Question
from bot.facts.writes import TellAdviser
from bot.records import tables as t
from bot.records.dialects import Ids, as_json, listed, one_of
from bot.records.rows import Rows


@dataclass(frozen=True, slots=True)
class Ahead:
    """When a batch is looked at again, and what was said to it now (facts.told)."""

    batch_id: int
    next_due: datetime | None
    lines: str


@dataclass(frozen=True, slots=True)
class Asked:
    """A question put to a phone by ourselves. before_id: the open one that it closes."""

    phone_id: int
    batch_id: int | None
    question: Question
    before_id: int | None


@dataclass(frozen=True, slots=True)
class Told:
    """What the adviser is told of a batch."""

    cooperative_id: int
    phone_id: int
    batch_id: int
    what: TellAdviser


def claim_due(connection: Connection, now: datetime, room: int) -> list[tuple[int, int]]:
    """(batch id, phone id) of up to `room` batches whose next moment has come, soonest first."""
    rows = connection.execute(_DUE, {"now": now, "room": room}).all()
    return [(row.id, row.phone_id) for row in rows]


_DUE = (
    select(t.batch.c.id, t.batch.c.phone_id)
    .join(t.phone, t.phone.c.id == t.batch.c.phone_id)
    .where(t.batch.c.next_due <= bindparam("now", type_=t.Moment()))
    .order_by(t.batch.c.next_due)
    .limit(bindparam("room"))
    .with_for_update(skip_locked=True, key_share=True)
)


def advance(connection: Connection, ahead: Sequence[Ahead]) -> None:
    """Move batches on to their next moment."""
    if not ahead:
        return
    rows = [{"one": one.batch_id, "moment": one.next_due, "more": one.lines} for one in ahead]
    if connection.dialect.name == "postgresql":
        connection.execute(_ADVANCE_ALL, {"ahead": as_json(rows)})
    else:
        connection.execute(_ADVANCE, rows)


_ADVANCE = (
    update(t.batch)
    .where(t.batch.c.id == bindparam("one"))
    .values(next_due=bindparam("moment"), said=t.batch.c.said.concat(bindparam("more")))
)


def _advance_all() -> Any:
    ahead = listed("ahead", {"one": Integer(), "moment": t.Moment(), "more": Text()})
    return (
        update(t.batch)
        .where(t.batch.c.id == ahead.c.one)
        .values(next_due=ahead.c.moment, said=t.batch.c.said.concat(ahead.c.more))
    )


_ADVANCE_ALL = _advance_all()


def change_all(connection: Connection, changed: Iterable[tuple[int, Mapping[str, object]]]) -> None:
    """Set columns of batches, each change in one statement for all that are changed alike (the
    calendar moves them to the new house, or closes them). Who calls it advances them as well."""
    alike: dict[tuple[tuple[str, object], ...], list[int]] = {}
    for batch_id, changes in changed:
        alike.setdefault(tuple(changes.items()), []).append(batch_id)
    for same, ids in alike.items():
        connection.execute(_CHANGE.values(dict(same)), {"ids": ids})


_CHANGE = update(t.batch).where(one_of(t.batch.c.id, bindparam("ids", type_=Ids)))


def ask_all(connection: Connection, asked: Sequence[Asked], now: datetime) -> None:
    """Open a question on each phone; whatever was open there is closed by it."""
    if not asked:
        return
    phones = [one.phone_id for one in asked]
    connection.execute(_CLOSE_ALL, {"phones": phones, "closed_at": now})
    rows = Rows()
    rows.add(t.question, *(_row(one, now) for one in asked))
    rows.write(connection)


_CLOSE_ALL = update(t.question).where(
    one_of(t.question.c.phone_id, bindparam("phones", type_=Ids)),
    t.question.c.closed_at.is_(None),
)


def _row(one: Asked, now: datetime) -> dict[str, object]:
    question = one.question
    about = dict(question.about)
    if "batch" in about:
        about["batch"] = str(one.batch_id)
    return {
        "phone_id": one.phone_id,
        "batch_id": one.batch_id,
        "name": question.name,
        "kind": question.kind,
        "prompt": question.prompt,
        "options": list(question.options),
        "low": question.low,
        "high": question.high,
        "about": about,
        "asked_at": now,
        "pushed": True,
        "before_id": one.before_id,
    }


def tell_all(connection: Connection, told: Iterable[Told], now: datetime) -> None:
    """Put lines on the adviser's list."""
    rows = Rows()
    rows.add(
        t.adviser,
        *(
            {
                "cooperative_id": one.cooperative_id,
                "phone_id": one.phone_id,
                "batch_id": one.batch_id,
                "kind": one.what.kind,
                "reason": one.what.reason[:200],
                "told": dict(one.what.told),
                "at": now,
            }
            for one in told
        ),
    )
    rows.write(connection)
