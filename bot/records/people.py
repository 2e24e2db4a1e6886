"""People and phones: who is reached where, and in which role. In: a connection inside a
transaction. Called by records.apply, outbox.numbers, the adviser's commands and the desk.

A phone is held by one person and may serve others' birds too (contact): a caretaker's phone serves
its employer, two farmers share one. A batch has an owner, and one phone its daily texts go to; its
owner may hold another. Nobody is written to before their phone agreed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, Row, and_, func, insert, or_, select, update

from bot.facts.farm import Case
from bot.records import tables as t
from bot.records.marks import mark_of

ASK_AGAIN = timedelta(days=7)  # a refusal or silence stands so long
REMIND = timedelta(days=1)
OPEN = t.batch.c.state != "closed"


@dataclass(frozen=True, slots=True)
class Reached:
    """A phone that a text goes to. contact_id: what it is asked to agree to."""

    phone_id: int
    number: str
    language: str
    contact_id: int | None = None


@dataclass(frozen=True, slots=True)
class OwnerPhone:
    """A phone that the owner of a batch reads. daily: the batch's daily texts go there too."""

    phone_id: int
    number: str
    language: str
    name: str | None
    daily: bool


def owner_phones(
    connection: Connection, batch_ids: Collection[int]
) -> dict[int, tuple[OwnerPhone, ...]]:
    """By batch, the active phones of its owner: those they hold, and those shared with them."""
    row = t.batch.c
    shared = select(t.contact.c.phone_id).where(
        t.contact.c.person_id == row.person_id,
        t.contact.c.role == "owner",
        t.contact.c.state == "active",
    )
    found = connection.execute(
        select(
            row.id.label("batch_id"),
            row.phone_id.label("daily"),
            t.phone.c.id,
            t.phone.c.number,
            t.person.c.language,
            t.person.c.name,
        )
        .select_from(t.batch)
        .join(t.person, t.person.c.id == row.person_id)
        .join(t.phone, or_(t.phone.c.person_id == row.person_id, t.phone.c.id.in_(shared)))
        .where(row.id.in_(batch_ids), t.phone.c.consent == "active", t.phone.c.suspended.is_(False))
        .order_by(row.id, t.phone.c.id.desc())
    )
    phones: dict[int, list[OwnerPhone]] = defaultdict(list)
    for one in found:
        daily = one.daily == one.id
        phones[one.batch_id].append(OwnerPhone(one.id, one.number, one.language, one.name, daily))
    return {batch_id: tuple(rows) for batch_id, rows in phones.items()}


def ask_caretaker(
    connection: Connection, case: Case, number: str, name: str | None
) -> Reached | None:
    """Ask the phone of that number to look after this person's birds. None where nothing may go
    there: it stopped, it is no good, it agreed already, or it was asked lately."""
    assert case.person is not None
    owner, now = case.person.id, case.now
    row = connection.execute(
        select(
            t.phone,
            t.person.c.language,
            t.contact.c.id.label("contact_id"),
            t.contact.c.state,
            t.contact.c.at,
        )
        .select_from(
            t.phone.outerjoin(t.person).outerjoin(
                t.contact,
                and_(t.contact.c.phone_id == t.phone.c.id, t.contact.c.person_id == owner),
            )
        )
        .where(t.phone.c.number.in_((number, mark_of(number, case.key))))
    ).first()
    if row is None:
        phone_id = _invite_new(connection, case, number, name)
        contact_id = keep_contact(connection, owner, phone_id, "caretaker", "asked", now)
        return Reached(phone_id, number, case.language, contact_id)
    language = row.language or case.language
    if not _may_be_asked(row, case) or not _invited(connection, row, case, language, name):
        return None
    contact_id = keep_contact(connection, owner, row.id, "caretaker", "asked", now)
    return Reached(row.id, number, language, contact_id)


def _may_be_asked(row: Row[Any], case: Case) -> bool:
    """Whether this owner's question may go to the phone now."""
    if row.consent == "stopped" or row.suspended or row.cooperative_id != case.cooperative.id:
        return False
    if row.contact_id is None:
        return True
    silent = row.state == "asked" and row.consent == "invited"
    return bool(row.state != "active" and case.now - row.at >= (REMIND if silent else ASK_AGAIN))


def _invite_new(connection: Connection, case: Case, number: str, name: str | None) -> int:
    cooperative = case.cooperative.id
    made = insert(t.phone).values(
        cooperative_id=cooperative,
        person_id=add_person(connection, cooperative, case.language, name, case.now),
        number=number,
        consent="invited",
        invited_at=case.now,
        created_at=case.now,
    )
    return _made(connection, made)


def _invited(
    connection: Connection, row: Row[Any], case: Case, language: str, name: str | None
) -> bool:
    """Whether a known phone may get the question: one that never agreed gets one and, a day later
    at the earliest, one more, whoever asks."""
    if row.consent == "active":
        return True
    changes: dict[str, object] = {"consent": "invited"}
    if row.person_id is None:
        changes["person_id"] = add_person(connection, case.cooperative.id, language, name, case.now)
    if row.invited_at is None:
        changes["invited_at"] = case.now
    elif row.reminded_at is None and case.now - row.invited_at >= REMIND:
        changes["reminded_at"] = case.now
    else:
        return False
    connection.execute(update(t.phone).where(t.phone.c.id == row.id).values(**changes))
    return True


def care_here(connection: Connection, person_id: int, phone_id: int, now: datetime) -> None:
    """Owner and caretaker use one phone."""
    keep_contact(connection, person_id, phone_id, "caretaker", "active", now)


def answer_care(
    connection: Connection, contact_id: int, now: datetime, *, agreed: bool
) -> list[Reached]:
    """The asked phone's yes or no. After a yes the owner's daily texts go there. The owner's other
    phones are given back, so that they are told."""
    contact = connection.execute(select(t.contact).where(t.contact.c.id == contact_id)).one()
    _set_state(connection, contact_id, "active" if agreed else "ended", now)
    if agreed:
        hand_over(connection, contact.person_id, contact.phone_id, now)
        connection.execute(
            update(t.phone)
            .where(t.phone.c.id == contact.phone_id, t.phone.c.person_id.is_(None))
            .values(person_id=contact.person_id)
        )
    return phones_of(connection, contact.person_id, but=contact.phone_id)


def end_care(connection: Connection, person_id: int, phone_id: int, now: datetime) -> None:
    """Nobody looks after these birds but their owner, at the phone given."""
    connection.execute(
        update(t.contact)
        .where(
            t.contact.c.person_id == person_id,
            t.contact.c.role == "caretaker",
            t.contact.c.state != "ended",
        )
        .values(state="ended", at=now)
    )
    hand_over(connection, person_id, phone_id, now)


def set_owner(connection: Connection, case: Case, batch_id: int, name: str) -> None:
    """The batch belongs to a person of that name who shares this phone; they are made where the
    phone knows none of that name."""
    holder = case.person
    if holder is not None and (holder.name or "").lower() == name.lower():
        owner_id = holder.id
    else:
        known = connection.execute(
            select(t.person.c.id)
            .join(t.contact)
            .where(
                t.contact.c.phone_id == case.phone.id,
                t.contact.c.state == "active",
                func.lower(t.person.c.name) == name.lower(),
            )
        ).scalar()
        owner_id = known or add_person(
            connection, case.cooperative.id, case.language, name, case.now
        )
        keep_contact(connection, owner_id, case.phone.id, "owner", "active", case.now)
    connection.execute(
        update(t.batch)
        .where(t.batch.c.id == batch_id)
        .values(person_id=owner_id, next_due=case.now)
    )


def leave_number(connection: Connection, phone_id: int, number: str, now: datetime) -> str:
    """The number is in other hands: its phone keeps the farmer's record under a name of the past,
    which is given back, so that the number is a stranger's from now on."""
    hand_back(connection, phone_id, now)
    end_contacts(connection, phone_id, now)
    earlier = connection.execute(
        select(func.count()).select_from(t.phone).where(t.phone.c.number.like(f"{number}~%"))
    ).scalar_one()
    return f"{number}~{earlier + 1}"


def hand_over(connection: Connection, person_id: int, phone_id: int, now: datetime) -> None:
    """The open batches of a person are texted on that phone."""
    connection.execute(
        update(t.batch)
        .where(t.batch.c.person_id == person_id, OPEN, t.batch.c.phone_id != phone_id)
        .values(phone_id=phone_id, next_due=now)
    )


def hand_back(connection: Connection, phone_id: int, now: datetime) -> None:
    """A phone that gets no more texts gives the batches it serves to another active phone of their
    owners, where there is one."""
    owners = connection.execute(
        select(t.batch.c.person_id)
        .where(t.batch.c.phone_id == phone_id, OPEN, t.batch.c.person_id.is_not(None))
        .distinct()
    ).scalars()
    for owner in owners.all():
        for other in phones_of(connection, owner, but=phone_id)[:1]:
            connection.execute(
                update(t.batch)
                .where(t.batch.c.person_id == owner, t.batch.c.phone_id == phone_id, OPEN)
                .values(phone_id=other.phone_id, next_due=now)
            )


def end_contacts(connection: Connection, phone_id: int, now: datetime) -> None:
    """The phone serves nobody else's birds any more."""
    connection.execute(
        update(t.contact)
        .where(t.contact.c.phone_id == phone_id, t.contact.c.state != "ended")
        .values(state="ended", at=now)
    )


def phones_of(connection: Connection, person_id: int, *, but: int) -> list[Reached]:
    """The active phones of a person, the newest first: held, or shared as an owner. but: not this
    one."""
    shared = select(t.contact.c.phone_id).where(
        t.contact.c.person_id == person_id,
        t.contact.c.role == "owner",
        t.contact.c.state == "active",
    )
    language = select(t.person.c.language).where(t.person.c.id == person_id).scalar_subquery()
    rows = connection.execute(
        select(t.phone.c.id, t.phone.c.number, language.label("language"))
        .where(
            or_(t.phone.c.person_id == person_id, t.phone.c.id.in_(shared)),
            t.phone.c.id != but,
            t.phone.c.consent == "active",
            t.phone.c.suspended.is_(False),
        )
        .order_by(t.phone.c.id.desc())
    ).all()
    return [Reached(row.id, row.number, row.language) for row in rows]


def add_person(
    connection: Connection, cooperative_id: int, language: str, name: str | None, now: datetime
) -> int:
    """A person of a cooperative; returns the id."""
    return _made(
        connection,
        insert(t.person).values(
            cooperative_id=cooperative_id, language=language, name=name, created_at=now
        ),
    )


def keep_contact(
    connection: Connection, person_id: int, phone_id: int, role: str, state: str, now: datetime
) -> int:
    """The contact of a person's birds and a phone, in this state; returns its id."""
    known = connection.execute(
        select(t.contact.c.id).where(
            t.contact.c.person_id == person_id, t.contact.c.phone_id == phone_id
        )
    ).scalar()
    if known is not None:
        _set_state(connection, known, state, now)
        return int(known)
    made = insert(t.contact).values(
        person_id=person_id, phone_id=phone_id, role=role, state=state, at=now
    )
    return _made(connection, made)


def _set_state(connection: Connection, contact_id: int, state: str, now: datetime) -> None:
    connection.execute(
        update(t.contact).where(t.contact.c.id == contact_id).values(state=state, at=now)
    )


def _made(connection: Connection, statement: Any) -> int:
    made = connection.execute(statement).inserted_primary_key
    assert made is not None
    return int(made[0])
