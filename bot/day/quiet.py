"""When a text of ours may go: the hours an operator allows, and the quiet intervals that a
cooperative adds (prayers, market, a feast). In: a cooperative, a moment, a class of text. Out: the
moment it may go. Pure. Called by turn.tick, turn.take and the settings.

An answer and danger go at any hour. What the calendar plans knows the operator's hours by itself;
what other people's wishes bring (an invitation, a caretaker's yes) does not, and waits for them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from bot.day.walltime import moment
from bot.facts.farm import Cooperative

AT_ANY_HOUR = ("danger", "reply")
UNPLANNED = "system"
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
FARTHEST = 14  # days looked ahead


@dataclass(frozen=True, slots=True)
class Interval:
    """Local hours in which nothing goes: each day, on one weekday (0 is Monday) or on one date."""

    begins: time
    ends: time
    weekday: int | None = None
    on: date | None = None

    def holds(self, day: date) -> bool:
        return (self.weekday is None or day.weekday() == self.weekday) and self.on in (None, day)


def read_intervals(lines: Sequence[str]) -> tuple[Interval, ...]:
    """Intervals as they are written: "12:30-14:00", "friday 12:30-14:00", "2026-12-25 06:00-20:00".
    ValueError names the one that is none."""
    return tuple(_interval(line) for line in lines if line.strip())


def _interval(line: str) -> Interval:
    *day, hours = line.lower().split()
    try:
        begins, ends = (time.fromisoformat(one) for one in hours.split("-"))
        named = day[0] if day else ""
        weekday = DAYS.index(named) if named in DAYS else None
        on = date.fromisoformat(named) if named and weekday is None else None
    except ValueError as error:
        raise ValueError(f"{line!r} is no quiet interval") from error
    if begins >= ends or len(day) > 1:
        raise ValueError(f"{line!r} is no quiet interval: it begins before it ends, on one day")
    return Interval(begins, ends, weekday, on)


def opens(cooperative: Cooperative, at: datetime, klass: str) -> datetime:
    """The first moment from `at` on at which a text of this class may go (aware, UTC)."""
    if klass in AT_ANY_HOUR:
        return at
    for _ in range(FARTHEST * 4):
        later = _behind(cooperative, at, klass)
        if later is None:
            return at
        at = later
    return at


def _behind(cooperative: Cooperative, at: datetime, klass: str) -> datetime | None:
    """The end of the shut time that `at` lies in; None where it is open."""
    local = at.astimezone(cooperative.zone)
    day, hour = local.date(), local.time()
    if klass == UNPLANNED and hour < cooperative.allowed_from:
        return moment(day, cooperative.allowed_from, cooperative.zone)
    if klass == UNPLANNED and hour >= cooperative.allowed_to:
        return moment(day + timedelta(days=1), cooperative.allowed_from, cooperative.zone)
    ends = [one.ends for one in _quiet(cooperative, day) if one.begins <= hour < one.ends]
    return moment(day, max(ends), cooperative.zone) if ends else None


def _quiet(cooperative: Cooperative, day: date) -> Iterator[Interval]:
    return (one for one in read_intervals(cooperative.quiet) if one.holds(day))
