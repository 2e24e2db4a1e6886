"""The farm's wall clock: a local day and time as a moment in UTC.

A local time that does not exist (the clock is put forward) goes at the next that does; one that
occurs twice is the first of the two. Pure; called by the files beside it.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

MINUTE = timedelta(minutes=1)


@lru_cache(maxsize=4096)
def moment(day: date, at: time, zone: ZoneInfo) -> datetime:
    """The moment (aware, UTC) at which a clock on that wall shows `at` on `day`."""
    wall = datetime.combine(day, at)
    found = wall.replace(tzinfo=zone).astimezone(UTC)
    if found.astimezone(zone).replace(tzinfo=None) == wall:
        return found
    before = found - timedelta(hours=3)
    while _wall(before + MINUTE, zone) < wall:
        before += MINUTE
    return before + MINUTE


def _wall(at: datetime, zone: ZoneInfo) -> datetime:
    return at.astimezone(zone).replace(tzinfo=None)
