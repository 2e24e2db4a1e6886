"""The chicks have come: age 0 is set, to the hour, and the first day begins.

In: ARRIVED, or the answer to "Have they come?". Out: the batch runs, and an answer that stands
alone: water now, feed at its hour. Called by `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from bot.day.arrival import arrival_texts
from bot.day.rows import fire_kept
from bot.decide.common import about, answer, asked_batch, menu, number, say
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision, Line, Meaning, Question
from bot.facts.writes import (
    AddBatch,
    AddEvent,
    ChangeBatch,
    CloseQuestion,
    Join,
    SetConsent,
    Write,
)
from bot.handbook.shapes import Handbook

NEW_HOURS = timedelta(hours=3)  # told again so much later, the box has only come now
EARLY = 1  # days before the day planned; an arrival told earlier may be something else that came


def have_they_come(batch: Batch) -> Question:
    """Are they here? 1 yes 2 not yet: of this batch."""
    asked = menu("arrived", "have_they_come", ("yes", "not_yet"))
    return about(asked, batch=str(batch.id))


def arrived(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The day and hour of arrival; what is missing is asked for after the first words of help."""
    batch = _awaited(case)
    if batch is None:
        running = case.batch
        if running is not None and _just_here(running, case):
            return _told_again(meaning, running, case, handbook)
        if running is not None and running.count is not None and running.placed_on is not None:
            return answer(say("known_already", n=running.count, date=running.placed_on))
        return _unannounced(meaning, case)
    if batch.placed_on is not None and (batch.placed_on - case.today).days > EARLY:
        return Decision((say("ordered_for", date=batch.placed_on),), (), have_they_come(batch))
    return _welcome(meaning, case, batch, handbook)


def answer_arrived(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """1 yes: they are here. 2 not yet: the clock stops until they are."""
    batch = asked_batch(case)
    if batch is None:
        return answer(say("register_first"))
    if meaning.slots.answer == "yes":
        return _welcome(meaning, case, batch, handbook)
    if batch.placed_on is not None and batch.placed_on > case.today:
        return Decision((say("step_again"),), (CloseQuestion(),))
    tomorrow = case.today + timedelta(days=1)  # asked again then; "arrived" says it any time
    changes = {"state": "planned", "placed_on": tomorrow, "arrived_at": None,
               "said": fire_kept(batch, tomorrow)}  # fmt: skip
    return Decision((say("clock_stopped"),), (ChangeBatch(batch.id, changes),))


def cancelled(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """The order fell through, or they never came: the batch ends as never placed, and nothing more
    is asked of it. With birds here nothing is ended."""
    del meaning, handbook
    batch = _awaited(case)
    if batch is None:
        return answer(say("register_first" if case.batch is None else "cancelled_here"))
    ended = ChangeBatch(batch.id, {"state": "closed", "count": 0})
    return Decision((say("cancelled", n=batch.count or 0),), (ended, CloseQuestion()))


def _awaited(case: Case) -> Batch | None:
    """The batch that is expected: planned, a draft, or placed today and not yet said to be here."""
    for one in case.batches:
        here_today = one.state == "running" and one.arrived_at is None
        if one.state in ("planned", "draft") or (here_today and one.age(case.today) == 0):
            return one
    return None


def _just_here(batch: Batch, case: Case) -> bool:
    """They came today and it is told again: what the first hours need is said again."""
    return batch.state == "running" and batch.age(case.today) == 0 and batch.arrived_at is not None


def _told_again(meaning: Meaning, batch: Batch, case: Case, handbook: Handbook) -> Decision:
    """What the first hours need is said again; told hours later, these hours begin anew."""
    moment, known = _moment(meaning, case), batch.arrived_at
    writes: tuple[Write, ...] = ()
    if known is not None and moment - known >= NEW_HOURS:
        batch = replace(batch, arrived_at=moment)
        writes = (ChangeBatch(batch.id, {"arrived_at": moment}),)
    lines, *more = arrival_texts(case, batch, handbook.calendar, case.now)
    noted, claim = _dead_in_the_box(meaning, case, batch, batch.count)
    return Decision(lines, (*writes, *noted), more=(*claim, *more))


def _welcome(meaning: Meaning, case: Case, batch: Batch, handbook: Handbook) -> Decision:
    moment = _moment(meaning, case)
    count = meaning.slots.count or batch.count
    changes: dict[str, object] = {
        "state": "running" if count else "draft",
        "placed_on": moment.astimezone(case.cooperative.zone).date(),
        "arrived_at": moment,
        "count": count,
    }
    here = replace(batch, **changes)  # type: ignore[arg-type]  # names and types of Batch fields
    lines, *more = arrival_texts(case, here, handbook.calendar, case.now)
    writes: list[Write] = [ChangeBatch(batch.id, changes)]
    noted, claim = _dead_in_the_box(meaning, case, batch, count)
    ask = None if count else number("count", "ask_count", "count", 1, 20_000)
    return Decision(lines, (*writes, *noted), ask, more=(*claim, *more))


def _dead_in_the_box(
    meaning: Meaning, case: Case, batch: Batch, count: int | None
) -> tuple[tuple[Write, ...], tuple[tuple[Line, ...], ...]]:
    """The dead told with the arrival, and the claim to the hatchery above 2 % (practice)."""
    dead = meaning.slots.deaths
    if not dead:
        return (), ()
    noted = AddEvent(batch.id, "dead_on_arrival", case.today, {"n": dead})
    heavy = count is not None and dead > 0.02 * count
    return (noted,), ((say("claim_hatchery", n=dead),),) if heavy else ()


def _unannounced(meaning: Meaning, case: Case) -> Decision:
    """Nothing was planned: the batch begins with this text."""
    moment = _moment(meaning, case)
    count = meaning.slots.count
    changes: dict[str, object] = {
        "state": "running" if count else "draft",
        "placed_on": moment.astimezone(case.cooperative.zone).date(),
        "arrived_at": moment,
        "count": count,
    }
    joining: tuple[Write, ...] = ()
    if case.person is None:
        joining = (Join(case.language),)
    elif case.phone.consent != "active":
        joining = (SetConsent("active", "own text"),)
    ask = None if count else number("count", "ask_count", "count", 1, 20_000)
    line = say("arrived_new")
    return Decision((line,), (*joining, AddBatch(changes)), ask)


def _moment(meaning: Meaning, case: Case) -> datetime:
    """When they came: the hour said, the day said at 08:00, else now."""
    local = case.local
    offset = min(0, meaning.slots.date_iso_offset or 0)
    if meaning.slots.time:
        hour, _, minute = meaning.slots.time.partition(":")
        local = local.replace(hour=int(hour), minute=int(minute or 0), second=0, microsecond=0)
        said = local + timedelta(days=offset)
        return min(said, case.now)
    if offset < 0:
        return local.replace(hour=8, minute=0, second=0, microsecond=0) + timedelta(days=offset)
    return case.now
