"""The writes that keep a story: what is put down of a trouble, so that we stay with it.

In: the batch, the story, what was decided. Out: writes. Called by `decide.observe`.
"""

from __future__ import annotations

from datetime import UTC, date, datetime

from bot.diagnosis.story import HANG, Heard, Story
from bot.facts.farm import Batch
from bot.facts.writes import AddEvent, ChangeComplaint, OpenComplaint, Write


def keep(
    batch: Batch | None,
    story: Story,
    *,
    cause: str | None,
    actions: tuple[str, ...] = (),
    check_at: datetime | None = None,
) -> tuple[Write, ...]:
    """Open the complaint, or change the open one; one that is over is closed first."""
    if batch is None:
        return ()
    at = None if check_at is None else check_at.astimezone(UTC)
    if story.complaint_id is not None:
        changes: dict[str, object] = {
            "cause": cause,
            "signals": story.signals,
            "not_signals": story.not_signals,
            "asked": story.asked,
            "check_at": at,
        }
        if actions:
            changes["tried"] = (*story.tried, *actions)
        return (ChangeComplaint(story.complaint_id, changes),)
    opened = OpenComplaint(
        batch.id, cause, story.signals, story.not_signals, story.asked, actions, at
    )
    return (*_over(batch), opened)


def close(batch: Batch | None) -> tuple[Write, ...]:
    """The trouble is over."""
    return () if batch is None else _over(batch)


def _over(batch: Batch) -> tuple[Write, ...]:
    if batch.complaint is None:
        return ()
    return (ChangeComplaint(batch.complaint.id, {"state": "closed", "check_at": None}),)


def events(
    batch: Batch | None,
    today: date,
    heard: Heard,
    value_c: float | None = None,
    rh_pct: float | None = None,
) -> tuple[Write, ...]:
    """What was seen and read, into the batch's record."""
    if batch is None:
        return ()
    found: list[Write] = []
    if heard.signals or heard.not_signals:
        seen = {"signals": list(heard.signals), "not_signals": list(heard.not_signals)}
        found.append(AddEvent(batch.id, "observed", today, seen))
    if heard.hang is not None:
        found.append(AddEvent(batch.id, "observed", today, {HANG: heard.hang}))
    if value_c is not None:
        found.append(AddEvent(batch.id, "temperature", today, {"value_c": value_c}))
    if rh_pct is not None:
        found.append(AddEvent(batch.id, "humidity", today, {"rh_pct": rh_pct}))
    return tuple(found)
