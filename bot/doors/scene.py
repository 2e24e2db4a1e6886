"""Sets the scene of a rehearsal: the person, the batch with all that was said to it before, the
open question. In: a rehearsal, a context of contract 2. Called by `broodpost rehearse`, the desk's
practice phone and tests."""

from __future__ import annotations

from datetime import timedelta

from bot.day.due import next_moment, said_until
from bot.doors.context import Context, batch_of, case_of, question_of
from bot.doors.rehearsal import Rehearsal
from bot.facts.told import lines_of


def set_the_scene(rehearsal: Rehearsal, context: Context) -> None:
    """The person, the batch with all that was said to it before, and the open question."""
    rehearsal.begin(context.now)
    rehearsal.join(context.lang or "en")
    if context.has_batch:
        _place_batch(rehearsal, context)
    if context.prompt is not None:
        _open_question(rehearsal, context)


def _place_batch(rehearsal: Rehearsal, context: Context) -> None:
    batch = batch_of(context)
    calendar = rehearsal.thinking.handbook.calendar
    case = case_of(context)
    said = said_until(case, batch, calendar, context.now)
    rehearsal.write(
        "batch",
        [
            {
                "id": batch.id,
                "phone_id": 1,
                "state": batch.state,
                "count": batch.count,
                "placed_on": batch.placed_on,
                "arrived_at": batch.arrived_at,
                "placement_version": 1,
                "heat": "+".join(batch.heat),
                "heat_count": batch.heat_count,
                "thermometer": batch.thermometer,
                "house": batch.house,
                "moved_on": batch.moved_on,
                "held": False,
                "said": lines_of(said),
                "created_at": batch.arrived_at or context.now,
                "next_due": next_moment(case, batch, calendar, context.now),
            }
        ],
    )


def _open_question(rehearsal: Rehearsal, context: Context) -> None:
    asked = question_of(context.prompt or "")
    rehearsal.write(
        "question",
        [
            {
                "phone_id": 1,
                "batch_id": 1 if context.has_batch else None,
                "name": asked.name,
                "kind": asked.kind,
                "prompt": asked.prompt,
                "options": list(asked.options),
                "low": asked.low,
                "high": asked.high,
                "about": {},
                "asked_at": context.now - timedelta(minutes=5),
                "pushed": True,
            }
        ],
    )
