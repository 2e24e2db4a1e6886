"""What a cooperative spends in a month, in parts, against its budget. In: parts that went out. Out:
the count raised, and the adviser told at a half, four fifths and all of it. Called by turn.take
(answers) and outbox.ledger (texts of ours); outbox.claim holds back what a spent budget does not
pay for.

The month is that of UTC; a cooperative without a budget is not counted until it sets one.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import Connection, bindparam, func, insert, select

from bot.facts.farm import Cooperative
from bot.records import tables as t
from bot.records.tally import count_up, counted

ALARMS_PCT = (50, 80, 100)


def month(now: datetime) -> str:
    return f"{now:%Y-%m}"


def name_of(cooperative_id: int) -> str:
    return f"parts:{cooperative_id}"


def is_spent(connection: Connection, cooperative: Cooperative, now: datetime) -> bool:
    """Whether this month's parts are used up: never where no budget is set."""
    budget = cooperative.budget
    return budget is not None and counted(connection, name_of(cooperative.id), month(now)) >= budget


def spend(connection: Connection, parts: Mapping[int, int], now: datetime) -> None:
    """Count parts, by cooperative, and tell the adviser when a mark is passed."""
    if not parts:
        return
    budgets = select(t.cooperative.c.id, t.cooperative.c.budget).where(
        t.cooperative.c.id.in_(parts), t.cooperative.c.budget.is_not(None)
    )
    for row in connection.execute(budgets).all():
        used = count_up(connection, name_of(row.id), month(now), parts[row.id])
        before = used - parts[row.id]
        for mark in ALARMS_PCT:
            if before * 100 < mark * row.budget <= used * 100:
                _tell(
                    connection, row.id, f"{mark} % of the month's {row.budget} parts are used", now
                )


def take_up(connection: Connection, before: Cooperative, budget: int, now: datetime) -> None:
    """A budget set or changed in the middle of a month: what went since its first day counts, and
    the adviser is told the highest mark that is passed already. before: as it was until now."""
    used = counted(connection, name_of(before.id), month(now))
    if before.budget is None:
        gone = connection.execute(_GONE, {"own": before.id, "first": _first(now)}).scalar() or 0
        used = count_up(connection, name_of(before.id), month(now), max(0, int(gone) - used))
    passed = [mark for mark in ALARMS_PCT if used * 100 >= mark * budget]
    if passed:
        _tell(connection, before.id, f"{passed[-1]} % of the month's {budget} parts are used", now)


_GONE = (
    select(func.sum(t.outbox.c.parts))
    .select_from(t.outbox.join(t.phone, t.phone.c.id == t.outbox.c.phone_id))
    .where(
        t.phone.c.cooperative_id == bindparam("own"),
        t.outbox.c.sent_at >= bindparam("first", type_=t.Moment()),
    )
)


def _first(now: datetime) -> datetime:
    return now.replace(day=1, hour=0, minute=0, second=0, microsecond=0)


def _tell(connection: Connection, cooperative_id: int, reason: str, now: datetime) -> None:
    connection.execute(
        insert(t.adviser).values(
            cooperative_id=cooperative_id, kind="budget", reason=reason, at=now
        )
    )
