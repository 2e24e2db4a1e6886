"""After a danger: did the farmer reach the vet? Asked some hours later, then for two mornings more.
In: where a batch stands. Out: Due, or its moment. Pure; called by `bot.day.due` and moments.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, time, timedelta

from bot.day.items import ASK, Due, until
from bot.day.standing import LATEST, PUSH_FROM, Standing
from bot.day.walltime import moment
from bot.facts.farm import Batch, Case, Event
from bot.facts.talk import Line, Question

FIRST = timedelta(hours=4)  # time to call and be called back; common practice, no source
TIMES = 3
REACHED = "vet_reached"


def alarm_moment(case: Case, batch: Batch, said: Mapping[str, date]) -> datetime | None:
    """When the vet is next asked about; None where no alarm is open, or it was asked often enough.
    said: row -> the last local day on which it was said."""
    alarm = batch.open_alarm(case.today)
    if alarm is None:
        return None
    zone = case.cooperative.zone
    opens = max(case.cooperative.routine_at, case.cooperative.allowed_from, PUSH_FROM)
    asked = [day for day in (said.get(_row(alarm, turn)) for turn in range(TIMES)) if day]
    if len(asked) == TIMES:
        return None
    if asked:
        return moment(max(asked) + timedelta(days=1), opens, zone)
    soon = (alarm.at + FIRST).astimezone(zone)
    if opens <= soon.time() < min(LATEST, case.cooperative.allowed_to):
        return soon.astimezone(UTC)
    day = soon.date() if soon.time() < opens else soon.date() + timedelta(days=1)
    return moment(day, opens, zone)


def alarm_back(at: Standing) -> Due | None:
    """The question about the vet, when its hour has come."""
    due_at = alarm_moment(at.case, at.batch, at.said)
    alarm = at.batch.open_alarm(at.today)
    closes: time = at.closes
    if alarm is None or due_at is None or at.now < due_at or at.local.time() >= closes:
        return None
    turn = sum(_row(alarm, one) in at.said for one in range(TIMES))
    row = _row(alarm, turn)
    about = {"batch": str(at.batch.id)}
    line = Line("q_vet_reached")
    return Due(
        slot=row,
        on_date=at.today,
        rows=(row, ASK + REACHED),
        lines=(),
        question=Question(REACHED, "menu", "yes_no", line, ("yes", "no"), about=about),
        klass="danger",
        expires_at=until(at, closes),
    )


def _row(alarm: Event, turn: int) -> str:
    return f"vet-{alarm.id}-{turn}"
