"""The night text, and fire in texts of its own, at 17-18 h. In: where a batch stands. Out: Dues.
Pure; called by `bot.day.due`."""

from __future__ import annotations

from datetime import time

from bot.day.compose import whose_line
from bot.day.items import Due, until
from bot.day.rows import any_due, line_of, night_in_answer, rows_due
from bot.day.standing import Standing, no_fire_tonight, people_first

NIGHT = "night"
SLOTS = (NIGHT, "fire", "fumes")
STALE = time(22, 0)


def evening(at: Standing) -> tuple[Due, ...]:
    """What is said this evening: at most one night text, and the fire texts where they are due."""
    if not at.night_opens <= at.local.time() < at.closes:
        return ()
    return tuple(due for slot in SLOTS if (due := _one(at, slot)) is not None)


def has_evening(at: Standing) -> bool:
    """Whether anything is to be said on this day's evening."""
    return any(_is_due(at, slot) for slot in SLOTS)


def _is_due(at: Standing, slot: str) -> bool:
    if slot in at.slots or (slot == NIGHT and at.age == 0 and night_in_answer(at.case, at.batch)):
        return False
    if slot == NIGHT and (people_first(at) or no_fire_tonight(at)):
        return False
    return any_due(at, slot)


def _one(at: Standing, slot: str) -> Due | None:
    if not _is_due(at, slot):
        return None
    row = rows_due(at, slot)[0]
    line = line_of(row, at)
    if line is None:
        return None
    whose = whose_line(at) if slot == NIGHT else None
    return Due(
        slot=slot,
        on_date=at.today,
        rows=(row.id,),
        lines=(*([whose] if whose else []), line),
        question=None,
        klass="night",
        expires_at=until(at, STALE),
    )
