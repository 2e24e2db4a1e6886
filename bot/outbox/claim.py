"""Takes texts out of the outbox to be sent, so that no one else takes them. In: a database, the
moment, how many. Out: `Claimed` rows under a lease. Called by outbox.dispatch.

A phone has at most one text under way: the most urgent, and of those the oldest. A text that waits
for its next attempt, or whose answer was lost, holds back the later ones of its phone, so that a
farmer reads them in order; danger does not wait for a lost answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Integer,
    Select,
    String,
    and_,
    bindparam,
    cast,
    exists,
    literal,
    literal_column,
    or_,
    select,
    update,
)

from bot.outbox.retry import LEASE, PRIORITY, URGENT
from bot.records import tables as t
from bot.records.session import Database
from bot.records.spending import month
from bot.say.plain import plain


@dataclass(frozen=True, slots=True)
class Claimed:
    """One text under lease, or one whose answer was lost. lease: names this very claim."""

    id: int
    phone_id: int
    to: str
    klass: str
    text: str
    attempt: int
    created_at: datetime
    expires_at: datetime | None
    lease: str
    claimed_at: datetime
    parts: int = 1
    cooperative_id: int = 0

    def body(self) -> str:
        """The text as it is sent: proofread once more."""
        return plain(self.text)


def sweep(db: Database, now: datetime) -> None:
    """Before sending: drop what is stale or unwanted, and find leases whose holder died. A lease
    that ends too far ahead was made by a clock that has been set back."""
    row = t.outbox.c
    stopped = select(t.phone.c.id).where(t.phone.c.consent == "stopped")
    lost = or_(row.lease_until < now, row.lease_until > now + 2 * LEASE)
    with db.write() as connection:
        for condition, values in (
            (and_(row.state == "waiting", row.expires_at <= now), {"state": "expired"}),
            (
                and_(row.state == "waiting", row.phone_id.in_(stopped), ~_answers_danger()),
                {"state": "cancelled"},
            ),
            (and_(row.state == "leased", lost), {"state": "unknown", "not_before": now}),
        ):
            connection.execute(update(t.outbox).where(condition).values(**values))


def claim(db: Database, now: datetime, room: int, lease: str) -> list[Claimed]:
    """Lease up to `room` texts that may go now. lease: a name nobody else uses."""
    with db.write() as connection:
        found = _candidates(connection, now, room)
        if not found:
            return []
        taken = connection.execute(
            update(t.outbox)
            .where(t.outbox.c.id.in_([row.id for row in found]), t.outbox.c.state == "waiting")
            .values(
                state="leased",
                lease_by=lease,
                lease_until=now + LEASE,
                attempt=t.outbox.c.attempt + 1,
            )
        )
        if taken.rowcount != len(found):
            raise RuntimeError("a text was taken by someone else inside our own transaction")
    return [_claimed(row, row.attempt + 1, lease, now) for row in found]


def still_ours(db: Database, rows: Sequence[Claimed]) -> list[Claimed]:
    """Those of one claim that may still be posted: a STOP that came since has cancelled its own."""
    row = t.outbox.c
    with db.read() as connection:
        found = connection.execute(
            select(row.id).where(
                row.id.in_([one.id for one in rows]),
                row.lease_by == rows[0].lease,
                row.state == "leased",
            )
        )
        ours = set(found.scalars())
    return [one for one in rows if one.id in ours]


def lost_answers(db: Database, now: datetime, room: int) -> list[Claimed]:
    """Texts whose answer was lost and whose fate should be asked for now."""
    row = t.outbox.c
    with db.read() as connection:
        found = connection.execute(
            select(*_COLUMNS, row.lease_by, row.lease_until)
            .where(row.state == "unknown", row.lease_until.is_not(None), row.not_before <= now)
            .order_by(row.not_before, row.id)
            .limit(room)
        ).all()
    return [_claimed(one, one.attempt, one.lease_by, one.lease_until - LEASE) for one in found]


_COLUMNS = [
    t.outbox.c[name]
    for name in (
        "id",
        "phone_id",
        "to_number",
        "klass",
        "text",
        "attempt",
        "created_at",
        "expires_at",
        "parts",
    )
]


def _candidates(connection: Connection, now: datetime, room: int) -> list[Any]:
    """The most urgent first; a class of which nothing waits takes no statement of its own."""
    found: list[Any] = []
    waiting = connection.execute(_WAITING, {"now": now}).one()._mapping
    for klass in PRIORITY:
        if waiting[klass] and len(found) < room:
            bound = {"now": now, "room": room - len(found), "month": month(now)}
            found += connection.execute(_NEXT[klass], bound).all()
    return found


def _waiting(klass: str) -> ColumnElement[bool]:
    """Whether one of a class waits: the first of them by the index, however many there are."""
    row, now = t.outbox.c, bindparam("now", type_=t.Moment())
    first = select(row.id).where(_of(klass), row.not_before <= now)
    found = first.order_by(row.not_before, row.id).limit(literal_column("1")).scalar_subquery()
    return found.is_not(None).label(klass)


def _of(klass: str) -> ColumnElement[bool]:
    """Those of a class that wait. State and class stand in the words of the statement: in a plan
    that it keeps for any class, PostgreSQL reads all that was ever said."""
    row = t.outbox.c
    return and_(
        row.state == literal("waiting", literal_execute=True),
        row.klass == literal(klass, literal_execute=True),
    )


_WAITING = select(*(_waiting(klass) for klass in PRIORITY))


def _claimed(row: Any, attempt: int, lease: str, claimed_at: datetime) -> Claimed:
    return Claimed(
        id=row.id,
        phone_id=row.phone_id,
        to=row.to_number,
        klass=row.klass,
        text=row.text,
        attempt=attempt,
        created_at=row.created_at,
        expires_at=row.expires_at,
        lease=lease,
        claimed_at=claimed_at,
        parts=row.parts,
        cooperative_id=getattr(row, "cooperative_id", 0),
    )


def _next_of(klass: str) -> Select[Any]:
    """The texts of one class that may go now, oldest first. Its limit stands in the words too: a
    plan for any limit reads and sorts all that wait."""
    row, phone = t.outbox.c, t.phone.c
    now = bindparam("now", type_=t.Moment())
    return (
        select(*_COLUMNS, phone.cooperative_id)
        .join(t.phone, phone.id == row.phone_id)
        .where(
            _of(klass),
            row.not_before <= now,
            or_(row.expires_at.is_(None), row.expires_at > now),
            or_(and_(phone.consent != "stopped", phone.suspended.is_(False)), *_answers(klass)),
            ~_held_back(klass, now),
            *_paid_for(klass),
        )
        .order_by(row.not_before, row.id)
        .limit(bindparam("room", type_=Integer, literal_execute=True))
        .with_for_update(skip_locked=True, of=t.outbox)
    )


def _answers(klass: str) -> list[ColumnElement[bool]]:
    """What goes to a phone that is suspended, or has stopped: the answer to its own text, which
    says that somebody holds it; after a STOP only to a word of danger."""
    if klass == "danger":
        return [_answers_its_own_text()]
    if klass == "reply":
        return [and_(t.phone.c.consent != "stopped", _answers_its_own_text())]
    return []


def _answers_danger() -> ColumnElement[bool]:
    return and_(t.outbox.c.klass == "danger", _answers_its_own_text())


def _answers_its_own_text() -> ColumnElement[bool]:
    turn, row = t.turn.c, t.outbox.c
    return exists().where(turn.id == row.turn_id, turn.phone_id == row.phone_id)


def _paid_for(klass: str) -> list[Any]:
    """A spent budget pays for danger and answers only; the rest waits until it is stale."""
    if klass in URGENT:
        return []
    row, cooperative = t.tally.c, t.cooperative.c
    spent = (
        select(cooperative.id)
        .join(t.tally, row.name == literal("parts:").concat(cast(cooperative.id, String)))
        .where(row.period == bindparam("month"), row.n >= cooperative.budget)
    )
    return [t.phone.c.cooperative_id.not_in(spent)]


def _held_back(klass: str, now: Any) -> Any:
    """Whether another text of the phone comes first or is under way."""
    row, other = t.outbox.c, t.outbox.alias("other")
    more_urgent = PRIORITY[: PRIORITY.index(klass)]
    first = or_(other.c.klass.in_(more_urgent), and_(other.c.klass == klass, other.c.id < row.id))
    its_turn = and_(
        other.c.state == "waiting",
        or_(other.c.not_before <= now, other.c.attempt > 0),
        or_(other.c.expires_at.is_(None), other.c.expires_at > now),
        first,
    )
    under_way = [other.c.state == "leased"]
    if klass != "danger":
        under_way.append(and_(other.c.state == "unknown", other.c.lease_until.is_not(None)))
    # OFFSET keeps PostgreSQL at looking up the one phone; joined, it reads the whole outbox.
    held_by = select(other.c.id).where(
        other.c.phone_id == row.phone_id, other.c.id != row.id, or_(its_turn, *under_way)
    )
    return held_by.offset(0).correlate(t.outbox).exists()


_NEXT = {klass: _next_of(klass) for klass in PRIORITY}
