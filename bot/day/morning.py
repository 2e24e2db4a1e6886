"""The routine text: what this batch needs today, in one text a day. In: where a batch stands.
Out: Due, or None where nothing is to be said now. Pure; called by `bot.day.due`.

After an outage the catch-up is simply this day's text; after 20:00 it is the next morning's.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from bot.day.asks import HELP_ROW, choose_ask, needs_help_line, question_of
from bot.day.checks import joining_check, noted, worked
from bot.day.compose import (
    Page,
    opened,
    place_essentials,
    place_others,
    place_steps,
    sign,
    whose_line,
)
from bot.day.countdown import STEP_ROW, overdue, step_question
from bot.day.items import ASK, Due, until
from bot.day.rows import FIRE, open_rows
from bot.day.standing import (
    SILENCE,
    Standing,
    is_awaited,
    people_first,
    silence_is_new,
    silent_days,
)
from bot.facts.talk import Line, Question
from bot.facts.writes import ChangeBatch, TellAdviser, Write

SLOT = "morning"
AFTER_JOINING = timedelta(hours=1)  # the first text leaves the farmer's own talk some room
INTAKE = ("feed_falls", "water_falls")
OFF = {"cold_long": "low", "hot_long": "high"}
MOVE_ROWS = ("move_ready", "move_cool", "move_cool_bulbs", "move_cool_bare")


def morning(at: Standing, *, younger_asks: Callable[[], bool]) -> Due | None:
    """This day's routine text, if its hour has come and it was not said."""
    if not is_time(at) or people_first(at):
        return None
    page = opened(at)
    rows = open_rows(at, SLOT)
    check = joining_check(at)
    mark = None if _awaited_by_name(at) else sign(at)
    reserve = 0 if mark is None else page.sizes[mark.key] + 1
    if at.age < 0:
        place_steps(page, rows, at)
    else:
        place_essentials(page, [row for row in rows if row.essential], at, reserve)
    if mark is not None and page.fits(page.sizes[mark.key]):
        page.add(mark)
    question, asked, help_line = _question(at, page, younger_asks=younger_asks)
    if at.age >= 0:
        place_others(page, [row for row in rows if not row.essential], at)
    if at.age < 0 and not page.jobs and question is None:
        return None
    writes: list[Write] = _silence(at)
    if check is not None and question is not None and question.name == "check_back":
        writes.append(noted(check))
    writes += _warned(page, at)
    late, noted_late = overdue(at)
    writes += late
    if any(row.id in MOVE_ROWS for row in page.jobs):
        writes.append(ChangeBatch(at.batch.id, {"house": "open", "moved_on": at.today}))
    silence = (SILENCE,) if silence_is_new(at) else ()
    return Due(
        slot=SLOT,
        on_date=at.today,
        rows=(*(row.id for row in page.jobs), *asked, *silence, *noted_late) or ("day",),
        lines=(*_in_order(page, mark), *help_line),
        question=question,
        klass="routine",
        expires_at=until(at, at.closes),
        writes=tuple(writes),
    )


def is_time(at: Standing) -> bool:
    """Between the routine hour and 20:00, once a day; not on the day of an arrival, which the
    answer to it has told; a newcomer's first text an hour after their own."""
    if SLOT in at.slots or not at.opens <= at.local.time() < at.closes:
        return False
    if at.age == 0 and at.batch.arrived_at is not None:
        return False
    first = first_text_at(at)
    return first is None or at.now >= first


def first_text_at(at: Standing) -> datetime | None:
    """When a batch that was never written to may be: an hour after the farmer's own text of today;
    where today's text moved its placement, not before tomorrow. None where there is nothing to
    wait for."""
    heard = at.case.phone.heard_at
    if heard is None or (at.batch.said and not _waits_anew(at)):
        return None
    if heard.astimezone(at.case.cooperative.zone).date() != at.today:
        return None
    if at.batch.placement_version > 1:
        return until(at, at.closes)
    return heard + AFTER_JOINING


def _awaited_by_name(at: Standing) -> bool:
    """Whether the text of the day on which they are to come names its batch: then "Have they come?"
    needs the room of how warm it is to be for them."""
    return at.age == 0 and is_awaited(at.batch, at.age) and whose_line(at) is not None


def _waits_anew(at: Standing) -> bool:
    """Whether nothing but fire texts was said since the placement moved."""
    slots = at.batch.said_days.slots.values()
    return at.batch.placement_version > 1 and all(FIRE.issuperset(one) for one in slots)


def _question(
    at: Standing, page: Page, *, younger_asks: Callable[[], bool]
) -> tuple[Question | None, tuple[str, ...], tuple[Line, ...]]:
    """The question, its row, and the line on 8 and 9 where it is time for it."""
    check = joining_check(at)
    if check is not None:
        question = worked(at, check)
        size = page.sizes[question.line.key]
        if not page.bars_question and page.fits(size):
            page.take(size)
            return question, (ASK + question.name,), ()
        return None, (), ()
    if page.bars_question:
        return None, (), ()
    step = _step(page, at)
    if step is not None:
        return step, (STEP_ROW,), ()
    ask = choose_ask(at, page.left, younger_asks=younger_asks)
    if ask is None:
        return None, (), ()
    page.take(ask.size)
    rows: tuple[str, ...] = (ASK + ask.id,)
    helping: tuple[Line, ...] = ()
    if needs_help_line(ask, at) and page.fits(page.sizes[HELP_ROW]):
        page.take(page.sizes[HELP_ROW])
        rows, helping = (*rows, HELP_ROW), (Line(HELP_ROW),)
    return question_of(ask, at), rows, helping


def _step(page: Page, at: Standing) -> Question | None:
    """The one question of the steps on the page, whose room was kept."""
    asked = step_question(page.jobs, at) if at.age < 0 and page.jobs else None
    if asked is None:
        return None
    page.take(page.sizes[asked.line.key])
    return asked


def _in_order(page: Page, mark: Line | None) -> tuple[Line, ...]:
    """Head, sign, then the jobs."""
    if mark is None or mark not in page.lines:
        return tuple(page.lines)
    heads = [line for line in page.lines if line.key in _HEADS]
    jobs = [line for line in page.lines if line.key not in _HEADS and line is not mark]
    return (*heads, mark, *jobs)


_HEADS = ("day", "day_before", "day_today", "whose", "whose_count")


def _warned(page: Page, at: Standing) -> list[Write]:
    """A warning that is said goes to the adviser too."""
    told = {code for row in page.jobs for code in row.when.warned}
    writes: list[Write] = []
    if told.intersection(INTAKE):
        reason = f"they eat or drink less than before, day {at.age + 1}"
        writes.append(TellAdviser("intake", reason, at.batch.id, {"day": at.age + 1}))
    for code, side in OFF.items():
        if code in told:
            reason = f"readings too {side} for two days, day {at.age + 1}"
            side_told = {"what": side, "day": at.age + 1}
            writes.append(TellAdviser("heat", reason, at.batch.id, side_told))
    return writes


def _silence(at: Standing) -> list[Write]:
    """Silence is not illness, but the adviser should know, once."""
    if not silence_is_new(at) or (at.batch.state == "planned" and not is_awaited(at.batch, at.age)):
        return []
    days = silent_days(at)
    told = {"days": days, "day": at.age + 1}
    reason = f"no word for {days} days, day {at.age + 1}"
    return [TellAdviser("silent", reason, at.batch.id, told)]
