"""On which days essential rows meet, for each kind of farm: played through, so that no such day
goes unrehearsed. In: the calendar. Out: lists that content/calendar/meetings.yaml must hold. Called
by the content proof. Pure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from bot.day.after import after
from bot.day.due import due, next_moment
from bot.day.morning import SLOT
from bot.day.rows import rows_due
from bot.day.standing import standing
from bot.facts.farm import Batch, Case, Cooperative, Person, Phone
from bot.handbook.shape_calendar import Calendar

PLACED = date(2026, 3, 31)
ARRIVED = datetime(2026, 3, 31, 5, 0, tzinfo=UTC)
_RUNNING = Batch(1, "running", count=300, placed_on=PLACED, arrived_at=ARRIVED)
_PLANNED = Batch(1, "planned", count=300, placed_on=PLACED)
KINDS: Mapping[str, Batch] = {
    "planned, charcoal": replace(_PLANNED, heat=("charcoal",)),
    "planned, gas": replace(_PLANNED, heat=("gas",)),
    "planned, bulbs": replace(_PLANNED, heat=("bulb",)),
    "charcoal, unanswered": replace(_RUNNING, heat=("charcoal",)),
    "charcoal, one stove, cold nights": replace(
        _RUNNING, count=100, heat=("charcoal",), nights="cold"
    ),
    "charcoal, warm nights, feathered": replace(
        _RUNNING, heat=("charcoal",), nights="warm", feathered=True
    ),
    "gas, thermometer": replace(_RUNNING, heat=("gas",), thermometer=True),
    "bulbs": replace(_RUNNING, heat=("bulb",)),
    "no heat": replace(_RUNNING, heat=("none",)),
    "charcoal, late in the evening": replace(
        _RUNNING, heat=("charcoal",), arrived_at=ARRIVED + timedelta(hours=13)
    ),
    "held for a disease": replace(_RUNNING, heat=("charcoal",), held=True),
}


def meetings(calendar: Calendar) -> dict[str, tuple[str, ...]]:
    """For each kind of farm the days on which two essentials or more wait for one morning text:
    "age 7: widen_7, mix_1"."""
    return {kind: tuple(_of(batch, calendar)) for kind, batch in KINDS.items()}


def unrehearsed(
    calendar: Calendar, listed: Mapping[str, tuple[str, ...]]
) -> tuple[tuple[str, str], ...]:
    """(kind of farm, meeting) that is not listed, and listed ones that no longer happen."""
    found = meetings(calendar)
    kinds = dict.fromkeys((*found, *listed))
    odd = {kind: set(found.get(kind, ())) ^ set(listed.get(kind, ())) for kind in kinds}
    return tuple((kind, one) for kind, ones in odd.items() for one in sorted(ones))


def _of(batch: Batch, calendar: Calendar) -> list[str]:
    met: list[str] = []
    case = _case(batch)
    at: datetime | None = _start(batch, calendar)
    while at is not None:
        case = replace(case, now=at, batches=(batch,))
        where = standing(case, batch, calendar, at)
        found = due(case, batch, calendar, at)
        if where is not None and any(one.slot == SLOT for one in found):
            essentials = [row.id for row in rows_due(where, SLOT) if row.essential]
            if len(essentials) > 1:
                met.append(f"age {where.age}: {', '.join(essentials)}")
        _, batch = after(case, batch, found)
        at = next_moment(case, batch, calendar, at)
    return met


def _start(batch: Batch, calendar: Calendar) -> datetime:
    if batch.arrived_at is not None:
        return batch.arrived_at
    first = PLACED + timedelta(days=calendar.first_age)
    return datetime.combine(first, time(0), UTC)


def _case(batch: Batch) -> Case:
    cooperative = Cooperative(1, "Example", "Africa/Nairobi", "KE")
    phone = Phone(1, "+15005550001", "active")
    return Case(ARRIVED, cooperative, phone, Person(1, "en"), "en", (batch,))
