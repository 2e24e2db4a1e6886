"""After the sale: the house is cleaned and stands empty, and the next chicks are asked for.

In: a closed batch. Out: the texts of the empty days, and when they are due. Days are counted from
the last birds that left. Pure; called by `bot.day.due` and moments.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from bot.day.items import Due, until
from bot.day.rows import line_of
from bot.day.standing import Standing
from bot.day.walltime import moment
from bot.facts.farm import WAYS_OUT, Batch, Case
from bot.handbook.shape_calendar import Calendar

SLOT = "rest"
NEXT = "rest_ready"  # asks for the next chicks; not where they are known already


def emptied_on(batch: Batch) -> date | None:
    """The local day on which the last birds left; None where none did."""
    days = [one.on_date for kind in WAYS_OUT for one in batch.live_events(kind)]
    return max(days, default=None)


def rest(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> tuple[Due, ...]:
    """What is said today of the empty house."""
    at = _standing(case, batch, calendar, now)
    if at is None or not at.opens <= at.local.time() < at.closes:
        return ()
    for row in calendar.at(SLOT, at.age):
        if row.id == NEXT and any(one.state != "closed" for one in case.batches):
            continue
        line = None if row.id in at.said else line_of(row, at)
        if line is not None:
            return (Due(SLOT, at.today, (row.id,), (line,), None, "routine", until(at, at.closes)),)
    return ()


def rest_moment(case: Case, batch: Batch, calendar: Calendar, after: datetime) -> datetime | None:
    """When the next text of the empty days goes; None where none is left."""
    began = emptied_on(batch)
    if began is None or case.phone.consent != "active" or case.phone.suspended:
        return None
    said = {one.row for one in batch.said}
    coop = case.cooperative
    opens = max(coop.routine_at, coop.allowed_from)
    days = sorted(row.first for row in calendar.all_rows if row.slot == SLOT and row.id not in said)
    found = (moment(began + timedelta(days=day), opens, coop.zone) for day in days)
    return next((one for one in found if one > after), None)


def _standing(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> Standing | None:
    """The batch on this day, its age the days since the last birds left."""
    began = emptied_on(batch)
    if began is None:
        return None
    local = now.astimezone(case.cooperative.zone)
    said = {one.row: one.on_date for one in batch.said}
    today = local.date()
    age = (today - began).days
    return Standing(case, batch, calendar, now, local, today, age, said, frozenset())
