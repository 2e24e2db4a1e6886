"""The first day by the hour: the reminder to feed two hours after arrival, and the crop question
six hours after the first feed. In: where a batch stands. Out: Dues. Pure; called by `bot.day.due`.

The answer to "arrived" has said it all already (`bot.day.arrival`); these are reminders, between
05:00 and 22:00, never sent late, and not at all where the operator's hours are strict.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from bot.day.asks import question_of
from bot.day.compose import whose_line
from bot.day.figures import FEED_AFTER
from bot.day.items import ASK, Due
from bot.day.rows import line_of, rows_due
from bot.day.standing import Standing, pushes_at, strict
from bot.facts.farm import Batch, Case
from bot.facts.talk import Line, Question

CROP_AFTER = timedelta(hours=6)  # from the first feed
LATE: Mapping[str, timedelta] = {"feed": timedelta(hours=1), "crop": timedelta(hours=2)}
TALKING = timedelta(hours=2)
CROP_ASK = "crop"


def hour_moments(case: Case, batch: Batch) -> dict[str, datetime]:
    """When the reminders of the first day go, by slot; those of the night are left out."""
    if batch.state != "running" or batch.arrived_at is None or strict(case):
        return {}
    feed = batch.arrived_at + FEED_AFTER
    moments = {"feed": feed, "crop": feed + CROP_AFTER}
    zone = case.cooperative.zone
    return {
        slot: at
        for slot, at in moments.items()
        if pushes_at(case, at.astimezone(zone).time())
        and at.astimezone(zone).date() == batch.placed_on
    }


def hours(at: Standing) -> tuple[Due, ...]:
    """The reminders whose hour has come and is not past."""
    if at.age != 0:
        return ()
    found: list[Due] = []
    for slot, due_at in hour_moments(at.case, at.batch).items():
        if due_at <= at.now < due_at + LATE[slot] and slot not in at.slots:
            made = _one(at, slot, due_at)
            if made is not None:
                found.append(made)
    return tuple(found)


def _one(at: Standing, slot: str, due_at: datetime) -> Due | None:
    rows = [(row, line) for row in rows_due(at, slot) if (line := line_of(row, at)) is not None]
    if not rows:
        return None
    whose = whose_line(at)
    asked = None if _talking(at) else _question(at, slot)
    if asked is None and slot == "crop":
        return None
    return Due(
        slot=slot,
        on_date=at.today,
        rows=(*(row.id for row, _ in rows), *((ASK + asked.name,) if asked else ())),
        lines=(*([whose] if whose else []), *(line for _, line in rows)),
        question=asked,
        klass="routine",
        expires_at=due_at + LATE[slot],
    )


def _question(at: Standing, slot: str) -> Question | None:
    if slot == "feed":
        if at.batch.live_events("dead_on_arrival") or whose_line(at) is not None:
            return None
        about = {"batch": str(at.batch.id)}
        return Question("dead_on_arrival", "number", "deaths", Line("q_dead_on_arrival"), (),
                        0.0, float(at.batch.alive), about)  # fmt: skip
    ask = next((one for one in at.calendar.all_asks if one.id == CROP_ASK), None)
    if ask is None:
        return None
    made = question_of(ask, at)
    return replace(made, about={**made.about, "hours": str(CROP_AFTER.seconds // 3600)})


def _talking(at: Standing) -> bool:
    question = at.case.question
    return question is not None and not question.pushed and at.now - question.asked_at < TALKING
