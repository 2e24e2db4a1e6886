"""A batch that ends in a turn is closed in words: how it did, beside others, what to change.

In: a decision, the case, the database. Out: the same decision with the texts of the closing behind
it. Called by `turn.take` and the report's command.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from sqlalchemy import Connection

from bot.day.closing import Past, batch_after, closing_lines
from bot.facts.farm import Batch, Case
from bot.facts.talk import Decision
from bot.facts.writes import ChangeBatch
from bot.handbook.shapes import Handbook
from bot.records.case import ended_batches

Owner = tuple[int | None, int | None]
MOST = 200  # batches of a cooperative that are looked back on (common practice)


def with_closing(
    connection: Connection, case: Case, decision: Decision, handbook: Handbook
) -> Decision:
    """The decision, with the closing behind it where it ends a batch."""
    batch = _ending(case, decision)
    if batch is None:
        return decision
    ended = batch_after(batch, decision.writes, case.now)
    past = past_of(connection, case.cooperative.id, batch)
    lines = closing_lines(ended, past, handbook.husbandry)
    return replace(decision, more=(*decision.more, *((line,) for line in lines)))


def past_of(connection: Connection, cooperative_id: int, looked_at: Batch) -> Past:
    """The batches that ended before: of the same owner, and of the others of the cooperative. Where
    no owner is known the phone stands for one."""
    ended = ended_batches(connection, cooperative_id, MOST)
    found = [one for one in ended if one.id != looked_at.id]
    return Past(
        own=tuple(one for one in found if _owner(one) == _owner(looked_at)),
        others=tuple(_newest_of_each(found, but=_owner(looked_at))),
    )


def _newest_of_each(found: Iterable[Batch], but: Owner) -> Iterator[Batch]:
    """One voice each: the last batch of every other owner, so that nobody who invents batches
    bends what the rest are compared with."""
    seen = {but}
    for one in found:
        if _owner(one) not in seen:
            seen.add(_owner(one))
            yield one


def _owner(batch: Batch) -> Owner:
    return (batch.owner_id, None if batch.owner_id else batch.phone_id)


def _ending(case: Case, decision: Decision) -> Batch | None:
    """The batch that this decision closes; none where no bird was ever placed."""
    closed = {
        one.batch_id
        for one in decision.writes
        if isinstance(one, ChangeBatch) and one.changes.get("state") == "closed"
    }
    ran = (one for one in case.batches if one.state == "running")
    return next((one for one in ran if one.id in closed), None)
