"""What stands once something due was said: the case as the database will hold it. In: the case, the
batch, what was said. Out: both anew. Pure; called by turn.plan, so that a chunk of batches need not
be read a second time to know when to look at each again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bot.day.items import Due
from bot.facts.farm import Batch, Case
from bot.facts.told import and_now
from bot.facts.writes import ChangeBatch, ChangeComplaint, TellAdviser, Write


def after(case: Case, batch: Batch, items: Sequence[Due]) -> tuple[Case, Batch]:
    """The case and the batch after these items. The question that one of them asks is left out: it
    has no say in when to look again. TypeError for a write that the calendar never makes."""
    for item in items:
        batch = batch.told(and_now(batch.said, item.on_date, item.slot, item.rows))
        for write in item.writes:
            batch = _written(batch, write)
    batches = tuple(batch if one.id == batch.id else one for one in case.batches)
    return replace(case, batches=batches), batch


def _written(batch: Batch, write: Write) -> Batch:
    if isinstance(write, TellAdviser):
        return batch
    if isinstance(write, ChangeBatch):
        return replace(batch, **dict(write.changes))  # type: ignore[arg-type]  # columns by name
    if isinstance(write, ChangeComplaint) and batch.complaint is not None:
        changed = replace(batch.complaint, **dict(write.changes))  # type: ignore[arg-type]  # as above
        return replace(batch, complaint=changed)
    raise TypeError(f"{type(write).__name__} is no write of the calendar")
