"""Takes in what the gateway says became of a text. In: a `Receipt`. Out: whether it told us
something new. Called by doors/receipts.

Receipts come doubled, late, out of order, or before the answer to the post itself: a state only
moves up, and a text without the gateway's id is known by our own reference in the address.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, and_, or_, select, update

from bot.outbox import numbers
from bot.outbox.retry import LATER, SWITCHED_OFF, after_receipt
from bot.outbox.unknowns import repeat
from bot.records import tables as t
from bot.records.session import Database


@dataclass(frozen=True, slots=True)
class Receipt:
    """What the gateway said. status: its own word. code: its error code. reference: our row's id
    as it was given with the text, or None."""

    sid: str
    status: str
    code: int | None = None
    reference: int | None = None


def take_receipt(db: Database, receipt: Receipt, now: datetime) -> bool:
    """Move the text on that the receipt speaks of; an unknown one changes nothing."""
    with db.write() as connection:
        row = _row(connection, receipt)
        if row is None:
            return False
        numbers.lock(connection, row.phone_id)
        row = _row(connection, receipt)
        told = after_receipt(row.state, receipt.status) if row else None
        if row is None or told is None:
            return False
        _move(connection, row, told, receipt, now)
        _consequences(connection, row, told, receipt.code, now)
    return True


def _row(connection: Connection, receipt: Receipt) -> Row[Any] | None:
    """The row with this id of the gateway, else the one of our reference that has none yet."""
    ours = t.outbox.c
    known = ours.gateway_sid == receipt.sid
    if receipt.reference is not None:
        fresh = and_(ours.id == receipt.reference, ours.gateway_sid.is_(None), ours.attempt > 0)
        known = or_(known, fresh)
    return connection.execute(
        select(t.outbox).where(known).order_by(ours.gateway_sid.is_(None)).limit(1)
    ).first()


def _move(
    connection: Connection, row: Row[Any], state: str, receipt: Receipt, now: datetime
) -> None:
    connection.execute(
        update(t.outbox)
        .where(t.outbox.c.id == row.id)
        .values(
            state=state,
            gateway_sid=receipt.sid,
            sent_at=row.sent_at or now,
            error_code=receipt.code,
            lease_until=None,
        )
    )


def _consequences(
    connection: Connection, row: Row[Any], state: str, code: int | None, now: datetime
) -> None:
    if state == "delivered":
        numbers.reached(connection, row.phone_id)
    elif numbers.says_something(code):
        numbers.note(connection, row.phone_id, code, now)
    elif code == SWITCHED_OFF:
        repeat(connection, row.id, "later", now + LATER)
