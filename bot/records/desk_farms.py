"""Farms as the desk reads them: who they are, their phones and batches, the texts of both sides.
In: a connection, the cooperative's id, ids of its farms. Called by the pages Farms and Farm.

A farm is a person with their phones and batches. Each function takes a fixed number of statements.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Integer,
    Select,
    and_,
    bindparam,
    func,
    insert,
    literal,
    or_,
    select,
    union,
    union_all,
    update,
)

from bot.cooperative.farm import Side, Text
from bot.facts.farm import Event, Person, Phone
from bot.records import tables as t

MOST_BATCHES = 30
WITH_AREA, LEAST_DIGITS = 9, 3  # digits of a number as it is dialled; of the end of one
LETTER = "desk:"  # how the business key of what a person wrote begins


@dataclass(frozen=True, slots=True)
class OfBatch:
    """A batch as it stands in a list."""

    id: int
    state: str
    count: int | None
    placed_on: date | None
    name: str | None
    held: bool


@dataclass(frozen=True, slots=True)
class Farm:
    """A person, the phones on which we speak with them (their own first) and their batches, the
    youngest first."""

    person: Person
    phones: tuple[Phone, ...]
    batches: tuple[OfBatch, ...]
    place: str | None = None

    @property
    def own(self) -> Phone | None:
        """The phone that this person is written to."""
        usable = [one for one in self.phones if one.consent == "active" and not one.suspended]
        return next(iter(usable or self.phones), None)

    def batch(self, wanted: int | None) -> OfBatch | None:
        """The batch asked for; else the youngest that runs, else the youngest."""
        if wanted is not None:
            return next((one for one in self.batches if one.id == wanted), None)
        running = (one for one in self.batches if one.state == "running")
        return next(running, next(iter(self.batches), None))


def farm_of(connection: Connection, cooperative_id: int, person_id: int) -> Farm | None:
    """One farm; None where the cooperative has none of that number. Two statements."""
    rows = connection.execute(_FARM, {"cooperative": cooperative_id, "farm": person_id}).all()
    if not rows:
        return None
    phones = [
        Phone(row.phone_id, row.phone_number, row.phone_consent, row.phone_muted_until,
              row.phone_suspended, row.phone_heard_at)
        for row in rows if row.phone_id is not None
    ]  # fmt: skip
    first = rows[0]
    person_found = Person(first.id, first.language, first.name)
    return Farm(person_found, tuple(phones), _batches(connection, person_id), first.place)


_PHONE = ("id", "number", "consent", "muted_until", "suspended", "heard_at")


def _farm() -> Select[Any]:
    """A row for each phone on which a person is spoken with, their own first."""
    person, phone, batch, contact = t.person.c, t.phone.c, t.batch.c, t.contact.c
    own = bindparam("farm", type_=Integer)
    cooperative = bindparam("cooperative", type_=Integer)
    # Each by its own index: an "or" over them reads every phone of the cooperative.
    ids = union(
        select(phone.id).where(phone.person_id == own),
        select(batch.phone_id).where(batch.person_id == own, batch.state != "closed"),
        select(contact.phone_id).where(contact.person_id == own, contact.state == "active"),
    ).subquery()
    theirs = and_(phone.id.in_(select(ids.c.id)), phone.cooperative_id == cooperative)
    named = (phone[name].label(f"phone_{name}") for name in _PHONE)
    return (
        select(person.id, person.language, person.name, person.place, *named)
        .select_from(t.person.outerjoin(t.phone, theirs))
        .where(person.id == own, person.cooperative_id == cooperative)
        .order_by(func.coalesce(phone.person_id, -1) != person.id, phone.id.desc())
    )


_FARM = _farm()


def _batches(connection: Connection, person_id: int) -> tuple[OfBatch, ...]:
    row = t.batch.c
    found = connection.execute(
        select(row.id, row.state, row["count"].label("birds"), row.placed_on, row.name, row.held)
        .where(row.person_id == person_id)
        .order_by(row.id.desc())
        .limit(MOST_BATCHES)
    )
    return tuple(
        OfBatch(one.id, one.state, one.birds, one.placed_on, one.name, one.held) for one in found
    )


def texts_of(
    connection: Connection, phones: Sequence[Phone], most: int, before: datetime | None
) -> list[Text]:
    """The newest texts on these phones, so many of each side; before: only older ones. Two
    statements; none where there is no phone."""
    if not phones:
        return []
    heard = union_all(*(_heard(one, most, before) for one in phones))
    said = union_all(*(_said(one, most, before) for one in phones))
    found = [
        Text(row.at, "farmer", row.body, row.number, intent=row.intent, understood=row.understood)
        for row in connection.execute(heard)
    ]
    return found + [_ours(row) for row in connection.execute(said)]


def _ours(row: Any) -> Text:
    side: Side = "person" if row.business_key.startswith(LETTER) else "machine"
    at = row.sent_at or row.created_at
    return Text(at, side, row.text, row.number, row.parts, row.state, due=row.not_before)


def _heard(phone: Phone, most: int, before: datetime | None) -> Select[Any]:
    row = t.turn.c
    mine: list[ColumnElement[bool]] = [row.sender == phone.number]
    if before is not None:
        mine.append(row.at < before)
    newest = (
        select(row.at, row.body, row.intent, row.understood, literal(phone.number).label("number"))
        .where(*mine)
        .order_by(row.at.desc())
        .limit(most)
        .subquery()
    )
    return select(newest)


def _said(phone: Phone, most: int, before: datetime | None) -> Select[Any]:
    row = t.outbox.c
    mine: list[ColumnElement[bool]] = [row.phone_id == phone.id]
    if before is not None:
        mine.append(row.created_at < before)
    names = "business_key created_at sent_at not_before text parts state".split()
    newest = (
        select(*(row[name] for name in names), literal(phone.number).label("number"))
        .where(*mine)
        .order_by(row.id.desc())
        .limit(most)
        .subquery()
    )
    return select(newest)


@dataclass(frozen=True, slots=True)
class Row:
    """A farm in the list. batch_id, placed_on, birds: of its youngest batch that is not closed."""

    person_id: int
    name: str | None
    number: str | None
    consent: str | None
    batch_id: int | None
    placed_on: date | None
    birds: int | None
    place: str | None


def farms_listed(
    connection: Connection, cooperative_id: int, most: int, after: int = 0, wanted: str = ""
) -> list[Row]:
    """Farms in the order in which they came; after: behind the one of that number. wanted: only
    those whose name or place holds it, or whose number ends so. One statement."""
    person, phone = t.person.c, t.phone.c
    query = _LISTED
    if wanted:
        named = or_(
            func.lower(person.name).contains(wanted.lower(), autoescape=True),
            func.lower(person.place).contains(wanted.lower(), autoescape=True),
        )
        digits = _digits(wanted)
        ends_so = phone.number.endswith(digits, autoescape=True)
        query = query.where(or_(named, ends_so) if digits else named)
    rows = connection.execute(query, {"cooperative": cooperative_id, "after": after, "most": most})
    return [
        Row(one.id, one.name, one.number, one.consent, one.batch_id, one.placed_on, one.birds,
            one.place)
        for one in rows
    ]  # fmt: skip


def _listed() -> Select[Any]:
    """A row for each farm: its newest phone and its youngest batch that is not closed."""
    person, phone, batch = t.person.c, t.phone.c, t.batch.c
    open_batch = (
        select(func.max(batch.id))
        .where(batch.person_id == person.id, batch.state != "closed")
        .correlate(t.person)
        .scalar_subquery()
    )
    own = (
        select(func.max(phone.id))
        .where(phone.person_id == person.id)
        .correlate(t.person)
        .scalar_subquery()
    )
    return (
        select(person.id, person.name, person.place, phone.number, phone.consent,
               batch.id.label("batch_id"), batch.placed_on, batch["count"].label("birds"))
        .select_from(t.person.outerjoin(t.phone, phone.id == own)
                     .outerjoin(t.batch, batch.id == open_batch))
        .where(person.cooperative_id == bindparam("cooperative", type_=Integer),
               person.id > bindparam("after", type_=Integer),
               or_(phone.id.is_not(None), batch.id.is_not(None)))
        .order_by(person.id)
        .limit(bindparam("most", type_=Integer))
    )  # fmt: skip


_LISTED = _listed()


def _digits(wanted: str) -> str:
    """The digits of a number as it may be typed: 0700 000 001 ends a number as 700000001."""
    digits = "".join(one for one in wanted if one.isdigit())
    if len(digits) >= WITH_AREA:
        digits = digits.lstrip("0")
    return digits if len(digits) >= LEAST_DIGITS else ""


def batch_of_entry(
    connection: Connection, cooperative_id: int, entry_id: int
) -> tuple[int, int | None] | None:
    """The batch that an entry stands in, and whose it is; None where the cooperative has no such
    entry. One statement."""
    row = connection.execute(
        select(t.batch.c.id, t.batch.c.person_id)
        .select_from(t.event.join(t.batch).join(t.phone, t.phone.c.id == t.batch.c.phone_id))
        .where(t.event.c.id == entry_id, t.phone.c.cooperative_id == cooperative_id)
    ).first()
    return None if row is None else (row.id, row.person_id)


def put_entry(
    connection: Connection, batch_id: int, was: Event, values: dict[str, object], now: datetime
) -> None:
    """An entry that stands for another one; the batch is looked at by the next tick."""
    connection.execute(
        insert(t.event).values(
            batch_id=batch_id, kind=was.kind, on_date=was.on_date, at=now, data=values
        )
    )
    _look_again(connection, batch_id, now)


def take_back(connection: Connection, batch_id: int, entry_id: int, now: datetime) -> None:
    """An entry counts no more; it stays in the record, marked."""
    connection.execute(
        update(t.event)
        .where(t.event.c.id == entry_id, t.event.c.batch_id == batch_id)
        .values(undone_at=now)
    )
    _look_again(connection, batch_id, now)


def release(connection: Connection, batch_id: int, now: datetime) -> None:
    """The hold of a batch ends: a vet has cleared it."""
    connection.execute(
        update(t.batch).where(t.batch.c.id == batch_id).values(held=False, next_due=now)
    )


def _look_again(connection: Connection, batch_id: int, now: datetime) -> None:
    connection.execute(
        update(t.batch)
        .where(t.batch.c.id == batch_id, t.batch.c.state != "closed")
        .values(next_due=now)
    )
