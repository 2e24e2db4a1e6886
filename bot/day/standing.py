"""Where a batch stands at a moment: its age, what was said to it, and what its record says of
heat, sale and silence. In: case, batch, calendar, moment. Out: `Standing`. Pure; called by the
files beside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Any

from bot.diagnosis.story import POISONED, STALE, WARM
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case, Event
from bot.handbook.shape_calendar import UNVENTED, Calendar
from bot.husbandry.space import stoves_needed
from bot.husbandry.stress import heat_stress
from bot.husbandry.temperature import JUDGED_HUMIDITY_PCT
from bot.ledger.ledger import ledger_of
from bot.ledger.withdrawal import wait_ends

LATEST = time(20, 0)  # nothing routine later, whatever the operator allows
PUSH_FROM, PUSH_TO = time(5, 0), time(22, 0)
SILENT_EARLY, SILENT_LATE = 2, 5  # days without a word, ages 0-7 and later
EARLY_LAST = 7
MOST_STOVES = 20
SILENCE = "silence"  # the row under which it is noted that the adviser was told
NEWS = "heard_nothing"  # the row that asks for news
PILED = "piled_near_heat"


@dataclass(frozen=True, slots=True)
class Standing:
    """A batch at a moment. local, today: `now` on the farm's wall clock. age: days since placement.
    said: row -> the last local day on which it was said. slots: the slots said today. memo: what
    was worked out of this standing, so that its many rows need not do it again."""

    case: Case
    batch: Batch
    calendar: Calendar
    now: datetime
    local: datetime
    today: date
    age: int
    said: Mapping[str, date]
    slots: Set[str]
    memo: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)

    @property
    def opens(self) -> time:
        """When the routine text goes, local."""
        return max(self.case.cooperative.routine_at, self.case.cooperative.allowed_from)

    @property
    def night_opens(self) -> time:
        return max(self.case.cooperative.night_at, self.case.cooperative.allowed_from)

    @property
    def closes(self) -> time:
        return min(self.case.cooperative.allowed_to, LATEST)


def standing(case: Case, batch: Batch, calendar: Calendar, now: datetime) -> Standing | None:
    """Where the batch stands; None where nothing is ever due: a draft, a closed batch, a batch
    without a day, and ages before or after the calendar."""
    if batch.state not in ("planned", "running") or batch.placed_on is None:
        return None
    local = now.astimezone(case.cooperative.zone)
    today = local.date()
    age = (today - batch.placed_on).days
    if not calendar.first_age <= age <= calendar.last_age:
        return None
    said = batch.said_days
    slots = said.slots.get(today, frozenset())
    return Standing(case, batch, calendar, now, local, today, age, said.last, slots)


def may_push(case: Case, now: datetime) -> bool:
    """Whether this phone may be sent anything that it did not ask for."""
    phone = case.phone
    muted = phone.muted_until is not None and now < phone.muted_until
    return phone.consent == "active" and not phone.suspended and not muted


def strict(case: Case) -> bool:
    """The operator allows less than our own hours: then the first day is told in the answer only,
    and check-backs keep to the operator's hours."""
    hours = case.cooperative
    return hours.allowed_from > time(6, 0) or hours.allowed_to < LATEST


def pushes_at(case: Case, at: time) -> bool:
    """Whether we may write by ourselves at this local time (danger and smothering apart)."""
    if strict(case):
        return case.cooperative.allowed_from <= at < case.cooperative.allowed_to
    return PUSH_FROM <= at < PUSH_TO


def heat_of(batch: Batch) -> str:
    """The kind of heat that decides the texts; "unknown" until it was said (taken for a fire)."""
    if not batch.heat:
        return "unknown"
    if any(kind in UNVENTED and kind != "gas" for kind in batch.heat):
        return "fire"
    if "gas" in batch.heat:
        return "gas"
    return "bulb" if "bulb" in batch.heat else "none"


def stoves_of(at: Standing) -> int:
    """The stoves this farm said it has, else one for 250 chicks; 0 without birds."""
    batch = at.batch
    if batch.heat_count and (not batch.heat or any(kind in UNVENTED for kind in batch.heat)):
        return min(MOST_STOVES, batch.heat_count)
    return min(MOST_STOVES, stoves_needed(batch.alive, at.calendar.book)) if batch.alive else 0


def is_awaited(batch: Batch, age: int) -> bool:
    """Planned for today or earlier (or soon), and nobody has said that they are here."""
    if batch.state == "planned":
        return True
    return batch.arrived_at is None and age == 0 and not batch.said


def is_empty(batch: Batch) -> bool:
    """A batch that runs and has no bird left, or none but what the last count did not find."""
    if batch.state != "running" or not batch.count:
        return False
    counted = batch.live_events("counted")
    return batch.alive == 0 or (bool(counted) and batch.alive <= ledger_of(batch).birds.gap)


def is_ready(batch: Batch) -> bool:
    """Fit for the new house without heat: warm nights and feathers on the back. Unanswered counts
    as cold and not feathered."""
    return batch.nights == "warm" and batch.feathered is True


def people_first(at: Standing) -> bool:
    """Whether bad air was told and nobody has said yet that all are well: nothing of birds is said
    by ourselves."""
    complaint = at.batch.complaint
    fresh = complaint is not None and at.now - complaint.opened_at < STALE
    return (
        complaint is not None
        and fresh
        and complaint.state == "open"
        and complaint.cause == "fumes"
        and POISONED in complaint.asked
    )


def no_fire_tonight(at: Standing) -> bool:
    """Whether bad air was told today: no fire goes back in there this night."""
    return any(one.values.get(POISONED) for one in lately(at.batch, "observed", at.today, 1))


def troubles(at: Standing) -> frozenset[str]:
    """What is wrong just now: the cause of the open complaint, while it is fresh; "chilled" where
    they were last seen piled at the heat, since yesterday; "alarm" where a danger was told and no
    vet was reached."""
    if "troubles" not in at.memo:
        at.memo["troubles"] = frozenset(_troubles(at))
    found: frozenset[str] = at.memo["troubles"]
    return found


def _troubles(at: Standing) -> set[str]:
    found: set[str] = set()
    complaint = at.batch.complaint
    if complaint is not None and complaint.state == "open" and complaint.cause is not None:
        found |= {complaint.cause} if at.now - complaint.opened_at < STALE else set()
    if at.batch.open_alarm(at.today) is not None:
        found.add("alarm")
    if "hot" not in found and _was_chilled(at):
        found.add("chilled")
    return found


def _was_chilled(at: Standing) -> bool:
    """Whether they piled at the heat since yesterday, and were not seen too warm after it."""
    seen = [_signals(one) for one in lately(at.batch, "observed", at.today, 2)]
    told = [one for one in seen if one & {PILED, *WARM}]
    return bool(told) and PILED in told[-1]


def _signals(one: Event) -> frozenset[str]:
    told = one.values.get("signals")
    return frozenset(map(str, told)) if isinstance(told, list | tuple) else frozenset()


def lately(batch: Batch, kind: str, today: date, days: int) -> list[Event]:
    since = today - timedelta(days=days)
    return [one for one in batch.live_events(kind) if one.on_date > since]


def is_hot(at: Standing) -> bool:
    """Heat was seen in the last three days: a reading that strains grown birds, panting or spread
    wings."""
    if "hot" not in at.memo:
        at.memo["hot"] = _is_hot(at)
    found: bool = at.memo["hot"]
    return found


def _is_hot(at: Standing) -> bool:
    for one in lately(at.batch, "temperature", at.today, 3):
        value = one.values.get("value_c")
        if isinstance(value, int | float) and strains(value, at):
            return True
    seen = lately(at.batch, "observed", at.today, 3)
    return any(_signals(one) & {"panting", "wings_spread"} for one in seen)


def strains(value_c: float, at: Standing) -> bool:
    """Whether air of so many degrees calls for action at this age, by the published index."""
    try:
        stress = heat_stress(value_c, JUDGED_HUMIDITY_PCT, at.age, at.calendar.book)
    except OutsideRange:
        return False
    return stress.level in ("act", "danger")


def weighed_lately(at: Standing) -> bool:
    """A weight came in the last four days."""
    return bool(lately(at.batch, "weight", at.today, 4))


def is_last_wait_day(at: Standing) -> bool:
    """Today is the last day of a withdrawal, and nothing else holds the batch."""
    return not at.batch.held and wait_ends(at.batch) == at.today


def heard_on(at: Standing) -> date | None:
    """The local day on which this farmer was last heard, by text or in the batch's record."""
    if "heard" not in at.memo:
        at.memo["heard"] = _heard_on(at)
    found: date | None = at.memo["heard"]
    return found


def _heard_on(at: Standing) -> date | None:
    moments = [one.at for one in at.batch.events]
    if at.case.phone.heard_at is not None:
        moments.append(at.case.phone.heard_at)
    if at.batch.arrived_at is not None:
        moments.append(at.batch.arrived_at)
    if not moments:
        return None
    return max(moments).astimezone(at.case.cooperative.zone).date()


def silent_days(at: Standing) -> int:
    """Days from placement on, before today, on which we wrote and heard nothing. Days on which we
    could not write do not count."""
    if "silent_days" not in at.memo:
        at.memo["silent_days"] = _silent_days(at)
    found: int = at.memo["silent_days"]
    return found


def _silent_days(at: Standing) -> int:
    since = heard_on(at)
    first = at.batch.placed_on or at.today
    if since is not None:
        first = max(first, since + timedelta(days=1))
    told = at.batch.said_days
    key = (NEWS, first, at.today)
    if key not in told.memo:
        told.memo[key] = sum(1 for day, slots in told.slots.items()
                             if first <= day < at.today and "morning" in slots)  # fmt: skip
    found: int = told.memo[key]
    return found


def is_silent(at: Standing) -> bool:
    """Silent for so long that one kind line asks for news, once in a silence."""
    return silent_days(at) >= SILENT_LATE and not _said_since_heard(at, NEWS)


def silence_is_new(at: Standing) -> bool:
    """Silent for so long that the adviser is told, who was not told of this silence before."""
    least = SILENT_EARLY if at.age <= EARLY_LAST else SILENT_LATE
    return at.age >= 0 and silent_days(at) >= least and not _said_since_heard(at, SILENCE)


def _said_since_heard(at: Standing, row: str) -> bool:
    told, heard = at.said.get(row), heard_on(at)
    return told is not None and (heard is None or told > heard)
