"""When the owner of birds hears how they do: in the evening of the last day of each week, where
somebody else has the daily texts. In: where a batch stands. Out: a Due without words, which are
`bot.decide.overview`'s. Pure; called by `bot.day.due` and moments.
"""

from __future__ import annotations

from bot.day.items import Due, until
from bot.day.standing import Standing

SLOT = "owner"
WEEK = 7


def is_owner_day(at: Standing) -> bool:
    """Whether a week ends today for birds whose owner does not hold the phone of their texts."""
    batch, holder = at.batch, at.case.person
    kept = holder is not None and batch.owner_id is not None and batch.owner_id != holder.id
    return kept and batch.state == "running" and at.age > 0 and (at.age + 1) % WEEK == 0


def weekly(at: Standing) -> Due | None:
    """The owner's line, once this evening."""
    if not is_owner_day(at) or SLOT in at.slots:
        return None
    if not at.night_opens <= at.local.time() < at.closes:
        return None
    return Due(SLOT, at.today, (SLOT,), (), None, "routine", until(at, at.closes))
