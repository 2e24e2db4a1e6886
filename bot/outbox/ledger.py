"""Writes down what became of posted texts. In: claimed texts with their outcomes. Out: nothing; the
rows are moved on. Called by outbox.dispatch once the network has been spoken to.

Each update holds to the claim it belongs to: where a receipt, a STOP or another sender was quicker,
that stands.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from sqlalchemy import Connection, bindparam, or_, update

from bot.errors import SendError
from bot.gateway.client import Sent
from bot.outbox import numbers
from bot.outbox.claim import Claimed
from bot.outbox.retry import Step, after_error, state_of
from bot.records import tables as t
from bot.records.session import Database
from bot.records.spending import spend

Outcome = Sent | SendError

# A text that was taken is sent, even if its lease ran out or a STOP came meanwhile.
_BEFORE_SENT = ("leased", "unknown", "cancelled")
_BEFORE_KNOWN = ("leased", "unknown")
_BEFORE_UNKNOWN = ("leased",)


def record(
    db: Database,
    done: Sequence[tuple[Claimed, Outcome]],
    now: datetime,
    draw: Callable[[], float],
) -> None:
    """Write outcomes down: all in one transaction, but those that say something of the number
    itself each in their own (they change the phone, which is locked before its texts)."""
    about_numbers = [one for one in done if numbers.says_something(_code(one[1]))]
    plain = sorted((one for one in done if one not in about_numbers), key=lambda one: one[0].id)
    if plain:
        with db.write() as connection:
            _all_sent(connection, [one for one in plain if isinstance(one[1], Sent)], now)
            for row, outcome in plain:
                if not isinstance(outcome, Sent):
                    settle(connection, row, outcome, now, draw())
    for row, outcome in about_numbers:
        with db.write() as connection:
            numbers.lock(connection, row.phone_id)
            if settle(connection, row, outcome, now, draw()):
                numbers.note(connection, row.phone_id, _code(outcome), now)


def _all_sent(
    connection: Connection, done: Sequence[tuple[Claimed, Outcome]], now: datetime
) -> None:
    """What the gateway took, in one statement."""
    rows = [
        {"one": row.id, "lease": row.lease, **_of_sent(outcome, now)}
        for row, outcome in done
        if isinstance(outcome, Sent)
    ]
    if rows:
        connection.execute(_ALL_SENT, rows)
        parts: dict[int, int] = defaultdict(int)
        for row, _ in done:
            parts[row.cooperative_id] += row.parts
        spend(connection, parts, now)


_ALL_SENT = update(t.outbox).where(
    t.outbox.c.id == bindparam("one"),
    t.outbox.c.lease_by == bindparam("lease"),
    or_(*(t.outbox.c.state == state for state in _BEFORE_SENT)),
)


def settle(
    connection: Connection, row: Claimed, outcome: Outcome, now: datetime, drawn: float
) -> bool:
    """Move one row on after its outcome; whether it was still ours to move."""
    if isinstance(outcome, Sent):
        return sent(connection, row, outcome, now)
    step = after_error(outcome, row.attempt, row.created_at, now, drawn)
    before = _BEFORE_UNKNOWN if step.state == "unknown" else _BEFORE_KNOWN
    return move(connection, row, step, before)


def sent(connection: Connection, row: Claimed, outcome: Sent, now: datetime) -> bool:
    """The gateway took the text. What went wrong later its receipt tells, with what follows."""
    return _update(connection, row, _BEFORE_SENT, _of_sent(outcome, now))


def _of_sent(outcome: Sent, now: datetime) -> dict[str, object]:
    arrived = state_of(outcome.status) == "delivered"
    return {
        "state": "delivered" if arrived else "sent",
        "gateway_sid": outcome.sid,
        "sent_at": now,
        "error_code": outcome.code,
        "lease_until": None,
    }


def move(connection: Connection, row: Claimed, step: Step, before: Sequence[str]) -> bool:
    """Bring a row from one of the states `before` to its next."""
    values: dict[str, object] = {"state": step.state, "error_code": step.code}
    if step.not_before is not None:
        values["not_before"] = step.not_before
    if step.state != "unknown":
        values["lease_until"] = None
    return _update(connection, row, before, values)


def _update(
    connection: Connection, row: Claimed, before: Sequence[str], values: Mapping[str, object]
) -> bool:
    changed = connection.execute(
        update(t.outbox)
        .where(
            t.outbox.c.id == row.id,
            t.outbox.c.lease_by == row.lease,
            t.outbox.c.state.in_(before),
        )
        .values(**values)
    )
    return changed.rowcount == 1


def _code(outcome: Outcome) -> int | None:
    return outcome.code
