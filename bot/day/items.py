"""What falls due: `Due`, one text (or one quiet note) for one batch. Made by the files beside it;
worded and sent by the clock's tick."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Literal

from bot.day.standing import Standing
from bot.day.walltime import moment
from bot.facts.talk import Line, Question
from bot.facts.writes import Write

Class = Literal["routine", "night", "check_back", "danger"]
ASK = "ask:"  # a question stands among the rows said as ask:<its id>


@dataclass(frozen=True, slots=True)
class Due:
    """One thing due for one batch: slot with on_date (local) is its key within the placement.

    rows: what is noted as said. lines and question: the text; none of both: only rows and writes.
    expires_at: aware, UTC; later the text is stale and is dropped.
    """

    slot: str
    on_date: date
    rows: tuple[str, ...]
    lines: tuple[Line, ...]
    question: Question | None
    klass: Class
    expires_at: datetime
    writes: tuple[Write, ...] = ()


def until(at: Standing, close: time, days: int = 0) -> datetime:
    """The moment at which a wall clock shows `close` today, or days later."""
    return moment(at.today + timedelta(days=days), close, at.case.cooperative.zone)
