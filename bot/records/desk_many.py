"""What the desk says to many: to whom, the texts in the outbox, what became of them. In: a
connection inside a transaction, the cooperative's id. Called by the page "Say to many"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from sqlalchemy import Connection, func, insert, or_, select, update

from bot.cooperative.many import Wish
from bot.records import tables as t
from bot.records.desk_farms import LETTER
from bot.records.outbox_rows import Text, put

KEPT = timedelta(days=1)
TWICE = timedelta(minutes=10)  # the same text again within these is the same form, sent twice
PAST = 20


@dataclass(frozen=True, slots=True)
class Circular:
    """One thing said to many. parts: of the text. by, agreed: who wrote it, who agreed."""

    id: int
    staff_id: int
    by: str
    agreed: str | None
    text: str
    parts: int
    people: int
    state: str
    made_at: datetime


def places(connection: Connection, cooperative_id: int) -> list[str]:
    """The places of a cooperative's farmers. One statement."""
    row = t.person.c
    found = connection.execute(
        select(row.place)
        .where(row.cooperative_id == cooperative_id, row.place.is_not(None), row.place != "")
        .distinct()
        .order_by(row.place)
    )
    return [str(place) for place in found.scalars()]


def phones_meant(
    connection: Connection, cooperative_id: int, wish: Wish, today: date, now: datetime
) -> list[int]:
    """The phones that joined, work and are meant. One statement."""
    phone, person, batch = t.phone.c, t.person.c, t.batch.c
    query = (
        select(phone.id)
        .select_from(t.phone.join(t.person, person.id == phone.person_id))
        .where(
            phone.cooperative_id == cooperative_id,
            phone.consent == "active",
            phone.suspended.is_(False),
            or_(phone.muted_until.is_(None), phone.muted_until <= now),
        )
        .order_by(phone.id)
    )
    if wish.place:
        query = query.where(person.place == wish.place)
    if wish.language:
        query = query.where(person.language == wish.language)
    placed = wish.placed_between(today)
    if placed is not None:
        running = select(batch.phone_id).where(
            batch.state == "running", batch.placed_on.between(*placed)
        )
        query = query.where(phone.id.in_(running))
    return list(connection.execute(query).scalars())


def just_kept(
    connection: Connection, cooperative_id: int, staff_id: int, text: str, people: int,
    now: datetime,
) -> int | None:  # fmt: skip
    """What this person has just said to as many in the same words, unless it was stopped. The
    cooperative must be held: two forms of one click come at the same time. One statement."""
    row = t.circular.c
    same = (row.staff_id == staff_id, row.text == text, row.people == people)
    return connection.execute(
        select(row.id)
        .where(row.cooperative_id == cooperative_id, *same)
        .where(row.made_at > now - TWICE, row.state != "stopped")
        .order_by(row.id.desc())
        .limit(1)
    ).scalar()


def keep_circular(
    connection: Connection,
    cooperative_id: int,
    staff_id: int,
    text: str,
    parts: int,
    phones: Sequence[int],
    now: datetime,
) -> int:
    """Write it down with those it is meant for; it waits. Two statements."""
    made = connection.execute(
        insert(t.circular).values(
            cooperative_id=cooperative_id, staff_id=staff_id, text=text, parts=parts,
            people=len(phones), state="waits", made_at=now,
        )
    ).inserted_primary_key  # fmt: skip
    assert made is not None
    circular = int(made[0])
    rows = [
        {"business_key": f"{LETTER}many:{circular}:{one}", "circular_id": circular, "phone_id": one}
        for one in phones
    ]
    connection.execute(insert(t.addressee), rows)
    return circular


def send_circular(
    connection: Connection, cooperative_id: int, circular_id: int, agreed_by: int | None,
    goes_at: datetime, now: datetime,
) -> bool:  # fmt: skip
    """Put it into the outbox for everybody it was meant for who still wants texts. False where it
    waits no more. Three statements."""
    row = t.circular.c
    changed = connection.execute(
        update(t.circular)
        .where(row.id == circular_id, row.cooperative_id == cooperative_id, row.state == "waits")
        .values(state="goes", sent_at=now, agreed_by=agreed_by)
    )
    if changed.rowcount != 1:
        return False
    found = connection.execute(
        select(t.addressee.c.business_key, t.phone.c.id, t.phone.c.number, row.text)
        .select_from(t.addressee.join(t.phone).join(t.circular))
        .where(
            t.addressee.c.circular_id == circular_id,
            t.phone.c.consent == "active",
            t.phone.c.suspended.is_(False),
        )
    ).all()
    put(
        connection,
        *(
            Text(one.business_key, one.id, one.number, "system", one.text, now,
                 expires_at=goes_at + KEPT, not_before=goes_at)
            for one in found
        ),
    )  # fmt: skip
    return True


def stop_circular(connection: Connection, cooperative_id: int, circular_id: int) -> int | None:
    """What has not gone yet does not go; how many texts that were. None where the cooperative has
    none of that number. Two statements."""
    row = t.circular.c
    changed = connection.execute(
        update(t.circular)
        .where(row.id == circular_id, row.cooperative_id == cooperative_id)
        .values(state="stopped")
    )
    if changed.rowcount != 1:
        return None
    keys = select(t.addressee.c.business_key).where(t.addressee.c.circular_id == circular_id)
    stopped = connection.execute(
        update(t.outbox)
        .where(t.outbox.c.business_key.in_(keys), t.outbox.c.state == "waiting")
        .values(state="cancelled")
    )
    return stopped.rowcount


def circulars(
    connection: Connection, cooperative_id: int, circular_id: int | None = None
) -> list[Circular]:
    """The last ones, newest first; or the one of that number. One statement."""
    row, agreed = t.circular.c, t.staff.alias("agreed")
    query = (
        select(t.circular, t.staff.c.name.label("by"), agreed.c.name.label("agreed"))
        .select_from(
            t.circular.join(t.staff, t.staff.c.id == row.staff_id).outerjoin(
                agreed, agreed.c.id == row.agreed_by
            )
        )
        .where(row.cooperative_id == cooperative_id)
        .order_by(row.id.desc())
        .limit(PAST)
    )
    if circular_id is not None:
        query = query.where(row.id == circular_id)
    return [
        Circular(one.id, one.staff_id, one.by, one.agreed, one.text, one.parts, one.people,
                 one.state, one.made_at)
        for one in connection.execute(query)
    ]  # fmt: skip


def delivery(connection: Connection, circular_id: int) -> list[tuple[str, int]]:
    """How many texts of it are in which state. One statement."""
    found = connection.execute(
        select(t.outbox.c.state, func.count().label("many"))
        .select_from(
            t.addressee.join(t.outbox, t.outbox.c.business_key == t.addressee.c.business_key)
        )
        .where(t.addressee.c.circular_id == circular_id)
        .group_by(t.outbox.c.state)
        .order_by(t.outbox.c.state)
    )
    return [(str(state), int(many)) for state, many in found]
