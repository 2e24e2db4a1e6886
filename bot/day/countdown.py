"""The steps before they come: which are done, which are still to be said, which are late.

In: a row that is a step, where the batch stands. Out: yes or no, the question behind a step, what
the adviser is told. What a farmer answered stays with the batch, also when its day is moved. Pure;
called by rows, morning and the answers.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime

from bot.day.items import ASK
from bot.day.standing import Standing
from bot.facts.farm import Batch, Case, Event, OpenQuestion
from bot.facts.talk import Line, Question
from bot.facts.writes import TellAdviser
from bot.handbook.shape_calendar import Calendar, Row

STEPS = "+"  # between the steps that one question asks about
AGAIN = 3  # days until a step that was "not yet" is asked about again (common practice)
STEP_ASK = "done_step"
SHOWN_BY = {"buy_fuel": "fuel_in"}  # a step that is done once such an entry was told
LATE = "late:"  # the row under which it is noted that the adviser was told


def answered(batch: Batch, row: str) -> Event | None:
    """The last answer to a step: done or not yet; None where nothing came."""
    told = [one for one in batch.live_events("step") if one.values.get("row") == row]
    return max(told, key=lambda one: one.id, default=None)


def is_done(batch: Batch, row: str) -> bool:
    """Whether the farmer said that it is done, or told what shows it."""
    last = answered(batch, row)
    shown = SHOWN_BY.get(row)
    return (last is not None and last.values.get("done") is True) or (
        shown is not None and bool(batch.live_events(shown))
    )


def is_open(row: Row, at: Standing) -> bool:
    """Whether a step is to be said today: never said; said to be not yet, some days ago; or
    essential, unanswered, and due today. Nobody is asked twice for the rest."""
    if row.by is None or is_done(at.batch, row.id) or _next_is_done(row, at):
        return False
    last = at.said.get(row.id)
    if last is None:
        return True
    ago, is_due = (at.today - last).days, at.age == row.by
    if is_promised(row, at):
        return ago >= AGAIN or (is_due and ago > 0)
    return row.essential and is_due and ago > 0


def _next_is_done(row: Row, at: Standing) -> bool:
    """Whether a step that only comes after this one was said to be done: then this one was too."""
    return any(is_done(at.batch, one.id) for one in at.calendar.all_rows if one.after == row.id)


def is_promised(row: Row, at: Standing) -> bool:
    """Whether it was answered "not yet", and we said that we ask again and did not do so since."""
    told = None if row.by is None else answered(at.batch, row.id)
    last = at.said.get(row.id)
    return told is not None and (last is None or last <= told.on_date)


def step_question(rows: Sequence[Row], at: Standing) -> Question | None:
    """Done? 1 done 2 not yet: of these steps, which are named in its `about`."""
    ask = next((one for one in at.calendar.all_asks if one.id == STEP_ASK), None)
    if ask is None:
        return None
    about = {"batch": str(at.batch.id), "step": STEPS.join(row.id for row in rows)}
    return Question(ask.name, ask.kind, ask.prompt, Line(ask.text), ask.options, about=about)


def step_told(case: Case, calendar: Calendar) -> OpenQuestion | None:
    """The question of the last text that named a step: it may be answered until the next one comes,
    also when another question stood between or its day is over. None where none waits."""
    ask = next((one for one in calendar.all_asks if one.id == STEP_ASK), None)
    steps = {row.id for row in calendar.all_rows if row.by is not None}
    found: tuple[date, Batch, tuple[str, ...]] | None = None
    for batch in case.batches:
        day = batch.said_days.last.get(STEP_ROW) if batch.state == "planned" else None
        if day is None or (batch.age(case.today) or 0) >= 0 or (found and day < found[0]):
            continue
        rows = tuple(one.row for one in batch.said if one.on_date == day and one.row in steps)
        found = (day, batch, rows)
    if ask is None or found is None:
        return None
    day, batch, rows = found
    about = {"batch": str(batch.id), "step": STEPS.join(rows)}
    asked_at = datetime.combine(day, case.cooperative.routine_at, case.cooperative.zone)
    return OpenQuestion(0, ask.name, ask.kind, ask.prompt, asked_at.astimezone(UTC), ask.options,
                        about=about, batch_id=batch.id, pushed=True)  # fmt: skip


def is_late(row: str, age: int | None, calendar: Calendar) -> bool:
    """Whether an essential step that is not done by this age matters so that the adviser should
    know."""
    known = next((one for one in calendar.all_rows if one.id == row), None)
    if known is None or known.by is None or age is None:
        return True
    return known.essential and age >= known.by


def overdue(at: Standing) -> tuple[tuple[TellAdviser, ...], tuple[str, ...]]:
    """What the adviser is told this morning of essential steps whose day has passed with no word
    that they are done, once a step; and the rows under which it is noted."""
    if at.age >= 0:
        return (), ()
    late = [
        row
        for row in at.calendar.all_rows
        if row.by is not None
        and row.essential
        and row.by < at.age
        and row.id in at.said
        and LATE + row.id not in at.said
        and not is_done(at.batch, row.id)
        and not _told_late(row, at)
    ]
    if not late:
        return (), ()
    steps = ", ".join(row.id.replace("_", " ") for row in late)
    reason = f"no word that it is done, chicks in {-at.age} days: {steps}"
    told = {"steps": [row.id for row in late], "days": -at.age}
    return (TellAdviser("late", reason, at.batch.id, told),), tuple(LATE + row.id for row in late)


def _told_late(row: Row, at: Standing) -> bool:
    """Whether "not yet" came when it was late already: then the answer told the adviser."""
    last = answered(at.batch, row.id)
    age = None if last is None else at.batch.age(last.on_date)
    return row.by is not None and age is not None and age >= row.by


STEP_ROW = ASK + STEP_ASK
