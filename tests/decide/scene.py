"""A farm in the middle of a batch's life, ready to be talked to."""

from __future__ import annotations

from bot.doors.context import read_context
from bot.doors.rehearsal import Rehearsal
from bot.doors.scene import set_the_scene
from bot.facts.writes import TellAdviser
from bot.turn.take import Taken

NOON, NIGHT = "2026-07-09T13:00:00+03:00", "2026-07-09T02:10:00+03:00"


def at_age(rehearsal: Rehearsal, age: int, *, count: int = 300, language: str = "en") -> None:
    """It is nine in the morning on this age of so many birds."""
    context = {"has_batch": True, "age_days": age, "count": count, "today": "2026-03-04"}
    set_the_scene(rehearsal, read_context(language, context))


def stand(rehearsal: Rehearsal, language: str, now: str = NOON, **farm: object) -> None:
    """It is this moment on a farm; what is not told of it is that of 300 chicks of 8 days."""
    context = {"has_batch": True, "age_days": 8, "count": 300, "today": now[:10], "now": now}
    set_the_scene(rehearsal, read_context(language, {**context, **farm}))


def keys(rehearsal: Rehearsal, text: str) -> list[str]:
    """The keys of every line that answers a text, and its question's name last."""
    decision = rehearsal.say(text)[0].decision
    said = [line.key for line in decision.lines]
    said += [line.key for text in decision.more for line in text]
    return [*said, decision.question.name if decision.question else ""]


def told(taken: Taken, kind: str) -> list[str]:
    """What this answer told the adviser of one kind."""
    writes = taken.decision.writes
    return [one.reason for one in writes if isinstance(one, TellAdviser) and one.kind == kind]
