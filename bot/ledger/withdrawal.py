"""When treated birds may be sold and eaten again. Pure."""

from __future__ import annotations

from datetime import date, timedelta

from bot.facts.farm import Batch


def wait_ends(batch: Batch) -> date | None:
    """The last day on which treated birds may not be sold: the day of the last treatment plus the
    days on its label; date.max where the days are not known. None without a treatment."""
    ends: list[date] = []
    for one in batch.live_events("treated"):
        days = one.values.get("days")
        known = isinstance(days, int | float) and not isinstance(days, bool)
        ends.append(one.on_date + timedelta(days=int(str(days))) if known else date.max)
    return max(ends, default=None)


def waits_unknown(batch: Batch) -> bool:
    """Whether a treatment's days on the label were never told: then nothing may be sold."""
    return wait_ends(batch) == date.max


def may_sell(batch: Batch, today: date) -> bool:
    """Neither held for a disease nor within a withdrawal period."""
    ends = wait_ends(batch)
    return not batch.held and (ends is None or today > ends)
