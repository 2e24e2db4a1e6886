"""The entries of a record one by one: the last ones told, and the figure of each. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from bot.facts.farm import WAYS_OUT, Batch, Event

# The name under which each kind of entry keeps its figure.
FIGURE_OF: dict[str, str] = {
    **dict.fromkeys((*WAYS_OUT, "counted", "doubted"), "n"),
    "feed_in": "kg",
    "feed_eaten": "kg",
    "fuel": "kg",
    "fuel_in": "kg",
    "water": "litres",
    "weight": "avg_g",
    "temperature": "value_c",
    "humidity": "rh_pct",
    "crop": "full",
    "expense": "amount",
    "price": "amount",
    "treated": "days",
}


def figure_of(one: Event) -> float | None:
    """The figure of an entry; None where it has none."""
    found = one.values.get(FIGURE_OF.get(one.kind, ""))
    return float(found) if isinstance(found, int | float) else None


def last_entries(batches: Iterable[Batch]) -> tuple[Batch, tuple[Event, ...]] | None:
    """What the last text that made entries put down, and the batch it put them down for; None
    where nothing is left to take back. Only the batch last written to is looked at: taking back one
    thing more never reaches over to another batch."""
    last: tuple[int, Batch] | None = None
    for batch in batches:
        turns = [one.turn_id for one in batch.events if one.turn_id is not None]
        if turns and (last is None or max(turns) > last[0]):
            last = max(turns), batch
    if last is None:
        return None
    left = [one for one in last[1].events if one.turn_id is not None and not one.undone]
    turn = max((one.turn_id or 0 for one in left), default=None)
    return None if turn is None else (last[1], tuple(one for one in left if one.turn_id == turn))
