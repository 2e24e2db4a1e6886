"""What a batch costs and at which price it comes out even. Pure; money in any one currency.

In: birds, ages, the prices that the farmer told. Out: ranges where a price was not told: feed is
60-75 % of what a batch costs, heat, litter, vaccines and hands 10-20 % (from memory). Called by the
answers and `figures`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10

from bot.errors import OutsideRange
from bot.handbook.shape_husbandry import Constant, Husbandry
from bot.husbandry.feed_water import feed_by_phase
from bot.husbandry.growth import HOT_STRAIN, weight_g
from bot.husbandry.limits import check
from bot.husbandry.losses import birds_left
from bot.husbandry.sale import MOST_MONEY


@dataclass(frozen=True, slots=True)
class Budget:
    """The cash of a batch [money]: chicks and feed as told (0: not told), all of it from low to
    high, what that is a bird sold and a kilogram sold, and the bags of feed."""

    chicks: float
    feed: float
    bags: int
    low: float
    high: float
    bird_low: float
    bird_high: float
    kg_low: float
    kg_high: float


@dataclass(frozen=True, slots=True)
class CostSoFar:
    """What a batch has cost by its record [money], less what it brought: in all, a bird alive, and
    a kilogram alive (None where the weight is not known)."""

    total: float
    bird: float
    kg: float | None


def batch_budget(
    count: int, to_age: int, h: Husbandry, *, feed_bag: float | None, chick: float | None
) -> Budget:
    """The budget to an age, by the price of a bag of feed (50 kg), with or without that of a chick.
    Break-even is all of it over the birds (and kilograms) that live to be sold. Valid at ages 8-42.
    OutsideRange without the price of feed."""
    if feed_bag is None:
        raise OutsideRange("the price of a bag of feed is missing", "a price")
    check("to_age", to_age, 8, 42, "days old at sale")
    for name, price in (("feed_bag", feed_bag), ("chick", chick or 0.0)):
        check(name, price, 0, MOST_MONEY, "money")
    bags = sum(one.bags for one in feed_by_phase(count, 0, to_age, h))
    feed = bags * feed_bag
    if chick is None:
        low, high = feed / _high(h.feed_cost_share), feed / _low(h.feed_cost_share)
    else:
        told = feed + count * chick
        low = told / (1 - _low(h.other_cost_share))
        high = told / (1 - _high(h.other_cost_share))
    sold = birds_left(count, 0, to_age, h)
    kg = sold * weight_g(to_age, h, HOT_STRAIN).value_g / 1000
    return Budget(
        (chick or 0.0) * count, feed, bags, low, high, low / sold, high / sold, low / kg, high / kg
    )


def cost_so_far(spent: float, income: float, alive: int, weight: float | None = None) -> CostSoFar:
    """What is still to come in [money]: spent less income, a bird alive and a kilogram of them;
    weight: grams a bird. OutsideRange for no birds or money below 0."""
    check("alive", alive, 1, 1_000_000, "birds alive")
    check("spent", spent, 0, MOST_MONEY, "money")
    check("income", income, 0, MOST_MONEY, "money")
    left = max(0.0, spent - income)
    kg = None if weight is None else left / (alive * weight / 1000)
    return CostSoFar(left, left / alive, kg)


def rough(money: float) -> int:
    """Money as it is told in a rough sum: three figures."""
    if money < 1000:
        return round(money)
    step = int(10 ** (floor(log10(money)) - 2))
    return round(money / step) * step


def _low(entry: Constant) -> float:
    return entry.value if entry.low is None else entry.low


def _high(entry: Constant) -> float:
    return entry.value if entry.high is None else entry.high
