"""The answer to "arrived": water now, feed at its hour, and the night where they came late.

In: the case, the batch as it is after arriving, the calendar, the moment. Out: lines, by texts of
one part each. Pure; called by `decide.arrived`. What is said here is not pushed again: `rows`,
`evening` and `morning` know it from the hour of arrival.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from bot.day.compose import head, sign
from bot.day.conditions import holds
from bot.day.figures import FEED_AFTER
from bot.day.rows import fire_is_fresh, line_of, night_in_answer
from bot.day.standing import LATEST, PUSH_FROM, Standing, standing
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line
from bot.handbook.shape_calendar import Calendar


def arrival_lines(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> tuple[Line, ...]:
    """The lines of `arrival_texts`, one after the other."""
    return tuple(line for text in arrival_texts(case, batch, calendar, now) for line in text)


def arrival_texts(
    case: Case, batch: Batch, calendar: Calendar, now: datetime
) -> tuple[tuple[Line, ...], ...]:
    """The texts of the answer, each of one part, at least one: water and feed; then, for an arrival
    after 15:00, the night and the two fire texts. Hours already gone are skipped; told a day or
    more late, the first text says which day it is."""
    at = standing(case, replace(batch, state="running"), calendar, now)
    if at is None or at.batch.arrived_at is None:
        return ((Line("arrival_fed"),),)
    if at.age > 0:
        first = _days_late(at)
    elif now >= at.batch.arrived_at + FEED_AFTER:
        first = (Line("arrival_fed"),)
    else:
        first = (_line(at, "arrival") or Line("arrival_fed"),)
    following = [(line,) for slot in _evening_slots(at) if (line := _line(at, slot)) is not None]
    return (first, *following)


def _days_late(at: Standing) -> tuple[Line, ...]:
    """The day, its temperature, and what can be set right on any of the first days."""
    mark = sign(at)
    return (head(at), *((mark, Line("spread_even")) if mark is not None else ()))


def arrival_rows_said(
    case: Case, batch: Batch, calendar: Calendar, now: datetime
) -> tuple[str, ...]:
    """The ids of the calendar rows that the answer says."""
    at = standing(case, replace(batch, state="running"), calendar, now)
    if at is None or at.batch.arrived_at is None:
        return ()
    rows = [row for row in calendar.at("arrival", 0) if holds(row.when, at)]
    for slot in _evening_slots(at):
        rows += [row for row in calendar.at(slot, 0) if holds(row.when, at)][:1]
    return tuple(row.id for row in rows)


def _evening_slots(at: Standing) -> tuple[str, ...]:
    """Night and fire, where they came after 15:00 or where it is told late or by night; no fire
    texts where they went out within a day before."""
    told_by_night = at.age == 0 and not PUSH_FROM <= at.local.time() < min(at.closes, LATEST)
    if not night_in_answer(at.case, at.batch) and not told_by_night:
        return ()
    fire = () if fire_is_fresh(at, at.local) else ("fire", "fumes")
    return ("night", *fire) if at.age == 0 else fire


def _line(at: Standing, slot: str) -> Line | None:
    """The first row of a slot of age 0 that counts for this farm."""
    for row in at.calendar.at(slot, 0):
        if holds(row.when, at):
            return line_of(row, at)
    return None
