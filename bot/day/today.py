"""This day's advice, said again whenever it is asked for. In: the case, the batch, the calendar.
Out: lines, by texts of one part each. Pure; called by `decide.today`.

What the earlier days said is worked out as if every text had gone out; so the advice is that of the
morning text, at any hour, without its question. From the evening's hour on the night text follows.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import time

from bot.day.arrival import arrival_texts
from bot.day.due import said_until
from bot.day.evening import evening
from bot.day.morning import morning
from bot.day.standing import standing
from bot.day.walltime import moment
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line
from bot.handbook.shape_calendar import Calendar


def advice_of_today(case: Case, batch: Batch, calendar: Calendar) -> tuple[tuple[Line, ...], ...]:
    """The texts of this day; () where the calendar has nothing to say."""
    if batch.age(case.today) == 0 and batch.arrived_at is not None:
        return arrival_texts(case, batch, calendar, case.now)
    zone = case.cooperative.zone
    before = moment(case.today, time(0), zone)
    heard = replace(case, phone=replace(case.phone, heard_at=None), question=None)
    told = replace(batch, said=said_until(heard, batch, calendar, before))
    found = [_morning(heard, told, calendar), *_evening(heard, told, calendar)]
    return tuple(lines for lines in found if lines)


def _morning(case: Case, batch: Batch, calendar: Calendar) -> tuple[Line, ...]:
    cooperative = case.cooperative
    opens = max(cooperative.routine_at, cooperative.allowed_from)
    at = standing(case, batch, calendar, moment(case.today, opens, cooperative.zone))
    routine = None if at is None else morning(at, younger_asks=lambda: True)
    return () if routine is None else routine.lines


def _evening(case: Case, batch: Batch, calendar: Calendar) -> list[tuple[Line, ...]]:
    at = standing(case, batch, calendar, case.now)
    return [] if at is None else [one.lines for one in evening(at)]
