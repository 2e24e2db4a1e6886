"""Which rows of the calendar count today, and their lines. In: where a batch stands. Out: rows,
essentials first. Pure; called by morning, evening and hours.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta

from bot.day.conditions import holds_by_record, holds_for, traits
from bot.day.countdown import is_open, is_promised
from bot.day.figures import figure
from bot.day.standing import Standing, troubles
from bot.facts.farm import Batch, Case, Said
from bot.facts.talk import Line, Value
from bot.facts.told import lines_of
from bot.handbook.shape_calendar import Row

FIRST = -100
AGAIN = 50  # places that a step told before moves back
WAITING = 2  # places that a row moves forward for each day it has waited
EVENING = time(15, 0)  # whoever arrives from here on has the night in the same answer
FIRE = frozenset(("fire", "fumes"))  # slots of fire, in texts of their own
FIRE_DAYS = 7  # once is enough for so long, while they are waited for and while stoves burn


def rows_due(at: Standing, slot: str) -> list[Row]:
    """The rows of a slot that count now: in their ages, their conditions holding, not said yet,
    their figures known. Rows of the first hours that were missed come the next morning."""
    return [row for row in open_rows(at, slot) if counts(row, at)]


def any_due(at: Standing, slot: str) -> bool:
    """Whether any row of a slot counts now. What is said in a trouble takes the place of another
    row and makes no text of its own. The night is foretold only where no other row counts."""
    rows = [row for row in open_rows(at, slot) if not row.when.troubled]
    return any(counts(row, at) for row in sorted(rows, key=lambda row: bool(row.when.tonight)))


def counts(row: Row, at: Standing) -> bool:
    """Whether an open row counts by the batch's record, too, and its figures are known."""
    return holds_by_record(row.when, at) and line_of(row, at) is not None


def open_rows(at: Standing, slot: str) -> Sequence[Row]:
    """The rows of a slot that are in their ages, not said yet, and fit the farm, in order; worked
    out once for all farms of the same traits that were told the same. What a step before they come
    waits for stands in the record, so those days are never shared."""
    if at.age < 0:
        return _worked_out(at, slot)
    answered = fire_in_answer(at)
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
    if row.by is not None and row.id in at.said:
        return not row.essential, False, row.priority + AGAIN  # what was never said goes first
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
    if row.slot in FIRE and (_fire_waits(at) or (row.first == 0 and fire_in_answer(at))):
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


def fire_in_answer(at: Standing) -> bool:
    """Whether the answer to "arrived" carried the fire texts: with the night, unless they had gone
    out within a day before."""
    if at.batch.arrived_at is None or not night_in_answer(at.case, at.batch):
        return False
    return not fire_is_fresh(at, at.batch.arrived_at.astimezone(at.case.cooperative.zone))


def fire_is_fresh(at: Standing, local: datetime) -> bool:
    """Whether the fire texts of an evening are less than a day old at this hour."""
    last = fire_told(at.batch, local.date())
    if last is None:
        return False
    ago = (local.date() - last).days
    return ago < 1 or (ago == 1 and local.time() < at.night_opens)


def fire_told(batch: Batch, until: date) -> date | None:
    """The last day up to `until` on which a fire text went out."""
    days = batch.said_days.slots.items()
    return max((day for day, slots in days if day <= until and not FIRE.isdisjoint(slots)),
               default=None)  # fmt: skip


def fire_kept(batch: Batch, day: date) -> str:
    """What stays said of fire when their coming moves to `day`, as lines of facts.told: once is
    enough while they are waited for; with the birds it comes anew."""
    fire = [one for one in batch.said if one.slot in FIRE and (day - one.on_date).days <= FIRE_DAYS]
    return lines_of(Said(f"{one.row.partition('_')[0]}_before", one.on_date, one.slot)
                    for one in fire)  # fmt: skip


def _fire_waits(at: Standing) -> bool:
    """While they are still waited for, once in a week is enough."""
    last = fire_told(at.batch, at.today - timedelta(days=1)) if at.age <= 0 else None
    waited = at.batch.arrived_at is None
    return waited and last is not None and (at.today - last).days < FIRE_DAYS


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
