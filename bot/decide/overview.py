"""Looking at what is known: status, the last entry taken back.

In: STATUS, UNDO. Out: one part that says it. Called by `turn.choose`.
"""

from __future__ import annotations

from bot.decide.common import answer, maybe, no_batch, running, say
from bot.facts.farm import Batch, Case, Event
from bot.facts.talk import Decision, Line, Meaning
from bot.facts.writes import UndoEvents
from bot.handbook.shapes import Handbook
from bot.husbandry.temperature import spot_temperature_c


def status(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Day, birds alive, deaths, what the heat should be, the last weight: one part."""
    del meaning
    batch = case.batch
    if batch is None or batch.placed_on is None or batch.count is None:
        return no_batch(case)
    age = (case.today - batch.placed_on).days
    if batch.state == "planned" or age < 0:
        return answer(say("status_planned", n=batch.count, date=batch.placed_on))
    lines: list[Line] = [say("status", day=age + 1, alive=batch.alive, n=batch.count,
                             dead=_dead(batch))]  # fmt: skip
    if age <= 20:
        lines.append(
            maybe("status_heat", target=spot_temperature_c(age, handbook.husbandry).value_c)
        )
    weights = batch.live_events("weight")
    if weights:
        last = weights[-1]
        days = batch.age(last.on_date) or 0
        lines.append(
            maybe("status_weight", g=round(float(str(last.values["avg_g"]))), day=days + 1)
        )
    fed = sum(float(str(one.values["kg"])) for one in batch.live_events("feed_eaten"))
    if fed:
        lines.append(maybe("status_feed", kg=round(fed)))
    return Decision(tuple(lines))


def _dead(batch: Batch) -> int:
    return batch.total("deaths") + batch.total("dead_on_arrival") + batch.total("culled")


def undo(meaning: Meaning, case: Case, handbook: Handbook) -> Decision:
    """Take back the entries of the last text that made any; they stay in the record, marked."""
    del meaning, handbook
    batch = running(case) or case.batch
    last = _last_entries(batch) if batch else ()
    if not last:
        return answer(say("nothing_to_undo"))
    return Decision(
        (say("undone", what=last[0].kind),), (UndoEvents(tuple(one.id for one in last)),)
    )


def _last_entries(batch: Batch) -> tuple[Event, ...]:
    live = [one for one in batch.events if not one.undone and one.turn_id is not None]
    if not live:
        return ()
    return tuple(one for one in live if one.turn_id == live[-1].turn_id)
