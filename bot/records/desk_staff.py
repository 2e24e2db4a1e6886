"""Staff of the desk and their sessions. In: a connection inside a transaction, the cooperative.
Called by the desk's sign-in, the page "Who may" and `broodpost staff`.

Of a session only the hash of its token is kept; whoever reads the database can't sign in with it.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import (
    Connection,
    Row,
    bindparam,
    delete,
    func,
    insert,
    literal,
    or_,
    select,
    update,
)
from sqlalchemy.exc import IntegrityError

from bot.cooperative.may import IDLE, LONGEST, NOTED_EVERY, Role, Signed, as_role, is_open
from bot.records import tables as t
from bot.records.case import COOPERATIVE, cooperative_from


@dataclass(frozen=True, slots=True)
class Member:
    """One of the staff, as the page "Who may" lists them. seen_at: None where never."""

    id: int
    cooperative_id: int
    name: str
    sign_in: str
    role: Role
    language: str
    fresh: bool
    second: bool
    disabled: bool
    seen_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Lock:
    """What a password or a code is held against."""

    staff_id: int
    cooperative_id: int
    password: str
    disabled: bool
    second_sealed: str | None
    second_since: datetime | None
    second_step: int


@dataclass(frozen=True, slots=True)
class NewMember:
    """Somebody to be let in. password: its hash."""

    name: str
    sign_in: str
    password: str
    role: Role
    language: str


def tidy_sign_in(text: str) -> str:
    """A sign-in name as it is kept: small letters, no spaces around."""
    return text.strip().lower()


# Made once: building it costs a page more than asking it.
_MEMBERS = (
    select(
        t.staff,
        select(func.max(t.staff_session.c.seen_at, type_=t.Moment()))
        .where(t.staff_session.c.staff_id == t.staff.c.id)
        .scalar_subquery()
        .label("seen_at"),
    )
    .where(t.staff.c.cooperative_id == bindparam("own"))
    .order_by(t.staff.c.disabled, t.staff.c.name, t.staff.c.id)
)


def members(connection: Connection, cooperative_id: int) -> list[Member]:
    """All staff of a cooperative, by name; the disabled last."""
    rows = connection.execute(_MEMBERS, {"own": cooperative_id})
    return [_member(row, row.seen_at) for row in rows]


def member(connection: Connection, cooperative_id: int, staff_id: int) -> Member | None:
    """One of a cooperative's staff; None where it has none of that number."""
    row = connection.execute(
        select(t.staff).where(t.staff.c.id == staff_id, t.staff.c.cooperative_id == cooperative_id)
    ).first()
    return None if row is None else _member(row, None)


def member_named(connection: Connection, sign_in: str) -> Member | None:
    """Whoever signs in by that name, in any cooperative: for the command line."""
    row = connection.execute(
        select(t.staff).where(t.staff.c.sign_in == tidy_sign_in(sign_in))
    ).first()
    return None if row is None else _member(row, None)


def _member(row: Row[Any], seen_at: datetime | None) -> Member:
    return Member(
        id=row.id,
        cooperative_id=row.cooperative_id,
        name=row.name,
        sign_in=row.sign_in,
        role=_role(row.role),
        language=row.language,
        fresh=row.fresh,
        second=row.second_since is not None,
        disabled=row.disabled,
        seen_at=seen_at,
    )


def _role(text: str) -> Role:
    role = as_role(text)
    if role is None:
        raise ValueError(f"{text!r} is no role")
    return role


def add_member(
    connection: Connection, cooperative_id: int, new: NewMember, now: datetime
) -> int | None:
    """Let somebody in; returns their number, None where the sign-in name is taken."""
    try:
        with connection.begin_nested():
            made = connection.execute(
                insert(t.staff).values(
                    cooperative_id=cooperative_id,
                    name=new.name,
                    sign_in=tidy_sign_in(new.sign_in),
                    password=new.password,
                    role=new.role,
                    language=new.language,
                    created_at=now,
                )
            ).inserted_primary_key
    except IntegrityError:
        return None
    assert made is not None
    return int(made[0])


def change_member(
    connection: Connection, cooperative_id: int, staff_id: int, **values: object
) -> None:
    """Change a row of the staff: role, language, disabled, password, fresh ..."""
    connection.execute(
        update(t.staff)
        .where(t.staff.c.id == staff_id, t.staff.c.cooperative_id == cooperative_id)
        .values(**values)
    )


def renew(connection: Connection, cooperative_id: int, staff_id: int, password: str) -> None:
    """A new password is given out; the second factor is set up anew, and every session ends."""
    change_member(
        connection,
        cooperative_id,
        staff_id,
        password=password,
        fresh=True,
        second_sealed=None,
        second_since=None,
    )
    end_sessions(connection, staff_id)


def lock_of(connection: Connection, sign_in: str) -> Lock | None:
    """What the password of that name is held against."""
    return _lock(connection, t.staff.c.sign_in == tidy_sign_in(sign_in))


def own_lock(connection: Connection, staff_id: int) -> Lock:
    """The same of somebody who is signed in; on PostgreSQL nobody else changes it meanwhile."""
    found = _lock(connection, t.staff.c.id == staff_id)
    assert found is not None
    return found


def _lock(connection: Connection, condition: Any) -> Lock | None:
    row = connection.execute(select(t.staff).where(condition).with_for_update()).first()
    if row is None:
        return None
    return Lock(
        staff_id=row.id,
        cooperative_id=row.cooperative_id,
        password=row.password,
        disabled=row.disabled,
        second_sealed=row.second_sealed,
        second_since=row.second_since,
        second_step=row.second_step,
    )


def hash_of(token: str) -> str:
    """What is kept of a session's token, which holds 256 random bits."""
    return hashlib.sha256(token.encode()).hexdigest()


def open_session(
    connection: Connection, staff_id: int, token: str, now: datetime, *, proved: bool = False
) -> None:
    """Begin a session; those of this person that are over go. proved: with the second factor."""
    over = or_(t.staff_session.c.ends_at <= now, t.staff_session.c.seen_at <= now - IDLE)
    connection.execute(delete(t.staff_session).where(t.staff_session.c.staff_id == staff_id, over))
    connection.execute(
        insert(t.staff_session).values(
            token_hash=hash_of(token),
            staff_id=staff_id,
            proved=proved,
            made_at=now,
            seen_at=now,
            ends_at=now + LONGEST,
        )
    )


# Made once: it is asked at every page.
_SIGNED_IN = (
    select(
        t.staff,
        t.staff_session.c.id.label("session_id"),
        t.staff_session.c.proved,
        t.staff_session.c.seen_at,
        t.staff_session.c.ends_at,
        COOPERATIVE,
    )
    .select_from(t.staff_session.join(t.staff).join(t.cooperative))
    .where(t.staff_session.c.token_hash == bindparam("hash"), t.staff.c.disabled.is_(False))
)


def signed_in(connection: Connection, token: str, now: datetime) -> Signed | None:
    """Who holds this token; None where the session is over or the person may no longer. One
    statement."""
    row = connection.execute(_SIGNED_IN, {"hash": hash_of(token)}).first()
    if row is None or not is_open(row.seen_at, row.ends_at, now):
        return None
    return Signed(
        session_id=row.session_id,
        staff_id=row.id,
        name=row.name,
        sign_in=row.sign_in,
        role=_role(row.role),
        language=row.language,
        cooperative=cooperative_from(row.cooperative),
        fresh=row.fresh,
        second=row.second_since is not None,
        proved=row.proved,
        seen_at=row.seen_at,
        ends_at=row.ends_at,
    )


def is_to_note(who: Signed, now: datetime) -> bool:
    """Whether the use of the session is to be written down again."""
    return now - who.seen_at >= NOTED_EVERY


def note_use(connection: Connection, session_id: int, now: datetime) -> None:
    """The session is in use."""
    connection.execute(
        update(t.staff_session).where(t.staff_session.c.id == session_id).values(seen_at=now)
    )


def end_session(connection: Connection, session_id: int) -> None:
    """Sign out."""
    connection.execute(delete(t.staff_session).where(t.staff_session.c.id == session_id))


def end_sessions(connection: Connection, staff_id: int, but: int | None = None) -> None:
    """Sign somebody out everywhere. but: not in this session."""
    mine = delete(t.staff_session).where(t.staff_session.c.staff_id == staff_id)
    connection.execute(mine if but is None else mine.where(t.staff_session.c.id != but))


def set_second(connection: Connection, staff_id: int, sealed: str) -> None:
    """A second factor, sealed, that is still to be proved."""
    connection.execute(
        update(t.staff)
        .where(t.staff.c.id == staff_id, t.staff.c.second_since.is_(None))
        .values(second_sealed=sealed)
    )


def prove(connection: Connection, who: Signed, step: int, now: datetime) -> None:
    """The second factor was shown in this session, by the code of that step."""
    since = func.coalesce(t.staff.c.second_since, literal(now, t.Moment()))
    connection.execute(
        update(t.staff)
        .where(t.staff.c.id == who.staff_id)
        .values(second_step=step, second_since=since)
    )
    connection.execute(
        update(t.staff_session).where(t.staff_session.c.id == who.session_id).values(proved=True)
    )
