"""The prices and money that a farmer told, by this text or before. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from bot.decide.ask.asked import Asked
from bot.decide.ask.growth import weight_on
from bot.facts.farm import Batch
from bot.handbook.shape_husbandry import Husbandry


@dataclass(frozen=True, slots=True)
class Prices:
    """Money in the farmer's currency; None where nothing was told. feed_bag: a bag of 50 kg; chick:
    a day-old; kg: a kilogram live; bird: a grown bird."""

    feed_bag: float | None = None
    chick: float | None = None
    kg: float | None = None
    bird: float | None = None


def known_prices(asked: Asked) -> Prices:
    """What this text says, else what was told last, else what the cooperative set."""
    slots, batch, set_ = asked.slots, asked.case.batch, asked.case.cooperative.prices
    kg, bird = _sold_at(batch)
    if kg is None and bird is None:
        kg, bird = set_.get("kg"), set_.get("bird")
    if slots.price is not None:
        by_kg = slots.price_per == "kg"
        kg, bird = (slots.price, None) if by_kg else (None, slots.price)
    return Prices(
        feed_bag=slots.feed_price or _told(batch, "feed_bag") or set_.get("feed_bag"),
        chick=slots.chick_price or _told(batch, "chick") or set_.get("chick"),
        kg=kg,
        bird=bird,
    )


def _told(batch: Batch | None, of: str) -> float | None:
    for one in reversed(batch.live_events("price") if batch else ()):
        if one.values.get("of") == of:
            return float(str(one.values["amount"]))
    return None


def _sold_at(batch: Batch | None) -> tuple[float | None, float | None]:
    """The last price at which birds of this batch were sold: (a kilogram, a bird)."""
    for one in reversed(batch.live_events("sold") if batch else ()):
        price, birds = one.values.get("price"), int(str(one.values.get("n") or 0))
        if price is None:
            continue
        money = float(str(price))
        if one.values.get("price_per") == "kg":
            return money, None
        if one.values.get("price_per") == "all":
            return None, money / birds if birds else None
        return None, money
    return None, None


def spent(batch: Batch) -> float:
    """All that was told as spent."""
    return sum(float(str(one.values.get("amount") or 0)) for one in batch.live_events("expense"))


def income(batch: Batch, h: Husbandry) -> float:
    """What the sales told with their price brought; by the kilogram at the weight of that day."""
    total = 0.0
    for one in batch.live_events("sold"):
        price, birds = one.values.get("price"), int(str(one.values.get("n") or 0))
        if price is None:
            continue
        per = one.values.get("price_per")
        money = float(str(price))
        if per == "kg":
            age = batch.age(one.on_date) or 0
            money *= birds * weight_on(batch, age, h) / 1000
        elif per != "all":
            money *= birds
        total += money
    return total
