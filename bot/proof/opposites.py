"""No farmer is told two opposite things on one day.

In: the calendar. Out: faults. Called by proofread and the tests. Every kind of farm is played
through as it would be told, with the acts that its rows name (content/calendar/opposites.yaml).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from bot.day.items import Due
from bot.handbook.shape_calendar import Calendar, Row
from bot.proof.fault import Fault

FILE = "calendar/opposites.yaml"
CLOSES = ("heat_more", "close")


def opposed(told: Iterable[tuple[int, Due]], calendar: Calendar) -> Iterator[tuple[int, str, str]]:
    """(age, row, row) of one day that contradict each other. told: (age, what was said)."""
    rows = {row.id: row for row in calendar.all_rows}
    days: dict[int, list[Row]] = defaultdict(list)
    for age, one in told:
        days[age] += [rows[name] for name in one.rows if name in rows]
    for age, said in sorted(days.items()):
        for one_act, other in calendar.against:
            yield from (
                (age, a.id, b.id)
                for a in said
                for b in said
                if one_act in a.does and other in b.does
            )


def check_opposites(
    lives: Iterable[tuple[str, Iterable[tuple[int, Due]]]], calendar: Calendar
) -> Iterator[Fault]:
    """Days on which two rows contradict each other. lives: (kind of farm, all it was told)."""
    told: set[tuple[str, str]] = set()
    for kind, life in lives:
        for age, one, other in opposed(life, calendar):
            if (one, other) not in told:
                told.add((one, other))
                yield Fault(FILE, f"{one}, {other}", f"age {age}, {kind}: they contradict")


def check_acts(calendar: Calendar) -> Iterator[Fault]:
    """A row whose text adds heat or closes curtains says so, so that it is held against others."""
    for row in calendar.all_rows:
        how = row.slot in ("fire", "fumes")  # how a fire is lit, not whether
        if row.fire and not how and not any(act.endswith(CLOSES) for act in row.does):
            yield Fault("calendar", row.id, "adds heat or closes curtains; `does` must say so")
