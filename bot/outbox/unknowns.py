"""Finds out what became of texts whose answer was lost. In: a database, a gateway, the moment.
Out: how many were settled. Called by outbox.dispatch before it sends anything new.

The gateway is asked for its list, outside any transaction. A text it does not list, once the list
has had time to settle, was not sent and goes back to waiting. Where nobody can say, an urgent text
is sent once more under a key of its own, and any other is left for the desk (state unknown without
a lease).
"""

from __future__ import annotations

from datetime import datetime, timedelta

from sqlalchemy import Connection, select, update

from bot.errors import SendError
from bot.gateway.client import Gateway, Sent
from bot.outbox import ledger
from bot.outbox.claim import Claimed, lost_answers
from bot.outbox.retry import NEXT_ASK, Step, Verdict, judge_unknown
from bot.records import tables as t
from bot.records.outbox_rows import Text, put
from bot.records.session import Database

SKEW = timedelta(minutes=1)  # by which the gateway's clock may run behind ours
KEY_ROOM = 72  # of a business key's 80, the rest names the repeat
_UNKNOWN = ("unknown",)


def reconcile(db: Database, gateway: Gateway, now: datetime, room: int = 20) -> int:
    """Ask what became of up to `room` texts; returns how many are settled now. A gateway that
    cannot be asked about one is not asked about the next."""
    settled, reachable = 0, True
    for row in lost_answers(db, now, room):
        found = _asked(gateway, row, now) if reachable else None
        reachable = found is not None
        with db.write() as connection:
            settled += _settle(connection, row, found, now)
    return settled


def repeat(connection: Connection, row_id: int, name: str, at: datetime) -> None:
    """Put a text into the outbox once more, under its key and `name`, so at most once; a repeat
    is never repeated."""
    row = connection.execute(select(t.outbox).where(t.outbox.c.id == row_id)).one()
    if row.business_key.endswith((":again", ":later")):
        return
    if row.expires_at is not None and row.expires_at <= at:
        return
    put(
        connection,
        Text(
            business_key=f"{row.business_key[:KEY_ROOM]}:{name}",
            phone_id=row.phone_id,
            to_number=row.to_number,
            klass=row.klass,
            text=row.text,
            at=at,
            expires_at=row.expires_at,
            batch_id=row.batch_id,
            turn_id=row.turn_id,
        ),
    )


def _asked(gateway: Gateway, row: Claimed, now: datetime) -> tuple[Sent, ...] | None:
    """What the gateway lists of this very text since it was claimed; None: it can't be asked."""
    try:
        return gateway.find(row.to, row.body(), min(row.claimed_at, now) - SKEW)
    except SendError:
        return None


def _settle(
    connection: Connection, row: Claimed, found: tuple[Sent, ...] | None, now: datetime
) -> bool:
    ours = _not_yet_known(connection, row, found or ())
    if ours is not None:
        return ledger.sent(connection, row, ours, ours.at or now)
    verdict = judge_unknown(row.klass, row.claimed_at, now, denied=found is not None)
    if verdict is Verdict.ASK_AGAIN:
        ledger.move(connection, row, Step("unknown", now + NEXT_ASK), _UNKNOWN)
        return False
    if verdict is Verdict.NOT_SENT:
        return ledger.move(connection, row, Step("waiting", now), _UNKNOWN)
    if _leave_to_desk(connection, row) and verdict is Verdict.RESEND:
        repeat(connection, row.id, "again", now)
    return True


def _not_yet_known(connection: Connection, row: Claimed, found: tuple[Sent, ...]) -> Sent | None:
    """The first of `found` that no other row of ours stands for."""
    taken = connection.execute(
        select(t.outbox.c.gateway_sid).where(
            t.outbox.c.gateway_sid.in_([one.sid for one in found]), t.outbox.c.id != row.id
        )
    ).scalars()
    known = set(taken) if found else set()
    return next((one for one in found if one.sid not in known), None)


def _leave_to_desk(connection: Connection, row: Claimed) -> bool:
    changed = connection.execute(
        update(t.outbox)
        .where(
            t.outbox.c.id == row.id,
            t.outbox.c.lease_by == row.lease,
            t.outbox.c.state == "unknown",
        )
        .values(lease_until=None)
    )
    return changed.rowcount == 1
