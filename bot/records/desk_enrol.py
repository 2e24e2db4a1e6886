"""Lists of farms at the desk: what is known of their phones and members, the list that waits for
its confirmation, and what a confirmed one writes. In: a connection inside a transaction, a
cooperative. Called by turn.enrol and the page "Enrol".
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from bot.cooperative.enrol import DETAILS, Known, Outcome, People, as_json, from_json
from bot.records import tables as t
from bot.records.marks import mark_of
from bot.records.people import leave_number

AT_ONCE = 1000  # values in one statement
KEPT = timedelta(days=1)  # a list, with its outcomes
HOW, WORDING = "list of the cooperative", "ask_join"


@dataclass(frozen=True, slots=True)
class Tried:
    """A list as it was tried. digest: of its file. unused: headings that nothing was taken from."""

    digest: str
    outcomes: Sequence[Outcome]
    unused: str = ""


@dataclass(frozen=True, slots=True)
class Kept:
    """A list that is kept, tried or carried out (done_at)."""

    id: int
    digest: str
    outcomes: tuple[Outcome, ...]
    unused: str
    made_at: datetime
    done_at: datetime | None


@dataclass(frozen=True, slots=True)
class Invited:
    """A phone that a list invites."""

    phone_id: int
    number: str
    language: str


def people_for(
    connection: Connection,
    cooperative_id: int,
    numbers: Collection[str],
    members: Collection[str],
    key: bytes,
) -> People:
    """What a list with these numbers and member numbers is held against."""
    marks = {mark_of(number, key): number for number in numbers}
    known: dict[int, Known] = {}
    shut: set[str] = set()
    for some in _in_parts([*numbers, *marks]):
        for row in connection.execute(_KNOWN.where(t.phone.c.number.in_(some))):
            if row.number in marks or row.cooperative_id != cooperative_id:
                shut.add(marks.get(row.number, row.number))
            else:
                known[row.id] = _known(row)
    ours = t.person.c.cooperative_id == cooperative_id
    for some in _in_parts(list(members)):
        for row in connection.execute(_KNOWN.where(ours, t.person.c.member_number.in_(some))):
            known[row.id] = _known(row)
    return People(tuple(known.values()), frozenset(shut))


_KNOWN = select(
    t.phone.c.id,
    t.phone.c.number,
    t.phone.c.cooperative_id,
    t.phone.c.consent,
    t.phone.c.person_id,
    t.person.c.name,
    t.person.c.member_number,
    t.person.c.language,
    t.person.c.place,
).select_from(t.phone.outerjoin(t.person, t.person.c.id == t.phone.c.person_id))


def _known(row: Any) -> Known:
    return Known(
        row.id, row.number, row.consent, row.person_id, row.name, row.member_number,
        row.language, row.place,
    )  # fmt: skip


def _in_parts(values: Sequence[str]) -> Iterator[Sequence[str]]:
    return (values[at : at + AT_ONCE] for at in range(0, len(values), AT_ONCE))


def add_guests(
    connection: Connection,
    cooperative_id: int,
    language: str,
    outcomes: Sequence[Outcome],
    now: datetime,
) -> list[Invited]:
    """People and phones for the new rows, each invited; language: for rows that name none."""
    farms = [one.farm for one in outcomes if one.farm is not None]
    if not farms:
        return []
    people = [
        {
            "cooperative_id": cooperative_id,
            "language": farm.language or language,
            "name": farm.name,
            "member_number": farm.member,
            "place": farm.place,
            "created_at": now,
        }
        for farm in farms
    ]
    made = insert(t.person).returning(t.person.c.id, sort_by_parameter_order=True)
    ids = connection.execute(made, people).scalars().all()
    return _add_phones(
        connection,
        cooperative_id,
        [
            (person_id, farm.number, farm.language or language)
            for person_id, farm in zip(ids, farms, strict=True)
        ],
        now,
    )


def move_guests(
    connection: Connection, cooperative_id: int, outcomes: Sequence[Outcome], now: datetime
) -> list[Invited]:
    """Somebody who never agreed is asked on another phone; what waits for the first one is
    cancelled, and its number is a stranger's from now on."""
    held: list[tuple[int, str, str]] = []
    for one in outcomes:
        if one.farm is None or one.known is None or one.known.person_id is None:
            continue
        old = one.known
        former = leave_number(connection, old.phone_id, old.number, now)
        changed = update(t.phone).where(t.phone.c.id == old.phone_id)
        connection.execute(changed.values(number=former, consent="stopped", person_id=None))
        connection.execute(
            update(t.outbox)
            .where(t.outbox.c.phone_id == old.phone_id, t.outbox.c.state == "waiting")
            .values(state="cancelled")
        )
        connection.execute(
            update(t.question)
            .where(t.question.c.phone_id == old.phone_id, t.question.c.closed_at.is_(None))
            .values(closed_at=now)
        )
        language = one.farm.language or old.language or ""
        held.append((one.known.person_id, one.farm.number, language))
    return _add_phones(connection, cooperative_id, held, now)


def _add_phones(
    connection: Connection,
    cooperative_id: int,
    held: Sequence[tuple[int, str, str]],
    now: datetime,
) -> list[Invited]:
    if not held:
        return []
    phones = [
        {
            "cooperative_id": cooperative_id,
            "person_id": person_id,
            "number": number,
            "consent": "invited",
            "invited_at": now,
            "created_at": now,
        }
        for person_id, number, _ in held
    ]
    made = insert(t.phone).returning(t.phone.c.id, sort_by_parameter_order=True)
    ids = connection.execute(made, phones).scalars().all()
    asked = [
        Invited(phone_id, number, language)
        for phone_id, (_, number, language) in zip(ids, held, strict=True)
    ]
    connection.execute(
        insert(t.consent_record),
        [
            {
                "phone_id": one.phone_id, "state": "invited", "how": HOW,
                "language": one.language, "wording": WORDING, "channel": "sms", "at": now,
            }
            for one in asked
        ],
    )  # fmt: skip
    return asked


def change_people(connection: Connection, outcomes: Sequence[Outcome]) -> None:
    """What the list says otherwise of people who are known."""
    rows = []
    for one in outcomes:
        details = [change for change in one.changes if change.column in DETAILS]
        if one.known is not None and one.known.person_id is not None and details:
            said = {change.column: change.after for change in details}
            row = {column: said.get(column, getattr(one.known, column)) for column in DETAILS}
            rows.append({f"its_{column}": value for column, value in row.items()}
                        | {"person": one.known.person_id})  # fmt: skip
    if rows:
        connection.execute(_CHANGE, rows)


_CHANGE = (
    update(t.person)
    .where(t.person.c.id == bindparam("person"))
    .values(
        name=bindparam("its_name"),
        member_number=bindparam("its_member"),
        language=bindparam("its_language"),
        place=bindparam("its_place"),
    )
)


def keep_list(connection: Connection, cooperative_id: int, tried: Tried, now: datetime) -> int:
    """Keep a tried list until it is confirmed, for a day at most; lists of earlier days go."""
    connection.execute(delete(t.enrolment).where(t.enrolment.c.made_at < now - KEPT))
    made = connection.execute(
        insert(t.enrolment).values(
            cooperative_id=cooperative_id,
            digest=tried.digest,
            outcomes=as_json(tried.outcomes),
            unused=tried.unused[:200],
            made_at=now,
        )
    ).inserted_primary_key
    assert made is not None
    return int(made[0])


def list_of(
    connection: Connection, cooperative_id: int, list_id: int, now: datetime, *, lock: bool = False
) -> Kept | None:
    """A list of this cooperative; None where there is none, or its day is over. lock: nobody else
    may confirm it meanwhile."""
    query = select(t.enrolment).where(
        t.enrolment.c.id == list_id,
        t.enrolment.c.cooperative_id == cooperative_id,
        t.enrolment.c.made_at >= now - KEPT,
    )
    row = connection.execute(query.with_for_update() if lock else query).first()
    if row is None:
        return None
    outcomes = tuple(from_json(row.outcomes))
    return Kept(row.id, row.digest, outcomes, row.unused, row.made_at, row.done_at)


def change_list(
    connection: Connection,
    list_id: int,
    outcomes: Sequence[Outcome],
    done_at: datetime | None,
) -> None:
    """Keep other outcomes of a list, or that it was carried out."""
    connection.execute(
        update(t.enrolment)
        .where(t.enrolment.c.id == list_id)
        .values(outcomes=as_json(outcomes), done_at=done_at)
    )


def drop_lists(connection: Connection, person_id: int) -> None:
    """No list is kept that may name a person of this cooperative who wishes to be forgotten."""
    theirs = select(t.person.c.cooperative_id).where(t.person.c.id == person_id).scalar_subquery()
    connection.execute(delete(t.enrolment).where(t.enrolment.c.cooperative_id == theirs))
