"""The one question of a routine text, or none. In: where a batch stands and the room that is left.
Out: an Ask and its Question. Pure; called by morning and hours.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import timedelta

from bot.day.conditions import holds_by_record, holds_for, traits
from bot.day.figures import figure
from bot.day.items import ASK
from bot.day.standing import Standing
from bot.facts.talk import Line, Question
from bot.handbook.shape_calendar import Ask

TALKING = timedelta(hours=2)  # a farmer's own talk is not cut off by a question of ours
HELP_ROW, HELP_EVERY = "menu_help", 7
HELD_BACK = ("check_back", "danger", "sign:")


def choose_ask(at: Standing, room: int, *, younger_asks: Callable[[], bool]) -> Ask | None:
    """The question that is asked now and fits into `room` septets, its space included."""
    due = (ask for ask in _open_asks(at) if ask.size < room and holds_by_record(ask.when, at))
    found = next(due, None)
    if found is None or not _may_ask(at) or younger_asks():
        return None
    return found


def _open_asks(at: Standing) -> Sequence[Ask]:
    """The questions of this age whose turn it is and that fit the farm, worked out once for all
    farms of the same traits that were told the same."""
    key = (at.calendar, ASK, at.age, at.today, traits(at))
    memo = at.batch.said_days.memo
    if key not in memo:
        memo[key] = [ask for ask in at.calendar.asks.get(at.age, ()) if _is_open(ask, at)]
    found: Sequence[Ask] = memo[key]
    return found


def question_of(ask: Ask, at: Standing) -> Question:
    """The question as it is put: a number without an upper limit ends at the birds alive."""
    high = ask.high
    if ask.kind == "number" and high is None:
        high = float(at.batch.alive)
    values = {name: figure(name, at) or 0 for name in ask.figures}
    line = Line(ask.text, values)
    return Question(ask.name, ask.kind, ask.prompt, line, ask.options, ask.low, high,
                    {"batch": str(at.batch.id)})  # fmt: skip


def needs_help_line(ask: Ask, at: Standing) -> bool:
    """8 (call me) and 9 (not me) are printed with the first menu and then once a week."""
    last = at.said.get(HELP_ROW)
    return ask.kind == "menu" and (last is None or (at.today - last).days >= HELP_EVERY)


def _is_open(ask: Ask, at: Standing) -> bool:
    if not holds_for(ask.when, traits(at)):
        return False
    before = None if ask.after is None else at.said.get(ask.after)
    if ask.after is not None and (before is None or before >= at.today):
        return False
    days = [(at.today - day).days for day in at.batch.said_days.rows.get(ASK + ask.id, ())]
    if len(days) >= ask.times:
        return False
    into = (at.age - ask.first) % ask.every  # days into this turn
    if ask.window is not None and into >= ask.window:
        return False
    if days and min(days) < (ask.every if ask.window is None else into + 1):
        return False
    return ask.priority <= at.calendar.pace.always or _is_time(at)


def _is_time(at: Standing) -> bool:
    """Routine questions keep a gap of days between them."""
    pace = at.calendar.pace
    gap = pace.early_gap if at.age <= pace.early_last else pace.late_gap
    asked = [day for row, day in at.said.items() if row.startswith(ASK)]
    return not asked or (at.today - max(asked)).days >= gap


def _may_ask(at: Standing) -> bool:
    """Nothing more pressing is being asked: a check-back, a danger, the farmer's own talk."""
    if at.batch.open_alarm(at.today) is not None:
        return False
    complaint = at.batch.complaint
    if complaint is not None and complaint.state == "open" and complaint.check_at is not None:
        return False
    question = at.case.question
    if question is None:
        return True
    if question.name.startswith(HELD_BACK):
        return False
    return question.pushed or at.now - question.asked_at >= TALKING
