"""The ledger of a batch: all that its events add up to, in one place. Pure.

In: a batch with its events. Out: `Ledger`. What needs the tables of growth and feed besides
(how long feed lasts, the weight foretold) is counted from it: `stores.feed_stock`,
`husbandry.forecast`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal

from bot.facts.farm import Batch, Event
from bot.ledger.birds import Birds, birds_of
from bot.ledger.money import Money, money_of
from bot.ledger.settle import settled
from bot.ledger.stores import Feed, feed_of, water_of
from bot.ledger.withdrawal import wait_ends


@dataclass(frozen=True, slots=True)
class Weighed:
    """A weighing [g a bird]; birds: how many lay on the scale one by one, 0 where they were weighed
    together or it was not told."""

    on_date: date
    mean_g: float
    birds: int


@dataclass(frozen=True, slots=True)
class Ledger:
    """wait_ends: last day of a withdrawal period, date.max where its days are not known, None
    without a treatment. doubted: what was told and not applied, because the birds or the feed would
    have become less than none; oldest first."""

    birds: Birds
    feed: Feed
    water_litres: Decimal
    weighings: tuple[Weighed, ...]
    money: Money
    wait_ends: date | None
    doubted: tuple[Event, ...]

    @property
    def wait_unknown(self) -> bool:
        """A treatment was given of which the days on the label are not known."""
        return self.wait_ends == date.max

    @property
    def may_sell_from(self) -> date | None:
        """The first day after a withdrawal period; date.max where its days are not known."""
        if self.wait_ends is None or self.wait_ends == date.max:
            return self.wait_ends
        return self.wait_ends + timedelta(days=1)


def ledger_of(batch: Batch) -> Ledger:
    """Fold the events of a batch. The order in which they are given does not matter: what was told
    when stands in their ids."""
    batch = replace(batch, events=settled(batch.events))
    live = tuple(one for one in batch.events if not one.undone)
    return Ledger(
        birds=birds_of(batch, live),
        feed=feed_of(live),
        water_litres=water_of(live),
        weighings=_weighings(live),
        money=money_of(live),
        wait_ends=wait_ends(batch),
        doubted=tuple(one for one in live if one.kind == "doubted"),
    )


def _weighings(live: tuple[Event, ...]) -> tuple[Weighed, ...]:
    weighed = [one for one in live if one.kind == "weight"]
    weighed.sort(key=lambda one: (one.on_date, one.id))
    return tuple(
        Weighed(one.on_date, float(str(one.values["avg_g"])), _singles(one)) for one in weighed
    )


def _singles(one: Event) -> int:
    singles = one.values.get("weights_g")
    return len(singles) if isinstance(singles, list | tuple) else 0
