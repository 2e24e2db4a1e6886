"""After a danger: did the farmer reach the vet? Asked some hours later, then for two mornings more;
once where the birds have all died.
In: where a batch stands. Out: Due, or its moment. Pure; called by `bot.day.due` and moments.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from bot.day.compose import whose_line
from bot.day.items import ASK, Due, until
from bot.day.standing import PUSH_FROM, Standing, is_empty
from bot.day.walltime import moment
from bot.facts.farm import Event
from bot.facts.talk import Line, Question

FIRST = timedelta(hours=4)  # time to call and be called back; common practice, no source
TIMES = 3
TIMES_DEAD = 1  # where none is left alive: for the sake of the next chicks
REACHED = "vet_reached"


def alarm_moment(at: Standing) -> datetime | None:
    """When the vet is next asked about; None where no alarm is open, or it was asked often
    enough."""
    alarm = at.batch.open_alarm(at.today)
    asked = () if alarm is None else _asked(alarm, at)
    if alarm is None or len(asked) >= (TIMES_DEAD if is_empty(at.batch) else TIMES):
        return None
    zone = at.case.cooperative.zone
    opens = max(at.opens, PUSH_FROM)
    if asked:
        return moment(max(asked) + timedelta(days=1), opens, zone)
    soon = (alarm.at + FIRST).astimezone(zone)
    if opens <= soon.time() < at.closes:
        return soon.astimezone(UTC)
    day = soon.date() if soon.time() < opens else soon.date() + timedelta(days=1)
    return moment(day, opens, zone)


def alarm_back(at: Standing) -> Due | None:
    """The question about the vet, when its hour has come."""
    due_at = alarm_moment(at)
    alarm = at.batch.open_alarm(at.today)
    if alarm is None or due_at is None or at.now < due_at or at.local.time() >= at.closes:
        return None
    row = _row(alarm, len(_asked(alarm, at)))
    about = {"batch": str(at.batch.id)}
    line = Line("q_vet_died" if is_empty(at.batch) else "q_vet_reached")
    whose = _whose(at)
    return Due(
        slot=row,
        on_date=at.today,
        rows=(row, ASK + REACHED),
        lines=(whose,) if whose is not None else (),
        question=Question(REACHED, "menu", "yes_no", line, ("yes", "not_yet"), about=about),
        klass="danger",
        expires_at=until(at, at.closes),
    )


def _whose(at: Standing) -> Line | None:
    """The batch's name where it is needed: of one that died out by the chicks that came."""
    named = whose_line(at)
    if named is not None and named.key == "whose_count" and is_empty(at.batch):
        return Line("whose_count", {"count": at.batch.count or 0})
    return named


def _asked(alarm: Event, at: Standing) -> tuple[date, ...]:
    """The local days on which this alarm was asked about."""
    rows = [_row(alarm, turn) for turn in range(TIMES)]
    return tuple(at.said[row] for row in rows if row in at.said)


def _row(alarm: Event, turn: int) -> str:
    return f"vet-{alarm.id}-{turn}"
