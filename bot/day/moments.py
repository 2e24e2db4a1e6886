"""The next moment at which something may be due for a batch: the index of the clock.

In: case, batch, calendar, a moment. Out: the next moment after it, in UTC, or None. Called after
every tick and turn, and by rehearsals, which go from one such moment to the next. Pure.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from bot.day.alarms import alarm_moment
from bot.day.checks import is_urgent, open_check
from bot.day.evening import has_evening
from bot.day.hours import hour_moments
from bot.day.morning import SLOT, first_text_at
from bot.day.rest import rest_moment
from bot.day.standing import Standing, pushes_at, standing
from bot.day.walltime import moment
from bot.day.weekly import SLOT as OWNER
from bot.day.weekly import is_owner_day
from bot.facts.farm import Batch, Case
from bot.handbook.shape_calendar import Calendar


def next_moment(case: Case, batch: Batch, calendar: Calendar, after: datetime) -> datetime | None:
    """The next moment after `after` at which `due` may find something; None: never again as things
    stand (no day, closed, stopped, older than the calendar)."""
    if batch.state == "closed":
        return rest_moment(case, batch, calendar, after)
    if batch.placed_on is None or batch.state not in ("planned", "running"):
        return None
    if case.phone.consent != "active" or case.phone.suspended:
        return None
    zone = case.cooperative.zone
    day = max(after.astimezone(zone).date(), batch.placed_on + timedelta(days=calendar.first_age))
    last = batch.placed_on + timedelta(days=calendar.last_age)
    single = [one for one in _single(case, batch, calendar, after) if one > after]
    while day <= last:
        found = next((one for one in _of_day(case, batch, calendar, day) if one > after), None)
        if found is not None:
            return min([found, *single])
        day += timedelta(days=1)
    return min(single, default=None)


def _of_day(case: Case, batch: Batch, calendar: Calendar, day: date) -> Iterator[datetime]:
    """The routine hour and the night hour of a day where there is something to say, the earlier
    one first, worked out only as far as it is asked for."""
    zone = case.cooperative.zone
    opens = max(case.cooperative.routine_at, case.cooperative.allowed_from)
    at = standing(case, batch, calendar, moment(day, opens, zone))
    if at is None:
        return
    night = moment(day, at.night_opens, zone)
    first = max(moment(day, opens, zone), first_text_at(at) or moment(day, opens, zone))
    if first > night and _has_night(at):
        yield night
    if _may_have_morning(at):
        yield first
    if first <= night and _has_night(at):
        yield night


def _has_night(at: Standing) -> bool:
    own = is_owner_day(at) and OWNER not in at.slots
    return has_evening(at) or _may_turn_cold(at) or own


def _may_turn_cold(at: Standing) -> bool:
    """Weather that comes in during the day may still foretell a cold night."""
    rows = at.calendar.at("night", at.age)
    return bool(at.case.cooperative.forecast) and any(row.when.tonight for row in rows)


def _may_have_morning(at: Standing) -> bool:
    if SLOT in at.slots or (at.age == 0 and at.batch.arrived_at is not None):
        return False
    if at.age < 0:
        return bool(at.calendar.at(SLOT, at.age) or at.calendar.asks.get(at.age))
    return True


def _single(case: Case, batch: Batch, calendar: Calendar, after: datetime) -> Iterator[datetime]:
    """The hours of the first day, the check-back, and the question about the vet."""
    if (batch.age(after.astimezone(case.cooperative.zone).date()) or 0) <= 0:
        yield from hour_moments(case, batch).values()
    here = standing(case, batch, calendar, after) if batch.live_events("alarm") else None
    vet = alarm_moment(here) if here is not None else None
    if vet is not None:
        yield vet
    found = open_check(batch)
    if found is None:
        return
    complaint, check_at = found
    at = standing(case, batch, calendar, max(after, check_at))
    if at is None:
        return
    by_day = pushes_at(case, check_at.astimezone(case.cooperative.zone).time())
    if by_day or is_urgent(complaint, at):
        yield check_at
