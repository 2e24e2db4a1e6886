"""A farmer's phone to practise on: a conversation with the real engine, played anew from its first
text at each step, on a database in memory. In: the steps. Out: what stands on the phone. Nothing is
sent and nothing is kept. Called by the desk's page "Practice phone".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.doors.context import read_context
from bot.doors.rehearsal import Heard, Rehearsal
from bot.doors.scene import set_the_scene
from bot.say.segments import measure
from bot.wiring import Thinking

BEGINNINGS = ("invited", "joined", "day_1", "day_4", "day_11", "day_22")
BEGINS_AT = time(9, 0)
WAITS = {"+3h": timedelta(hours=3), "+1d": timedelta(days=1), "+7d": timedelta(days=7)}
LATER = timedelta(minutes=7)  # after the last text: so nobody runs into the limit of an hour
MOST_STEPS = 25  # below the answers a day that a phone gets
MOST_WAIT = timedelta(days=35)
LONGEST = 160  # letters; farmers write one part
BIRDS, STOVES = 300, 3


@dataclass(frozen=True, slots=True)
class Script:
    """A conversation. begins: one of BEGINNINGS. on: the local day of the first text. steps: texts
    of the farmer, and spans of time as in WAITS."""

    language: str
    begins: str
    on: date
    steps: tuple[str, ...] = ()

    def with_step(self, step: str) -> Script | None:
        """One step more; None where there is no room for it."""
        tidy = " ".join(step.split())[:LONGEST]
        steps = (*self.steps, tidy)
        waited = sum((WAITS[one] for one in steps if one in WAITS), timedelta())
        if not tidy or len(steps) > MOST_STEPS or waited > MOST_WAIT:
            return None
        return Script(self.language, self.begins, self.on, steps)


@dataclass(frozen=True, slots=True)
class Shown:
    """One line on the phone. side: "farmer", "machine", or "time": that time passed."""

    at: datetime
    side: str
    text: str
    parts: int = 0


def played(thinking: Thinking, cooperative: Mapping[str, object], script: Script) -> list[Shown]:
    """The whole conversation. cooperative: the row of the real one."""
    rehearsal = Rehearsal(thinking)
    try:
        zone = ZoneInfo(str(cooperative["timezone"]))
        _begin(rehearsal, cooperative, script, zone)
        return list(_lines(rehearsal, script))
    finally:
        rehearsal.db.close()


def _begin(
    rehearsal: Rehearsal, cooperative: Mapping[str, object], script: Script, zone: ZoneInfo
) -> None:
    now = datetime.combine(script.on, BEGINS_AT, zone)
    day = script.begins.removeprefix("day_")
    if not day.isdigit():
        rehearsal.begin(now)
        rehearsal.belong_to(cooperative)
        asks = script.begins == "invited"
        (rehearsal.ask_to_join if asks else rehearsal.join)(script.language)
        return
    scene = {"has_batch": True, "age_days": int(day) - 1, "count": BIRDS, "heat": "charcoal",
             "heat_count": STOVES, "thermometer": False, "now": now.isoformat(),
             "today": script.on.isoformat()}  # fmt: skip
    set_the_scene(rehearsal, read_context(script.language, scene))
    rehearsal.belong_to(cooperative)


def _lines(rehearsal: Rehearsal, script: Script) -> Iterator[Shown]:
    yield from _ours(rehearsal.heard())
    for step in script.steps:
        if step in WAITS:
            rehearsal.wait(WAITS[step])
            yield from _ours(rehearsal.heard())
            yield Shown(rehearsal.clock.moment, "time", step)
            continue
        said = rehearsal.clock.moment + LATER
        _, heard = rehearsal.say(step, LATER)
        yield from _ours(one for one in heard if one.at < said)
        yield Shown(said, "farmer", step)
        yield from _ours(one for one in heard if one.at >= said)


def _ours(heard: Iterable[Heard]) -> Iterator[Shown]:
    for one in heard:
        yield Shown(one.at, "machine", one.text, measure(one.text).parts)
