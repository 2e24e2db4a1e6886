"""A farm in the middle of a batch's life, ready to be talked to."""

from __future__ import annotations

from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.facts.writes import TellAdviser
from bot.turn.take import Taken


def at_age(rehearsal: Rehearsal, age: int, *, count: int = 300, language: str = "en") -> None:
    """It is nine in the morning on this age of so many birds."""
    context = {"has_batch": True, "age_days": age, "count": count, "today": "2026-03-04"}
    set_the_scene(rehearsal, read_context(language, context))


def told(taken: Taken, kind: str) -> list[str]:
    """What this answer told the adviser of one kind."""
    writes = taken.decision.writes
    return [one.reason for one in writes if isinstance(one, TellAdviser) and one.kind == kind]
