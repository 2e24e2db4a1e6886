"""The birds of a batch: placed, every way out, alive, and what counting them showed. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from bot.facts.farm import WAYS_OUT, Batch, Event

EXPLAINS = "explains"  # the id of the count that an entry told afterwards belongs before


@dataclass(frozen=True, slots=True)
class Count:
    """A count of the living. expected: alive at that moment by all that has been told since."""

    event_id: int
    on_date: date
    counted: int
    expected: int

    @property
    def gap(self) -> int:
        """Birds of the record that were not there; below 0: more were there than the record has."""
        return self.expected - self.counted


@dataclass(frozen=True, slots=True)
class Birds:
    """placed: as delivered. out: birds gone, by each of facts.farm.WAYS_OUT. counts: oldest first.
    placed = alive + all out - short."""

    placed: int
    out: Mapping[str, int]
    counts: tuple[Count, ...] = ()

    @property
    def gone(self) -> int:
        return sum(self.out.values())

    @property
    def alive(self) -> int:
        return max(0, self.placed - self.gone)

    @property
    def short(self) -> int:
        """Birds that the record sends out without having them; 0 where it balances."""
        return max(0, self.gone - self.placed)

    @property
    def dead(self) -> int:
        """Died, on the way or here, or were put down."""
        return sum(self.out[kind] for kind in ("deaths", "dead_on_arrival", "culled"))

    @property
    def gap(self) -> int:
        """What the last count showed, by all that has been told since; 0 without a count."""
        return self.counts[-1].gap if self.counts else 0

    @property
    def livability_pct(self) -> float | None:
        """Birds that did not die, of 100 that came alive; None where none came. Eaten, given and
        stolen birds did not die."""
        came = self.placed - self.out["dead_on_arrival"]
        died = self.out["deaths"] + self.out["culled"]
        return 100 * max(0, came - died) / came if came > 0 else None


def birds_of(batch: Batch, live: tuple[Event, ...]) -> Birds:
    """The birds of a batch by its live events."""
    placed = batch.count or 0
    out = {kind: sum(_n(one) for one in live if one.kind == kind) for kind in WAYS_OUT}
    counts = sorted(
        (one for one in live if one.kind == "counted"), key=lambda one: (one.on_date, one.id)
    )
    return Birds(placed, out, tuple(_count(one, placed, live) for one in counts))


def alive_on(batch: Batch, day: date) -> int:
    """The birds alive on the evening of a day, by all that has been told since."""
    gone = (_n(one) for kind in WAYS_OUT for one in batch.live_events(kind) if one.on_date <= day)
    return max(0, (batch.count or 0) - sum(gone))


def _count(count: Event, placed: int, live: tuple[Event, ...]) -> Count:
    gone = sum(_n(one) for one in live if one.kind in WAYS_OUT and _is_before(one, count))
    return Count(count.id, count.on_date, _n(count), max(0, placed - gone))


def _is_before(one: Event, count: Event) -> bool:
    """Whether those birds were gone when the living were counted: on an earlier day, earlier told
    of the same day, or told to explain the gap."""
    if one.values.get(EXPLAINS) == count.id or one.on_date < count.on_date:
        return True
    return one.on_date == count.on_date and one.id < count.id


def _n(one: Event) -> int:
    return int(str(one.values.get("n") or 0))
