"""One batch with whose it is, by its number, in any state. In: a connection. Out: `Owned`.
Called by the report's command."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection, select

from bot.facts.farm import Batch, Cooperative
from bot.records import tables as t
from bot.records.case import cases_of_phones, ended_batches

ALL = 1_000_000


@dataclass(frozen=True, slots=True)
class Owned:
    """A batch, the phone and the person it belongs to. name: None where nobody told it."""

    batch: Batch
    cooperative: Cooperative
    phone: str
    name: str | None
    language: str


@dataclass(frozen=True, slots=True)
class Listed:
    """A batch as it stands in a list."""

    number: int
    state: str
    count: int | None
    placed_on: date | None
    phone: str


def batch_of(connection: Connection, number: int, now: datetime) -> Owned | None:
    """The batch of that number; None where there is none."""
    phone_id = connection.execute(select(t.batch.c.phone_id).where(t.batch.c.id == number)).scalar()
    if phone_id is None:
        return None
    case = cases_of_phones(connection, [phone_id], now)[phone_id]
    ended = ended_batches(connection, case.cooperative.id, ALL)
    batch = next((one for one in (*case.batches, *ended) if one.id == number), None)
    if batch is None:
        return None
    name = batch.owner or (case.person.name if case.person else None)
    return Owned(batch, case.cooperative, case.phone.number, name, case.language)


def batches_listed(connection: Connection) -> tuple[Listed, ...]:
    """Every batch, newest first."""
    rows = connection.execute(
        select(t.batch, t.phone.c.number).join(t.phone).order_by(t.batch.c.id.desc())
    )
    return tuple(
        Listed(row.id, row.state, row._mapping["count"], row.placed_on, row.number) for row in rows
    )
