"""What waits on a cooperative's adviser list, and the visits that settle it. In: a connection
inside a transaction, the cooperative's id. Called by the pages Visits and Farm of the desk. Each
function takes one statement, but for those that say otherwise."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, Row, Select, and_, func, insert, or_, select, update

from bot.cooperative.visits import Farm, Flock, Line
from bot.records import tables as t

MOST_LINES = 5000
NO_FARM = "budget"  # a kind of line that is about money: the page of costs shows it
PAST = 20  # visits of a farm that are shown


@dataclass(frozen=True, slots=True)
class Visited:
    """A visit that was made. how: "there" or "called". by: who made it."""

    id: int
    on_date: date
    how: str
    note: str
    by: str


_TROUBLED = (
    select(t.complaint.c.id)
    .where(t.complaint.c.batch_id == t.batch.c.id, t.complaint.c.state == "open")
    .exists()
    .label("troubled")
)
_FLOCK = [
    t.batch.c.id.label("batch_id"),
    t.batch.c.state.label("batch_state"),
    t.batch.c.placed_on,
    t.batch.c["count"].label("birds"),
    t.batch.c.held,
]
_FARM = [
    t.person.c.id.label("person_id"),
    t.person.c.name,
    t.person.c.place,
    t.phone.c.number,
    t.phone.c.heard_at,
]


def waiting(
    connection: Connection, cooperative_id: int, since: datetime, person_id: int | None = None
) -> list[tuple[Farm, Line]]:
    """The open lines that came since, newest first, each with its farm. person_id: of one farm."""
    row = t.adviser.c
    query: Select[Any] = (
        select(
            row.id.label("line_id"), row.kind, row.at, row.told, t.turn.c.body, t.turn.c.sender,
            *_FLOCK, *_FARM, _TROUBLED,
        )
        .select_from(
            t.adviser.outerjoin(t.batch, t.batch.c.id == row.batch_id)
            .outerjoin(t.turn, t.turn.c.id == row.turn_id)
            .outerjoin(t.phone, t.phone.c.id == func.coalesce(row.phone_id, t.batch.c.phone_id))
            .outerjoin(t.person,
                       t.person.c.id == func.coalesce(t.batch.c.person_id, t.phone.c.person_id))
        )
        .where(
            row.cooperative_id == cooperative_id,
            row.done_at.is_(None),
            row.at >= since,
            row.kind != NO_FARM,
        )
        .order_by(row.at.desc(), row.id.desc())
        .limit(MOST_LINES)
    )  # fmt: skip
    if person_id is not None:
        query = query.where(t.person.c.id == person_id)
    return [(_farm(one, one.sender), _line(one)) for one in connection.execute(query)]


def _line(row: Row[Any]) -> Line:
    return Line(
        row.line_id, row.kind, row.at, row.told, row.body or None, _flock(row, row.troubled)
    )


def _flock(row: Row[Any], troubled: bool) -> Flock | None:
    if row.batch_id is None:
        return None
    return Flock(row.batch_id, row.batch_state, row.placed_on, row.birds, row.held, troubled)


def _farm(row: Row[Any], sender: str | None) -> Farm:
    return Farm(row.person_id, row.name, row.number or sender, row.place, row.heard_at)


def held(
    connection: Connection, cooperative_id: int, person_id: int | None = None
) -> list[tuple[Farm, Flock]]:
    """The batches that stand still because a disease that must be reported is suspected, with
    their farms."""
    query: Select[Any] = (
        select(*_FLOCK, *_FARM)
        .select_from(
            t.batch.join(t.phone, t.phone.c.id == t.batch.c.phone_id).outerjoin(
                t.person, t.person.c.id == func.coalesce(t.batch.c.person_id, t.phone.c.person_id)
            )
        )
        .where(
            t.batch.c.held.is_(True),
            t.batch.c.state != "closed",
            t.phone.c.cooperative_id == cooperative_id,
        )
        .order_by(t.batch.c.id)
    )
    if person_id is not None:
        query = query.where(t.person.c.id == person_id)
    found = []
    for row in connection.execute(query):
        flock = _flock(row, troubled=False)
        assert flock is not None
        found.append((_farm(row, None), flock))
    return found


def last_visits(
    connection: Connection, cooperative_id: int, person_ids: Collection[int]
) -> dict[int, date]:
    """The day on which each of these farms was last visited or called."""
    row = t.visit.c
    found = connection.execute(
        select(row.person_id, func.max(row.on_date, type_=row.on_date.type).label("last"))
        .where(row.cooperative_id == cooperative_id, row.person_id.in_(list(person_ids)))
        .group_by(row.person_id)
    )
    return {one.person_id: one.last for one in found}


def visits_of(connection: Connection, cooperative_id: int, person_id: int) -> list[Visited]:
    """The last visits of a farm, newest first."""
    row = t.visit.c
    found = connection.execute(
        select(row.id, row.on_date, row.how, row.note, t.staff.c.name)
        .select_from(t.visit.join(t.staff, t.staff.c.id == row.staff_id))
        .where(row.cooperative_id == cooperative_id, row.person_id == person_id)
        .order_by(row.id.desc())
        .limit(PAST)
    )
    return [Visited(one.id, one.on_date, one.how, one.note, one.name) for one in found]


def visits_of_batch(connection: Connection, batch_id: int) -> list[Visited]:
    """The visits while a batch was there, oldest first."""
    row = t.visit.c
    found = connection.execute(
        select(row.id, row.on_date, row.how, row.note, t.staff.c.name)
        .select_from(t.visit.join(t.staff, t.staff.c.id == row.staff_id))
        .where(row.batch_id == batch_id)
        .order_by(row.on_date, row.id)
    )
    return [Visited(one.id, one.on_date, one.how, one.note, one.name) for one in found]


@dataclass(frozen=True, slots=True)
class NewVisit:
    """A visit to be kept. up_to: the newest line that whoever made it has seen; what came since
    still waits."""

    person_id: int
    batch_id: int | None
    staff_id: int
    how: str
    note: str
    on_date: date
    up_to: int


def keep_visit(connection: Connection, cooperative_id: int, new: NewVisit, now: datetime) -> None:
    """The visit is in the record, and what waited for it is settled. Two statements."""
    connection.execute(
        insert(t.visit).values(
            cooperative_id=cooperative_id,
            person_id=new.person_id,
            batch_id=new.batch_id,
            staff_id=new.staff_id,
            how=new.how,
            note=new.note,
            on_date=new.on_date,
            at=now,
        )
    )
    batches = select(t.batch.c.id).where(t.batch.c.person_id == new.person_id)
    phones = select(t.phone.c.id).where(t.phone.c.person_id == new.person_id)
    row = t.adviser.c
    theirs = or_(
        row.batch_id.in_(batches),
        and_(row.phone_id.in_(phones), or_(row.batch_id.is_(None), _OWNERLESS)),
    )
    connection.execute(
        update(t.adviser)
        .where(
            row.cooperative_id == cooperative_id, row.done_at.is_(None), row.id <= new.up_to, theirs
        )
        .values(done_at=now)
    )


_OWNERLESS = t.adviser.c.batch_id.in_(select(t.batch.c.id).where(t.batch.c.person_id.is_(None)))


def settle_line(connection: Connection, cooperative_id: int, line_id: int, now: datetime) -> bool:
    """One line is dealt with; False where the cooperative has none of that number."""
    row = t.adviser.c
    done = connection.execute(
        update(t.adviser)
        .where(row.id == line_id, row.cooperative_id == cooperative_id)
        .values(done_at=func.coalesce(row.done_at, now, type_=t.Moment()))
    )
    return done.rowcount == 1
