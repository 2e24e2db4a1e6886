"""Which rows of the calendar count today, and their lines. In: where a batch stands. Out: rows,
essentials first. Pure; called by morning, evening and hours.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import time

from bot.day.conditions import holds_by_record, holds_for, traits
from bot.day.countdown import is_open, is_promised
from bot.day.figures import figure
from bot.day.standing import Standing, troubles
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line, Value
from bot.handbook.shape_calendar import Row

FIRST = -100
WAITING = 2  # places that a row moves forward for each day it has waited
EVENING = time(15, 0)  # whoever arrives from here on has the night in the same answer


def rows_due(at: Standing, slot: str) -> list[Row]:
    """The rows of a slot that count now: in their ages, their conditions holding, not said yet,
    their figures known. Rows of the first hours that were missed come the next morning."""
    return [row for row in open_rows(at, slot) if counts(row, at)]


def any_due(at: Standing, slot: str) -> bool:
    """Whether any row of a slot counts now. What is said in a trouble takes the place of another
    row and makes no text of its own."""
    rows = (row for row in open_rows(at, slot) if not row.when.troubled)
    return any(counts(row, at) for row in rows)


def counts(row: Row, at: Standing) -> bool:
    """Whether an open row counts by the batch's record, too, and its figures are known."""
    return holds_by_record(row.when, at) and line_of(row, at) is not None


def open_rows(at: Standing, slot: str) -> Sequence[Row]:
    """The rows of a slot that are in their ages, not said yet, and fit the farm, in order; worked
    out once for all farms of the same traits that were told the same. What a step before they come
    waits for stands in the record, so those days are never shared."""
    if at.age < 0:
        return _worked_out(at, slot)
    answered = night_in_answer(at.case, at.batch)
    key = (at.calendar, slot, at.age, at.today, traits(at), answered)
    memo = at.batch.said_days.memo
    if key not in memo:
        memo[key] = _worked_out(at, slot)
    found: Sequence[Row] = memo[key]
    return found


def _worked_out(at: Standing, slot: str) -> Sequence[Row]:
    found: Sequence[Row] = at.calendar.at(slot, at.age)
    if slot == "morning":
        late = (row for row in at.calendar.at("feed", at.age) if row.first < at.age)
        found = (*found, *late)
    return sorted([row for row in found if _is_open(row, at)], key=lambda row: _order(row, at))


def _is_open(row: Row, at: Standing) -> bool:
    return not _waits(row, at) and not is_said(row, at) and holds_for(row.when, traits(at))


def _waits(row: Row, at: Standing) -> bool:
    """Whether the row would contradict what was advised on an open trouble. A routine change of the
    day's heat is left alone while a danger is open."""
    open_now = troubles(at) if row.does else frozenset()
    if "alarm" in open_now and any(one.startswith("day:heat") for one in row.does):
        return True
    advised = at.calendar.advised
    return any(at.calendar.opposes(row.does, advised.get(one, ())) for one in open_now)


def _order(row: Row, at: Standing) -> tuple[bool, bool, int]:
    """Essentials first, then what belongs to these days only, both by priority; then the duties
    without end, of which those that have waited long move forward, so that none is crowded out."""
    if is_promised(row, at):
        return not row.essential, False, FIRST
    passing = row.every is None or row.window < row.every
    if row.essential or passing:
        return not row.essential, False, row.priority
    last = at.said.get(row.id)
    waited = at.age - row.first if last is None else (at.today - last).days - (row.every or 0)
    return True, True, row.priority - WAITING * max(0, waited)


def is_said(row: Row, at: Standing) -> bool:
    """Whether the row needs no saying now: a once-row was said, a recurring one in this turn, or
    the row before it is still to come."""
    if row.after is not None:
        before = at.said.get(row.after)
        if before is None or before >= at.today:
            return True
    if row.slot in ("fire", "fumes") and row.first == 0 and night_in_answer(at.case, at.batch):
        return True
    last = at.said.get(row.id)
    if row.by is not None:
        return not is_open(row, at)
    if row.every is None:
        return last is not None
    turn = row.first + (at.age - row.first) // row.every * row.every
    if at.age - turn >= row.window:
        return True
    if last is None:
        return False
    ago = (at.today - last).days
    return at.age - ago >= turn or ago < row.every // 2


def night_in_answer(case: Case, batch: Batch) -> bool:
    """Whether the answer to "arrived" carried the first night and the fire rows."""
    if batch.arrived_at is None:
        return False
    return batch.arrived_at.astimezone(case.cooperative.zone).time() >= EVENING


def line_of(row: Row, at: Standing) -> Line | None:
    """The row's line with its figures, or None where one of them can't be counted."""
    lines = at.memo.setdefault("lines", {})
    if row.id not in lines:
        lines[row.id] = _line_of(row, at)
    found: Line | None = lines[row.id]
    return found


def _line_of(row: Row, at: Standing) -> Line | None:
    values: dict[str, Value] = {}
    for name in row.figures:
        value = figure(name, at)
        if value is None:
            return None
        values[name] = value
    return Line(row.text, values)
