"""What is due for a batch at a moment, and when to look again. Pure.

In: the case, the batch, the calendar, the moment. Out: `Due`s, each of one text, under a key that
is unique within the placement (slot and local date). Called by the clock's tick and by rehearsals.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

from bot.day.alarms import alarm_back
from bot.day.checks import pushed_check
from bot.day.closing import Past, closing_lines
from bot.day.evening import evening
from bot.day.hours import hours
from bot.day.items import Due, until
from bot.day.moments import next_moment
from bot.day.morning import SLOT, is_time, morning
from bot.day.rest import rest
from bot.day.standing import Standing, is_empty, may_push, standing
from bot.day.walltime import moment
from bot.day.weekly import weekly
from bot.facts.farm import Batch, Case, Said
from bot.facts.writes import ChangeBatch
from bot.handbook.shape_calendar import Calendar

ENDED = "ended"

__all__ = ["Due", "due", "next_moment", "said_until"]


def due(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> tuple[Due, ...]:
    """What is to be said now. Muted, stopped and suspended phones and drafts have nothing due."""
    if batch.state == "closed":
        return rest(case, batch, calendar, now) if may_push(case, now) else ()
    at = standing(case, batch, calendar, now)
    if at is None or not may_push(case, now):
        return ()
    if is_empty(batch):
        return _of_none(at)

    def younger_asks() -> bool:
        return _younger_asks(case, batch, calendar, now)

    routine = morning(at, younger_asks=younger_asks)
    joined = routine is not None and routine.question is not None
    check = None if joined else pushed_check(at)
    first = (routine,) if routine is not None else ()
    second = (check,) if check is not None else ()
    vet = alarm_back(at)
    third = (vet,) if vet is not None else ()
    owner = weekly(at)
    fourth = (owner,) if owner is not None else ()
    return (*first, *hours(at), *evening(at), *second, *third, *fourth)


def _of_none(at: Standing) -> tuple[Due, ...]:
    """None is left: only the vet is asked after, and once that is over the batch is closed, with
    how it went in texts of their own."""
    vet = alarm_back(at)
    if vet is not None:
        return (vet,)
    if at.batch.open_alarm(at.today) is not None or not is_time(at):
        return ()
    closing = ChangeBatch(at.batch.id, {"state": "closed"})
    end = until(at, at.closes)
    told = closing_lines(at.batch, Past(), at.calendar.book)
    more = tuple(
        Due(f"{ENDED}-{place}", at.today, (), (line,), None, "routine", end)
        for place, line in enumerate(told)
    )
    return (Due(SLOT, at.today, (ENDED,), (), None, "routine", end, (closing,)), *more)


def _younger_asks(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> bool:
    """Of two batches on a phone the younger asks; the other on days the younger does not."""
    for one in case.batches:
        if one.id == batch.id or not _is_younger(one, batch):
            continue
        at = standing(case, one, calendar, now)
        if at is None:
            continue
        if any(said.on_date == at.today and said.row.startswith("ask:") for said in one.said):
            return True
        routine = morning(at, younger_asks=lambda: False)
        if routine is not None and routine.question is not None:
            return True
    return False


def _is_younger(one: Batch, than: Batch) -> bool:
    if one.placed_on is None or than.placed_on is None or one.state not in ("planned", "running"):
        return False
    return (one.placed_on, one.id) > (than.placed_on, than.id)


def said_until(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> Sequence[Said]:
    """What would have been said to this batch up to now, had every text gone out and none been
    answered: where a rehearsal begins in the middle of a batch's life."""
    if batch.placed_on is None:
        return batch.said
    zone = case.cooperative.zone
    heard = replace(case, phone=replace(case.phone, heard_at=None))
    started = batch.arrived_at or moment(batch.placed_on, time(8, 0), zone)
    if started > now:
        started = moment(batch.placed_on + timedelta(days=calendar.first_age), time(0), zone)
    told = replace(batch, said=())
    at: datetime | None = started.astimezone(UTC) - timedelta(seconds=1)
    while at is not None and at <= now:
        for one in due(heard, told, calendar, at):
            more = tuple(Said(row, one.on_date, one.slot) for row in one.rows)
            told = replace(told, said=(*told.said, *more))
        at = next_moment(heard, told, calendar, at)
    return told.said
