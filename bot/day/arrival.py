"""The answer to "arrived": water now, feed at its hour, and the night where they came late.

In: the case, the batch as it is after arriving, the calendar, the moment. Out: lines, one text of
one part each. Pure; called by `decide.arrived`. What is said here is not pushed again: `rows`,
`evening` and `morning` know it from the hour of arrival.
"""

from __future__ import annotations

from bot.day.figures import FEED_AFTER
from bot.day.rows import EVENING, line_of, night_in_answer
from bot.day.standing import LATEST, Standing, holds, standing
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line
from bot.facts.writes import Write
from bot.handbook.shape_calendar import Calendar

from datetime import datetime  # isort: skip


def arrival_answer(
    case: Case, batch: Batch, calendar: Calendar, now: datetime
) -> tuple[tuple[Line, ...], tuple[Write, ...]]:
    """All lines of the answer, and the writes that go with it (none: the hour of arrival tells)."""
    return arrival_lines(case, batch, calendar, now), ()


def arrival_lines(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> tuple[Line, ...]:
    """The lines of `arrival_texts`, one after the other."""
    return tuple(line for text in arrival_texts(case, batch, calendar, now) for line in text)


def arrival_texts(
    case: Case, batch: Batch, calendar: Calendar, now: datetime
) -> tuple[tuple[Line, ...], ...]:
    """The texts of the answer, each of one part: water and feed; then, for an arrival after 15:00,
    the night and the two fire texts. Hours already gone are skipped."""
    at = standing(case, batch, calendar, now)
    if at is None or at.batch.arrived_at is None:
        return ()
    first: tuple[Line, ...] = (Line("arrival_fed"),)
    if now < at.batch.arrived_at + FEED_AFTER:
        first = tuple(
            line
            for row in calendar.at("arrival", 0)
            if holds(row.when, at) and (line := line_of(row, at)) is not None
        )
    following = [(line,) for slot in _evening_slots(at) if (line := _line(at, slot)) is not None]
    return (first[:1], *((line,) for line in first[1:]), *following)


def arrival_rows_said(
    case: Case, batch: Batch, calendar: Calendar, now: datetime
) -> tuple[str, ...]:
    """The ids of the calendar rows that the answer says."""
    at = standing(case, batch, calendar, now)
    if at is None or at.batch.arrived_at is None:
        return ()
    rows = [row for row in calendar.at("arrival", 0) if holds(row.when, at)]
    for slot in _evening_slots(at):
        rows += [row for row in calendar.at(slot, 0) if holds(row.when, at)][:1]
    return tuple(row.id for row in rows)


def _evening_slots(at: Standing) -> tuple[str, ...]:
    """Night and fire, where they came after 15:00 or where it is told after the night text."""
    late_word = at.age == 0 and at.local.time() >= min(at.closes, LATEST)
    if not night_in_answer(at.case, at.batch) and not late_word:
        return ()
    return ("night", "fire", "fumes") if at.age == 0 else ("fire", "fumes")


def _line(at: Standing, slot: str) -> Line | None:
    """The first row of a slot of age 0 that counts for this farm."""
    for row in at.calendar.at(slot, 0):
        if holds(row.when, at):
            return line_of(row, at)
    return None


__all__ = ["EVENING", "arrival_answer", "arrival_lines", "arrival_rows_said", "arrival_texts"]
