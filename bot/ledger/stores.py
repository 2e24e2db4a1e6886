"""Feed and water of a batch, and how long the feed lasts. Pure; kilograms and litres."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from math import floor
from statistics import median

from bot.facts.farm import Batch, Event
from bot.handbook.shape_husbandry import Husbandry
from bot.husbandry.feed_water import Lasts, feed_lasts, feed_left_kg
from bot.husbandry.limits import LAST_TABLE_AGE
from bot.ledger.numbers import exact

NOTHING = Decimal(0)
LEAST_NIGHTS, KEPT_NIGHTS = 2, 3  # of fuel told, from which a night's is taken; common practice


@dataclass(frozen=True, slots=True)
class Feed:
    """As told, exactly. bought = eaten + left - short."""

    bought_kg: Decimal
    eaten_kg: Decimal

    @property
    def left_kg(self) -> Decimal:
        return max(NOTHING, self.bought_kg - self.eaten_kg)

    @property
    def short_kg(self) -> Decimal:
        """Feed told as eaten that was never told as bought."""
        return max(NOTHING, self.eaten_kg - self.bought_kg)


@dataclass(frozen=True, slots=True)
class Stock:
    """The feed that should be left this morning: days without a report are taken from the table.
    until: the last day that it covers; None where it does not cover today."""

    kg: float
    lasts: Lasts
    until: date | None


def feed_of(live: tuple[Event, ...]) -> Feed:
    """Feed bought and eaten by the live events."""
    return Feed(_sum(live, "feed_in", "kg"), _sum(live, "feed_eaten", "kg"))


def water_of(live: tuple[Event, ...]) -> Decimal:
    """Litres told as drunk."""
    return _sum(live, "water", "litres")


def feed_stock(batch: Batch, today: date, h: Husbandry) -> Stock | None:
    """What is left of the feed bought, and how long it lasts the birds alive; None where no feed
    was told of, no bird is alive, or the age is beyond the table."""
    kg, age = feed_left(batch, today, h), batch.age(today)
    if kg is None or age is None:
        return None
    lasts = feed_lasts(kg, batch.alive, age, h)
    return Stock(kg, lasts, today + timedelta(days=lasts.days - 1) if lasts.days else None)


def feed_left(batch: Batch, today: date, h: Husbandry) -> float | None:
    """The kilograms of `feed_stock` alone; None where it is None."""
    age = batch.age(today)
    bought = _by_age(batch, "feed_in", today)
    if not bought or age is None or not 0 <= age < LAST_TABLE_AGE or not batch.alive:
        return None
    since = max(0, min(bought))
    eaten = _by_age(batch, "feed_eaten", today)
    return feed_left_kg(sum(bought.values()), since, age, eaten, batch.alive, h)


def fuel_nights(batch: Batch, today: date) -> int | None:
    """Whole nights, the coming one the first, that the fuel bought lasts as this farm burns it: the
    middle of its last told nights, which stands for nights not told as well. None where no fuel was
    told as bought, or fewer than two nights as burnt: then nothing is known."""
    bought, burnt = batch.live_events("fuel_in"), batch.live_events("fuel")
    told = [float(exact(one.values.get("kg"))) for one in burnt]
    if not bought or len(told) < LEAST_NIGHTS:
        return None
    a_night = median(told[-KEPT_NIGHTS:])
    since = max(min(one.on_date for one in bought), batch.placed_on or today)
    known = {one.on_date for one in burnt if since <= one.on_date < today}
    nights = max(0, (today - since).days)
    gone = sum(float(exact(one.values.get("kg"))) for one in burnt if one.on_date in known)
    gone += max(0, nights - len(known)) * a_night
    left = sum(float(exact(one.values.get("kg"))) for one in bought) - gone
    return max(0, floor(left / a_night + 1e-9)) if a_night else None


def _by_age(batch: Batch, kind: str, today: date) -> Mapping[int, float]:
    """Kilograms told of each age up to today."""
    found: dict[int, float] = defaultdict(float)
    for one in batch.live_events(kind):
        age = batch.age(one.on_date)
        if age is not None and one.on_date <= today:
            kg = one.values.get("kg")
            found[age] += float(kg) if isinstance(kg, int | float) else 0.0
    return found


def _sum(live: tuple[Event, ...], kind: str, name: str) -> Decimal:
    return sum((exact(one.values.get(name)) for one in live if one.kind == kind), NOTHING)
