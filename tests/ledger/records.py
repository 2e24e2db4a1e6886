"""Records to fold: events made by hand."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from bot.facts.farm import Batch, Event

PLACED = date(2026, 3, 31)


def event(number: int, kind: str, age: int, **values: object) -> Event:
    """An entry of the day of that age; number: its id, the order in which it was told."""
    on = PLACED + timedelta(days=age)
    at = datetime(2026, 3, 31, 6, tzinfo=UTC) + timedelta(minutes=number)
    return Event(number, kind, on, at, values, turn_id=number)


def batch(*events: Event, count: int = 300) -> Batch:
    """So many chicks with these entries."""
    return Batch(1, "running", count=count, placed_on=PLACED, events=events)
